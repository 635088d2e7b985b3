#include "view/stage.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <numbers>

#include "support/train_notation.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// How far the two differ at most: in mm where they stand, and as sines where they point.
double difference(const glm::dmat4& a, const glm::dmat4& b) {
    double most = 0.0;
    for (int column = 0; column < 4; ++column)
        for (int row = 0; row < 4; ++row) most = std::max(most, std::abs(a[column][row] - b[column][row]));
    return most;
}

glm::dvec3 turned(const glm::dvec3& point, double turns) {
    const double c = std::cos(turns * kTurn);
    const double s = std::sin(turns * kTurn);
    return {c * point.x - s * point.y, s * point.x + c * point.y, point.z};
}

glm::dmat4 matrix_of(const glm::dvec3& centre, double turns) {
    const glm::dvec3 x = turned({1, 0, 0}, turns);
    const glm::dvec3 y = turned({0, 1, 0}, turns);
    return {glm::dvec4(x, 0), glm::dvec4(y, 0), glm::dvec4(0, 0, 1, 0), glm::dvec4(centre, 1)};
}

const Ratio kInstants[] = {Ratio(0), Ratio(1, 4), Ratio(17, 7), Ratio(-355, 113), Ratio(1234567, 1000)};

TEST(Standing, IsThePlacementAtTheStart) {
    for (const std::string& name : shipped_names()) {
        const ShownScene scene = shown_scene(name);
        const Standing standing = scene.after(0);
        ASSERT_EQ(standing.frame_from_place.size(), scene.stage.placement.places.size()) << name;
        for (std::size_t p = 0; p < standing.frame_from_place.size(); ++p) {
            const PlanePoint& centre = scene.stage.placement.places[p].centre_mm;
            EXPECT_LT(difference(standing.frame_from_place[p], matrix_of({centre.x_mm, centre.y_mm, 0.0}, 0.0)), 1e-9)
                << name << ", place " << p;
        }
    }
}

// The tabular method, by hand, for one turn of the crank with the ring held (derived):
//     carrier fixed, crank +1     crank 1, planet -21/24, ring -21/24 * 24/69 = -7/23
//     all together by 7/30        so that the ring stands: times 23/30, plus 7/30
// The drum turns by 7/30, a planet by 7/30 - 23/30 * 21/24 = -7/16, at 3 (21 + 24) / 2 = 67.5 mm from the axis.
TEST(Standing, OfTheCapstanFollowsTheTabularMethod) {
    const ShownScene scene = shown_scene("harbour_capstan");
    for (const Ratio& instant : kInstants) {
        const Standing standing = scene.after(instant);
        const double turns = instant.to_double();
        const auto at = [&](const std::string& member, int copy = 1) {
            return standing.frame_from_place[scene.place(member, copy).position()];
        };
        EXPECT_TRUE(standing.moves);
        EXPECT_LT(difference(at("crank"), matrix_of({}, turns)), 1e-8);
        EXPECT_LT(difference(at("drum"), matrix_of({}, turns * 7 / 30)), 1e-8);
        EXPECT_LT(difference(at("ring"), matrix_of({}, 0.0)), 1e-8);
        for (int copy = 1; copy <= 3; ++copy) {
            const glm::dvec3 centre = turned({67.5, 0, 0}, (copy - 1) / 3.0 + turns * 7 / 30);
            EXPECT_LT(difference(at("planet", copy), matrix_of(centre, -turns * 7 / 16)), 1e-8) << copy;
        }
    }
}

// For one turn of the platform, by hand (derived): the kerb wheel stands, so a table turns by 1 + 50/30 = 8/3; the hub
// turns with the platform, so a boat turns by 8/3 + 36/20 * (8/3 - 1) = 17/3. Tables are 5 (50 + 30) / 2 = 200 mm from
// the middle, boats 5 (36 + 20) / 2 = 140 mm from their table's axis.
TEST(Standing, OfTheCarouselCarriesWhatRidesOnWhatRides) {
    const ShownScene scene = shown_scene("boat_carousel");
    for (const Ratio& instant : kInstants) {
        const Standing standing = scene.after(instant);
        const double turns = instant.to_double();
        int boats = 0;
        for (std::size_t p = 0; p < standing.frame_from_place.size(); ++p) {
            const Place& place = scene.stage.placement.places[p];
            if (place.member != scene.member("boat")) continue;
            const Place& table = scene.stage.placement[place.under];
            const glm::dvec3 centre = turned({200, 0, 0}, (table.own_copy - 1) / 3.0 + turns) +
                                      turned({140, 0, 0}, (place.own_copy - 1) / 2.0 + turns * 8 / 3);
            EXPECT_LT(difference(standing.frame_from_place[p], matrix_of(centre, turns * 17 / 3)), 1e-7);
            ++boats;
        }
        EXPECT_EQ(boats, 6);
    }
}

// Every joint of the capstan is back after 240 turns of the crank: 7/30, 7/16 and 161/240 of them are whole.
TEST(Standing, IsTheSameToTheLastBitAfterAMillionTurns) {
    const ShownScene scene = shown_scene("harbour_capstan");
    for (const Ratio& instant : kInstants) {
        const Standing now = scene.after(instant);
        for (const std::int64_t cycles : {1, 4167, 1000000, -4167})
            EXPECT_EQ(scene.after(instant + Ratio(240 * cycles)).frame_from_place, now.frame_from_place) << cycles;
        EXPECT_NE(scene.after(instant + Ratio(240 * 4167 + 1, 1)).frame_from_place, now.frame_from_place);
    }
}

TEST(Standing, IsTheSameByTurnsAndByPhases) {
    for (const std::string& name : shipped_names()) {
        const ShownScene scene = shown_scene(name);
        if (scene.motion.outcome != Outcome::moves) continue;
        for (const Ratio& instant : kInstants) {
            const Standing by_turns = scene.after(instant);
            const Standing by_phases =
                standing_with(scene.stage, scene.motion, joint_phases_turns(scene.motion, instant));
            EXPECT_EQ(by_phases.frame_from_place, by_turns.frame_from_place) << name;
            EXPECT_EQ(by_phases.rates_on_frame, by_turns.rates_on_frame) << name;
            EXPECT_EQ(by_phases.drivers, by_turns.drivers) << name;
            EXPECT_TRUE(by_phases.moves) << name;
        }
    }
}

// A quarter of the drum and a third of the crank are a pose without regard to any motion.
TEST(Standing, IsAnyPoseWhereTheMotionIsFreeOrLocked) {
    const ShownScene scene = shown_scene("harbour_capstan");
    std::vector<Ratio> phases(scene.stage.train.members.size());
    phases[scene.member("drum").position()] = Ratio(1, 4);
    phases[scene.member("crank").position()] = Ratio(1, 3);
    for (const char* setting : {"", "hold ring", "hold ring, drum; drive crank 1"}) {
        const Motion motion = solve(scene.stage.train, setting_from(scene.stage.train, setting));
        ASSERT_NE(motion.outcome, Outcome::moves);
        const Standing standing = standing_with(scene.stage, motion, phases);
        EXPECT_FALSE(standing.moves);
        EXPECT_EQ(standing.rates_on_frame, std::vector<double>(phases.size(), 0.0));
        const auto at = [&](const char* name) { return standing.frame_from_place[scene.place(name).position()]; };
        EXPECT_LT(difference(at("drum"), matrix_of({}, 0.25)), 1e-12);
        EXPECT_LT(difference(at("crank"), matrix_of({}, 1.0 / 3)), 1e-12);
        // 67.5 mm from the axis, as above.
        EXPECT_LT(difference(at("planet"), matrix_of({0, 67.5, 0}, 0.25)), 1e-12);
        EXPECT_NE(standing_at(scene.stage, motion, 1).frame_from_place, standing.frame_from_place);
    }
}

// drive = { drum = -3.5 }: the drum turns clockwise, and the crank 30/7 times as fast.
TEST(Standing, HasRatesTheWayTheDriverIsDriven) {
    const ShownScene scene = shown_scene("harbour_capstan", 1);
    const Standing standing = scene.after(0);
    EXPECT_EQ(standing.drivers, std::vector{scene.member("drum")});
    EXPECT_NEAR(standing.rates_on_frame[scene.member("drum").position()], -1.0, 1e-12);
    EXPECT_NEAR(standing.rates_on_frame[scene.member("crank").position()], -30.0 / 7, 1e-12);
    EXPECT_EQ(standing.rates_on_frame[scene.member("ring").position()], 0.0);
}

TEST(Standing, OfATrainThatDoesNotMoveIsTheStart) {
    const ShownScene locked = shown_scene("stuck_sluice");
    ASSERT_EQ(locked.motion.outcome, Outcome::locked);
    const Standing standing = locked.after(Ratio(17, 3));
    EXPECT_FALSE(standing.moves);
    EXPECT_EQ(standing.frame_from_place, shown_scene("stuck_sluice", 1).after(0).frame_from_place);
    EXPECT_EQ(standing.rates_on_frame, std::vector<double>(locked.stage.train.members.size(), 0.0));
    EXPECT_FALSE(locked.picture({}, Ratio(17, 3)).items.empty());
    const Stage stage = stage_of(shipped_train("harbour_capstan"));
    const Standing free = standing_at(stage, resting_motion(), 1);
    EXPECT_EQ(free.frame_from_place,
              standing_at(stage, solve(stage.train, stage.train.settings[0]), 0).frame_from_place);
}

TEST(Stage, OfTeethThatDoNotMeetGapsStillStands) {
    const ShownScene scene = shown_scene("misfit_mooring");
    EXPECT_EQ(scene.motion.outcome, Outcome::moves) << "motion needs tooth counts only";
    const Picture picture = scene.picture({}, 0);
    EXPECT_EQ(picture.items.size(), scene.stage.machine.parts.size());
    std::size_t planets = 0;
    for (const Part& part : scene.stage.machine.parts) planets += part.role == PartRole::planet ? 1 : 0;
    EXPECT_EQ(planets, 5U);
}

TEST(Stage, SharesShapesAmongItsPictures) {
    const ShownScene scene = shown_scene("harbour_capstan");
    EXPECT_EQ(scene.picture({}, 0).shapes, scene.picture({}, 1).shapes) << "what is uploaded once stays";
}

TEST(Observer, StandsStillInItsOwnPicture) {
    for (const char* name : {"harbour_capstan", "boat_carousel", "signal_arm"}) {
        const ShownScene scene = shown_scene(name);
        const std::vector<Member>& members = scene.stage.train.members;
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(members.size()); ++m) {
            const auto place = static_cast<std::size_t>(scene.stage.placement.first_place[static_cast<std::size_t>(m)]);
            const glm::dmat4 start = scene.after(0).frame_from_place[place];
            for (const Ratio& instant : kInstants) {
                const Standing standing = scene.after(instant);
                const glm::dmat4 observed =
                    observer_from_frame(scene.stage, standing, {m}) * standing.frame_from_place[place];
                EXPECT_LT(difference(observed, start), 1e-9) << members[static_cast<std::size_t>(m)].name;
            }
        }
    }
}

TEST(Observer, OnTheCarrierSeesThePlanetsStandStill) {
    const ShownScene scene = shown_scene("harbour_capstan");
    const MemberIndex drum = scene.member("drum");
    for (const Ratio& instant : kInstants) {
        const Standing standing = scene.after(instant);
        const glm::dmat4 from_frame = observer_from_frame(scene.stage, standing, drum);
        for (int copy = 1; copy <= 3; ++copy) {
            const glm::dmat4 planet = from_frame * standing.frame_from_place[scene.place("planet", copy).position()];
            EXPECT_LT(glm::length(glm::dvec3(planet[3]) - turned({67.5, 0, 0}, (copy - 1) / 3.0)), 1e-9);
        }
        // The planet's own turn on the drum, -161/240 of the crank's (the design, section 5).
        const glm::dmat4 first = from_frame * standing.frame_from_place[scene.place("planet").position()];
        EXPECT_LT(difference(first, matrix_of({67.5, 0, 0}, instant.to_double() * -161 / 240)), 1e-8);
    }
}

TEST(Observer, OfTheFrameChangesNothing) {
    const ShownScene scene = shown_scene("harbour_capstan");
    EXPECT_EQ(observer_from_frame(scene.stage, scene.after(1), kFrame), glm::dmat4(1.0));
}

// What a part is within: discs of one height, a plate being their hull.
std::vector<Hole> discs_of(const Shape& shape) {
    if (const auto* plate = std::get_if<PlateShape>(&shape)) return plate->lobes;
    return {{{0.0, 0.0}, 2 * extent_of(shape).radius_mm}};
}

// Each disc, wherever the machine has turned, lies in some reach and in the picture's bounds.
void expect_within(const ShownScene& scene, const StageLook& look, const Ratio& instant) {
    constexpr double kRounding_mm = 0.01;
    const Picture picture = scene.picture(look, instant);
    const std::vector<Bounds> reaches = reaches_of(scene.stage, look);
    for (std::size_t i = 0; i < picture.items.size(); ++i) {
        const Shape& shape = (*picture.shapes)[picture.items[i].shape];
        const Extent extent = extent_of(shape);
        for (const Hole& disc : discs_of(shape)) {
            const glm::dvec4 middle =
                glm::dmat4(picture.items[i].observer_from_part) * glm::dvec4(disc.centre.x_mm, disc.centre.y_mm, 0, 1);
            const auto holds = [&](const Bounds& bounds) {
                return std::hypot(middle.x - bounds.middle_mm.x, middle.y - bounds.middle_mm.y) +
                               0.5 * disc.diameter_mm <=
                           bounds.radius_mm + kRounding_mm &&
                       middle.z + extent.top_mm <= bounds.middle_mm.z + bounds.half_height_mm + kRounding_mm &&
                       middle.z + extent.bottom_mm >= bounds.middle_mm.z - bounds.half_height_mm - kRounding_mm;
            };
            const auto role = static_cast<int>(scene.stage.machine.parts[i].role);
            EXPECT_TRUE(std::ranges::any_of(reaches, holds))
                << "part " << i << " of role " << role << " seen from " << name_of(scene.stage.train, look.observer);
            EXPECT_TRUE(holds(picture.bounds)) << "part " << i << " of role " << role;
        }
    }
}

TEST(Reaches, HoldEveryPartAtEveryInstant) {
    for (const std::string& name : shipped_names()) {
        SCOPED_TRACE(name);
        const ShownScene scene = shown_scene(name);
        for (const double spread : {0.0, 0.5, 1.0})
            for (std::int32_t observer = -1; observer < static_cast<std::int32_t>(scene.stage.train.members.size());
                 observer += spread == 0.0 ? 1 : 2) {
                StageLook look;
                look.spread = spread;
                look.observer = {observer};
                for (const Ratio& instant : {Ratio(0), Ratio(2, 7), Ratio(97, 11)}) expect_within(scene, look, instant);
            }
    }
}

// A long narrow machine fills the picture all the same.
TEST(Reaches, AreNoLargerThanTheyHaveToBe) {
    for (const char* name : {"tide_dial", "harbour_capstan"}) {
        const ShownScene scene = shown_scene(name);
        const Camera camera = camera_for(scene.stage, {}, NamedView::top, 16.0 / 9);
        double widest = 0.0;
        for (const Bounds& reach : reaches_of(scene.stage, {}))
            widest = std::max({widest, std::abs(reach.middle_mm.x - camera.target_mm.x) + reach.radius_mm,
                               (std::abs(reach.middle_mm.y - camera.target_mm.y) + reach.radius_mm) * 16.0 / 9});
        EXPECT_GT(2 * widest, 0.8 * height_at_target_mm(camera) * 16.0 / 9) << name;
        double gears = 0.0;
        for (const PictureItem& item : scene.picture({}, 0, camera).items)
            gears = std::max(gears, std::abs(static_cast<double>(item.observer_from_part[3].x) - camera.target_mm.x));
        EXPECT_GT(gears, 0.15 * height_at_target_mm(camera)) << name;
    }
}

TEST(Reaches, AreNeverEmpty) {
    EXPECT_EQ(reaches_of(Stage{}, {}).size(), 1U);
}

TEST(Spread, LiftsEachLayerByTheSameStep) {
    const ShownScene scene = shown_scene("slipway_gearbox");
    StageLook open;
    open.spread = 1.0;
    StageLook half;
    half.spread = 0.5;
    const Camera camera;
    const Picture closed = scene.picture({}, Ratio(1, 3), camera);
    const Picture opened = scene.picture(open, Ratio(1, 3), camera);
    const Picture between = scene.picture(half, Ratio(1, 3), camera);
    double step = 0.0;
    for (std::size_t i = 0; i < closed.items.size(); ++i) {
        const glm::vec4 shift = opened.items[i].observer_from_part[3] - closed.items[i].observer_from_part[3];
        const glm::vec4 part = between.items[i].observer_from_part[3] - closed.items[i].observer_from_part[3];
        const auto layer = static_cast<float>(scene.stage.machine.parts[i].layer);
        EXPECT_EQ(glm::vec2(shift), glm::vec2(0.0F)) << "along the axes only";
        EXPECT_NEAR(part.z, 0.5F * shift.z, 1e-3);
        if (step == 0.0 && layer > 0) step = shift.z / layer;
        EXPECT_NEAR(shift.z, step * layer, 1e-3);
    }
    EXPECT_GT(step, 0.0);
}

TEST(Materials, AreTheMembersOwn) {
    const ShownScene scene = shown_scene("harbour_capstan");
    const MemberIndex drum = scene.member("drum");
    StageLook look;
    look.materials.resize(scene.stage.train.members.size());
    look.materials[drum.position()] = Material{Finish::painted, {0.1F, 0.2F, 0.3F}};
    const Picture usual = scene.picture({}, 0);
    const Picture painted = scene.picture(look, 0);
    std::size_t parts = 0;
    for (std::size_t i = 0; i < painted.items.size(); ++i) {
        const Part& part = scene.stage.machine.parts[i];
        const bool drums = part.place == scene.place("drum") && part.role != PartRole::fastener;
        parts += drums ? 1 : 0;
        EXPECT_EQ(painted.items[i].material.finish, drums ? Finish::painted : usual.items[i].material.finish);
        if (drums) {
            EXPECT_EQ(painted.items[i].material.colour, glm::vec3(0.1F, 0.2F, 0.3F));
        }
    }
    EXPECT_GE(parts, 1U);
}

TEST(LitUp, IsTheMemberPointedAt) {
    const ShownScene scene = shown_scene("harbour_capstan");
    StageLook look;
    look.lit_up = scene.member("planet");
    const Picture picture = scene.picture(look, 0);
    std::size_t lit = 0;
    for (std::size_t i = 0; i < picture.items.size(); ++i) {
        const Part& part = scene.stage.machine.parts[i];
        const bool planets = part.place >= scene.place("planet", 1) && part.place <= scene.place("planet", 3);
        EXPECT_EQ(picture.items[i].lit_up, planets ? 1.0F : 0.0F);
        lit += planets ? 1 : 0;
    }
    EXPECT_GE(lit, 3U);
}

std::size_t marked_shapes(const Picture& picture) {
    std::size_t marked = 0;
    for (const Shape& shape : *picture.shapes) {
        const auto* gear = std::get_if<GearShape>(&shape);
        const auto* ring = std::get_if<RingShape>(&shape);
        marked += (gear != nullptr && gear->marked) || (ring != nullptr && ring->marked) ? 1 : 0;
    }
    return marked;
}

TEST(Marks, AreOnEveryToothedShapeOrOnNone) {
    for (const Look look : {Look::metal, Look::clay, Look::line}) {
        const ShownScene scene = shown_scene("harbour_capstan");
        StageLook with;
        with.look = look;
        StageLook without = with;
        without.marks = false;
        EXPECT_EQ(marked_shapes(scene.picture(with, 0)), 3U) << "sun, planet and ring";
        EXPECT_EQ(marked_shapes(scene.picture(without, 0)), 0U);
    }
}

TEST(Cutaway, OpensWhatHidesTheMeshTowardsTheEye) {
    const ShownScene scene = shown_scene("harbour_capstan");
    StageLook look;
    for (const PictureItem& item : scene.picture(look, 0).items) EXPECT_FALSE(item.opened);
    look.cutaway = true;
    Camera camera = camera_for(scene.stage, look, NamedView::iso, 1.0);
    camera.azimuth_rad = 1.1;
    const Picture picture = scene.picture(look, 0, camera);
    for (std::size_t i = 0; i < picture.items.size(); ++i)
        EXPECT_EQ(picture.items[i].opened, scene.stage.machine.parts[i].opens);
    EXPECT_GT(picture.cut.half_angle_rad, 0.0F);
    const glm::dvec3 eye = eye_mm(camera);
    EXPECT_NEAR(std::remainder(std::atan2(eye.y - picture.cut.apex_mm.y, eye.x - picture.cut.apex_mm.x) -
                                   static_cast<double>(picture.cut.middle_rad),
                               kTurn),
                0.0, 0.1);
}

TEST(CameraFor, LooksAlongTheViewAndHoldsTheMachine) {
    const ShownScene scene = shown_scene("slipway_gearbox");
    for (const NamedView view : {NamedView::iso, NamedView::top, NamedView::front, NamedView::left}) {
        const Camera camera = camera_for(scene.stage, {}, view, 16.0 / 9);
        const Camera wished = turned_to(Camera{}, view);
        EXPECT_EQ(camera.azimuth_rad, wished.azimuth_rad);
        EXPECT_EQ(camera.elevation_rad, wished.elevation_rad);
        const glm::dmat4 clip =
            clip_from_view(camera, 16.0 / 9, enclosing(reaches_of(scene.stage, {}))) * view_from_observer(camera);
        for (const PictureItem& item : scene.picture({}, Ratio(1, 5), camera).items) {
            const glm::dvec4 at = clip * glm::dvec4(item.observer_from_part[3]);
            EXPECT_LT(std::max(std::abs(at.x), std::abs(at.y)), at.w);
        }
    }
}

}  // namespace
}  // namespace couplet
