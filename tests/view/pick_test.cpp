#include "view/pick.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <limits>
#include <numbers>
#include <string>

#include "support/dice.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// A scene after some turns, under a look and a camera.
struct Looked {
    ShownScene scene = shown_scene("harbour_capstan");
    Picker picker{scene.stage};
    StageLook look{};
    Standing standing = scene.after(0);
    Camera camera = camera_for(scene.stage, look, NamedView::top, 1.0);

    [[nodiscard]] std::optional<Picked> under(const Ray& ray) const {
        return picker.under(ray, scene.stage, standing, look, camera);
    }
    [[nodiscard]] std::optional<Picked> below(double x_mm, double y_mm) const {
        return under({{x_mm, y_mm, 1000.0}, {0.0, 0.0, -1.0}});
    }
    [[nodiscard]] std::string name_below(double x_mm, double y_mm) const {
        const std::optional<Picked> picked = below(x_mm, y_mm);
        return picked ? name_of(scene.stage.train, picked->member) : "nothing";
    }
    [[nodiscard]] const Part& part_of(const Picked& picked) const { return scene.stage.machine.parts[picked.part]; }
};

glm::dvec2 at(double radius_mm, double turns) {
    return {radius_mm * std::cos(turns * kTurn), radius_mm * std::sin(turns * kTurn)};
}

// Module 3: round its axis the crank's pinion has metal to 3 (21 - 2.5) / 2 = 27.75 mm, a planet, 67.5 mm from there,
// to 3 (24 - 2.5) / 2 = 32.25 mm round its own, the ring from 3 (69 + 2.5) / 2 = 107.25 mm on. The rim above the web is
// 2.25 modules wide (solid/gear_shapes.cpp): from 21 and 25.5 mm on.
constexpr double kPinionRim_mm = 25.0;
constexpr double kPlanetRim_mm = 29.0;

TEST(Pick, StraightDownMeetsEachGear) {
    const Looked looked;
    EXPECT_EQ(looked.name_below(kPinionRim_mm, 0), "crank");
    EXPECT_EQ(looked.name_below(0, -kPinionRim_mm), "crank");
    for (int copy = 1; copy <= 3; ++copy) {
        const glm::dvec2 centre = at(67.5, (copy - 1) / 3.0);
        for (const double direction : {0.1, 0.4, 0.9}) {
            const glm::dvec2 point = centre + at(kPlanetRim_mm, direction);
            const std::optional<Picked> picked = looked.below(point.x, point.y);
            ASSERT_TRUE(picked);
            EXPECT_EQ(name_of(looked.scene.stage.train, picked->member), "planet");
            EXPECT_EQ(picked->place, looked.scene.place("planet", copy));
        }
    }
    for (const double direction : {0.0, 0.3, 0.7}) {
        const glm::dvec2 point = at(109.0, direction);
        EXPECT_EQ(looked.name_below(point.x, point.y), "ring");
    }
}

TEST(Pick, SaysWhichPartAndWhere) {
    const Looked looked;
    const std::optional<Picked> picked = looked.below(kPinionRim_mm, 0.0);
    ASSERT_TRUE(picked);
    const Part& part = looked.part_of(*picked);
    EXPECT_EQ(part.role, PartRole::sun_or_wheel);
    const double top_mm = part.z_mm + extent_of(looked.scene.stage.machine.shapes[part.shape]).top_mm;
    EXPECT_LT(glm::distance(picked->point_mm, {kPinionRim_mm, 0.0, top_mm}), 1e-4) << "a float's digits";
    EXPECT_LT(glm::distance(picked->point_on_place, picked->point_mm), 1e-12) << "one frame at the start";
}

// The planets are 32.25 to 39 mm in radius and a third of a turn apart, which leaves gaps between them; the drum's arms
// below are narrower. A planet has a gap on +X, whose bottom is 67.5 + 32.25 = 99.75 mm from the axis, and the ring's
// tooth in it begins at 3 (69 - 2) / 2 = 100.5 mm.
TEST(Pick, SeesThroughTheGapsToWhatLiesBelow) {
    const Looked looked;
    const glm::dvec2 gap = at(90.0, 1.0 / 6);
    const std::optional<Picked> below = looked.below(gap.x, gap.y);
    ASSERT_TRUE(below);
    EXPECT_EQ(below->member, kFrame);
    EXPECT_EQ(below->place, PlaceIndex{-1});
    EXPECT_EQ(looked.part_of(*below).role, PartRole::stand);
    EXPECT_NEAR(below->point_mm.z, 0.0, 1e-6) << "the top of the stand";
    const glm::dvec2 plate = at(45.0, 1.0 / 6);
    EXPECT_EQ(looked.name_below(plate.x, plate.y), "drum") << "between the planets, outside the pinion";
    EXPECT_EQ(looked.name_below(99.5, 0.0), "planet");
    EXPECT_EQ(looked.name_below(100.1, 0.0), "frame") << "between the planet's root and the ring's tip";
    EXPECT_EQ(looked.name_below(100.7, 0.0), "ring");
}

// Five holes through a planet's web, 38.25 / 2 mm from its axis and 7.65 mm wide, the first half a pitch from +X.
// Below them is the drum's plate, or beside it the stand.
TEST(Pick, SeesThroughHoles) {
    const Looked looked;
    for (int hole = 0; hole < 5; ++hole) {
        const double direction = 0.5 / 24 + hole / 5.0;
        const glm::dvec2 middle = glm::dvec2(67.5, 0.0) + at(38.25 / 2, direction);
        const glm::dvec2 beside = glm::dvec2(67.5, 0.0) + at(38.25 / 2, direction + 0.1);
        EXPECT_EQ(looked.name_below(beside.x, beside.y), "planet");
        const std::string below = looked.name_below(middle.x, middle.y);
        EXPECT_TRUE(below == "drum" || below == "frame") << below;
    }
}

TEST(Pick, MeetsNothingBesideTheMachine) {
    const Looked looked;
    EXPECT_EQ(looked.name_below(500.0, 0.0), "nothing");
    EXPECT_FALSE(looked.under({{0.0, 0.0, 1000.0}, {0.0, 0.0, 1.0}})) << "behind the ray";
    EXPECT_FALSE(looked.under({{-1000.0, 0.0, 500.0}, {1.0, 0.0, 0.0}})) << "above it";
    EXPECT_FALSE(looked.under({{1000.0, -1000.0, 25.0}, {0.0, 1.0, 0.0}})) << "past it";
}

TEST(Pick, TakesTheNearestFromEverySide) {
    const Looked looked;
    const std::optional<Picked> from_below = looked.under({{0.0, 100.0, -1000.0}, {0.0, 0.0, 1.0}});
    ASSERT_TRUE(from_below);
    EXPECT_EQ(from_below->member, kFrame);
    EXPECT_NEAR(from_below->point_mm.z, looked.part_of(*from_below).z_mm, 1e-4) << "the underside of the base";
    // Level with the gears, from +X: the ring's outside, 116.25 mm from the axis but for the coarseness.
    const std::optional<Picked> level = looked.under({{1000.0, 0.0, 26.0}, {-1.0, 0.0, 0.0}});
    ASSERT_TRUE(level);
    EXPECT_EQ(name_of(looked.scene.stage.train, level->member), "ring");
    EXPECT_NEAR(level->point_mm.x, looked.scene.stage.machine.radius_mm, 0.2);
}

// 15/7 turns of the crank take the drum half a turn on (7/30 of it), and the first planet to where -X was.
TEST(Pick, FollowsWhatTurns) {
    Looked looked;
    looked.standing = looked.scene.after(Ratio(15, 7));
    const glm::dvec2 point = at(67.5, 0.5) + at(kPlanetRim_mm, 0.4);
    const std::optional<Picked> picked = looked.below(point.x, point.y);
    ASSERT_TRUE(picked);
    EXPECT_EQ(picked->place, looked.scene.place("planet", 1));
}

TEST(Pick, SeesAsTheObserverDoes) {
    Looked looked;
    looked.standing = looked.scene.after(Ratio(15, 7));
    looked.look.observer = looked.scene.member("drum");
    const glm::dvec2 point = at(67.5, 0.0) + at(kPlanetRim_mm, 0.4);
    const std::optional<Picked> picked = looked.below(point.x, point.y);
    ASSERT_TRUE(picked);
    EXPECT_EQ(picked->place, looked.scene.place("planet", 1)) << "in the drum's eyes it stays";
    EXPECT_LT(glm::distance(point_of(looked.scene.stage, looked.standing, looked.look, *picked), picked->point_mm),
              1e-9);
}

TEST(Pick, MeetsPartsWhereASpreadPullsThem) {
    Looked looked;
    const Picked closed = looked.below(kPinionRim_mm, 0.0).value();
    const Ray level{{kPinionRim_mm, -1000.0, closed.point_mm.z - 5.0}, {0.0, 1.0, 0.0}};
    EXPECT_EQ(name_of(looked.scene.stage.train, looked.under(level).value().member), "ring");
    looked.look.spread = 1.0;
    const Picked spread = looked.below(kPinionRim_mm, 0.0).value();
    EXPECT_EQ(spread.part, closed.part);
    const double shift_mm = spread_shift_mm(looked.scene.stage, looked.look, looked.part_of(spread));
    EXPECT_GT(shift_mm, 50.0);
    EXPECT_NEAR(spread.point_mm.z, closed.point_mm.z + shift_mm, 1e-4);
    EXPECT_LT(glm::distance(spread.point_on_place, closed.point_on_place), 1e-4) << "the same point of the pinion";
    const std::optional<Picked> emptied = looked.under(level);
    EXPECT_TRUE(!emptied || name_of(looked.scene.stage.train, emptied->member) != "ring") << "it has gone up";
    // A point picked before goes up with its part.
    EXPECT_NEAR(point_of(looked.scene.stage, looked.standing, looked.look, closed).z, closed.point_mm.z + shift_mm,
                1e-9);
}

// The wedge of a third of a turn opens towards the eye; the ring opens, planets and pinion do not (solid/machine.cpp).
TEST(Pick, SeesThroughWhatACutawayTakesAway) {
    Looked looked;
    looked.look.cutaway = true;
    looked.camera.azimuth_rad = kTurn / 4;  // the eye on +X
    const auto part_at = [&](double turns) {
        const glm::dvec2 point = at(112.0, turns);
        const std::optional<Picked> picked = looked.below(point.x, point.y);
        return picked ? name_of(looked.scene.stage.train, picked->member) : "nothing";
    };
    for (const double turns : {-0.16, -0.1, 0.0, 0.1, 0.16}) EXPECT_EQ(part_at(turns), "frame") << turns;
    for (const double turns : {-0.17, -0.3, 0.5, 0.3, 0.17}) EXPECT_EQ(part_at(turns), "ring") << turns;
    const glm::dvec2 planet = at(67.5, 0.0) + at(kPlanetRim_mm, 0.1);
    EXPECT_EQ(looked.name_below(planet.x, planet.y), "planet");
    // Level with the gears from the eye: through the opening onto the planet.
    const Ray level{{1000.0, 0.0, 26.0}, {-1.0, 0.0, 0.0}};
    EXPECT_EQ(name_of(looked.scene.stage.train, looked.under(level).value().member), "planet");
    looked.camera.azimuth_rad = -kTurn / 4;
    EXPECT_EQ(part_at(0.0), "ring");
    EXPECT_EQ(part_at(0.5), "frame");
}

// The inside of an opened part is seen through its opening, as the picture shows it.
TEST(Pick, MeetsTheInsideOfWhatIsCutOpen) {
    Looked looked;
    looked.look.cutaway = true;
    looked.camera.azimuth_rad = kTurn / 4;
    // Along the middle of the ring's rim, from inside the wedge out of it at a sixth of a turn.
    const glm::dvec2 start = at(113.0, 0.15);
    const glm::dvec2 end = at(113.0, 0.2);
    const glm::dvec2 way = glm::normalize(end - start);
    const std::optional<Picked> picked = looked.under({{start, 27.0}, {way, 0.0}});
    ASSERT_TRUE(picked);
    EXPECT_EQ(name_of(looked.scene.stage.train, picked->member), "ring");
    EXPECT_GT(std::atan2(picked->point_mm.y, picked->point_mm.x), kTurn / 6);
}

// The nearest of all parts' triangles, each one tried in the picture's own frame by the picture's own matrices: the
// slow way round the picker's.
struct Hit {
    double distance_mm = std::numeric_limits<double>::infinity();
    std::size_t part = 0;
};

Hit nearest_of_all(const Picture& picture, const Ray& ray, double tolerance_mm) {
    Hit hit;
    for (std::size_t i = 0; i < picture.items.size(); ++i) {
        const Solid solid = solid_of((*picture.shapes)[picture.items[i].shape], tolerance_mm);
        const glm::dmat4 observer_from_part(picture.items[i].observer_from_part);
        for (const auto& triangle : solid.triangles) {
            glm::dmat3 corners;
            for (int k = 0; k < 3; ++k) {
                const auto& [x, y, z] = solid.vertices[triangle[static_cast<std::size_t>(k)]].position_mm;
                corners[k] = glm::dvec3(observer_from_part * glm::dvec4(x, y, z, 1.0)) - ray.from_mm;
            }
            // The ray's direction in terms of the corners: all parts alike in sign where it passes between them.
            const glm::dvec3 parts = glm::inverse(corners) * ray.direction;
            const double sum = parts.x + parts.y + parts.z;
            if (!(std::min({parts.x, parts.y, parts.z}) >= 0.0 && sum > 0.0) || 1 / sum >= hit.distance_mm) continue;
            hit = {1 / sum, i};
        }
    }
    return hit;
}

TEST(Pick, FindsWhatEveryTriangleTriedByItselfGives) {
    Dice dice(3);
    std::size_t hits = 0;
    for (const char* name : {"harbour_capstan", "slipway_gearbox", "beacon_table"}) {
        SCOPED_TRACE(name);
        Looked looked{.scene = shown_scene(name)};
        looked.standing = looked.scene.after(Ratio(97, 11));
        looked.look.spread = 0.3;
        for (int i = 0; i < 25; ++i) {
            Camera camera = camera_for(looked.scene.stage, looked.look, NamedView::iso, 1.5);
            camera.azimuth_rad = dice.between(0, 628) / 100.0;
            camera.elevation_rad = dice.between(-150, 150) / 100.0;
            camera.projection = dice.chance(50) ? Projection::perspective : Projection::orthographic;
            const Ray ray =
                ray_under(camera, {dice.between(-600, 600) / 1000.0, dice.between(-600, 600) / 1000.0}, 1.5);
            const std::optional<Picked> picked = looked.under(ray);
            const Picture picture = picture_of(looked.scene.stage, looked.standing, looked.look, camera);
            // From near by: the far start of an orthographic ray would cost the test its digits.
            const double start_mm = std::max(0.0, glm::dot(camera.target_mm - ray.from_mm, ray.direction) - 1000.0);
            const Ray near{ray.from_mm + start_mm * ray.direction, ray.direction};
            const Hit hit = nearest_of_all(picture, near, std::min(0.2, 1e-3 * looked.scene.stage.machine.radius_mm));
            ASSERT_EQ(picked.has_value(), std::isfinite(hit.distance_mm));
            if (!picked) continue;
            ++hits;
            // The picture's matrices are floats. A ray along an edge may meet another part as near.
            EXPECT_NEAR(glm::distance(picked->point_mm, near.from_mm), hit.distance_mm, 0.01);
            EXPECT_EQ(picked->part, hit.part);
        }
    }
    EXPECT_GT(hits, 25U);
}

// By one turn of the crank the drum turns by 7/30 and a planet by -7/16 (stage_test.cpp).
TEST(PointOf, FollowsItsMember) {
    Looked looked;
    const Picked on_planet = looked.below(67.5 + at(kPlanetRim_mm, 0.1).x, at(kPlanetRim_mm, 0.1).y).value();
    ASSERT_EQ(on_planet.place, looked.scene.place("planet", 1));
    const double z_mm = on_planet.point_mm.z;
    for (const Ratio& instant : {Ratio(1), Ratio(-5, 3), Ratio(1234567, 1000)}) {
        const double turns = instant.to_double();
        const glm::dvec2 expected = at(67.5, turns * 7 / 30) + at(kPlanetRim_mm, 0.1 - turns * 7 / 16);
        const Standing later = looked.scene.after(instant);
        EXPECT_LT(glm::distance(point_of(looked.scene.stage, later, looked.look, on_planet), {expected, z_mm}), 1e-6);
    }
    const Picked on_stand = looked.below(at(90.0, 1.0 / 6).x, at(90.0, 1.0 / 6).y).value();
    EXPECT_LT(
        glm::distance(point_of(looked.scene.stage, looked.scene.after(1), looked.look, on_stand), on_stand.point_mm),
        1e-9);
}

TEST(PointOf, IsSeenFromTheObserver) {
    Looked looked;
    const Picked on_ring = looked.below(109.0, 0.0).value();
    looked.look.observer = looked.scene.member("drum");
    const glm::dvec3 later = point_of(looked.scene.stage, looked.scene.after(1), looked.look, on_ring);
    EXPECT_LT(glm::distance(later, {at(109.0, -7.0 / 30), on_ring.point_mm.z}), 1e-9) << "back by the drum's turn";
}

TEST(ShownAt, IsWhereTheRayUnderItCameFrom) {
    Dice dice(11);
    const auto length_mm = [&] { return dice.between(-1000, 1000) / 10.0; };
    for (int i = 0; i < 200; ++i) {
        Camera camera;
        camera.target_mm = {length_mm(), length_mm(), length_mm()};
        camera.azimuth_rad = dice.between(0, 628) / 100.0;
        camera.elevation_rad = dice.between(-157, 157) / 100.0;
        camera.projection = i % 2 == 0 ? Projection::perspective : Projection::orthographic;
        const glm::dvec3 point(length_mm(), length_mm(), length_mm());
        const std::optional<glm::dvec2> shown = shown_at(camera, point, 1.6);
        ASSERT_TRUE(shown) << "500 mm from the eye to the target, which is less than 350 mm away";
        const Ray ray = ray_under(camera, *shown, 1.6);
        EXPECT_LT(glm::length(glm::cross(point - ray.from_mm, ray.direction)), 1e-8) << i;
        EXPECT_GT(glm::dot(point - ray.from_mm, ray.direction), 0.0);
    }
}

TEST(ShownAt, AgreesWithThePicturesMatrices) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        Camera camera;
        camera.azimuth_rad = 0.7;
        camera.projection = projection;
        const glm::dvec3 point(30.0, -20.0, 40.0);
        const glm::dvec4 clip =
            clip_from_view(camera, 1.6, Bounds{}) * view_from_observer(camera) * glm::dvec4(point, 1.0);
        EXPECT_LT(glm::distance(shown_at(camera, point, 1.6).value(), glm::dvec2(clip) / clip.w), 1e-12);
    }
}

TEST(ShownAt, IsNowhereBehindTheEye) {
    Camera camera;
    const glm::dvec3 back = eye_mm(camera) - camera.target_mm;
    EXPECT_FALSE(shown_at(camera, camera.target_mm + 1.01 * back, 1.6));
    EXPECT_TRUE(shown_at(camera, camera.target_mm + 0.99 * back, 1.6));
    camera.projection = Projection::orthographic;
    EXPECT_TRUE(shown_at(camera, camera.target_mm + 1.01 * back, 1.6));
}

}  // namespace
}  // namespace couplet
