#include "place/contacts.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "place/placed_train.hpp"
#include "support/shipped_scenes.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kSame = 1e-9;  // mm and radians

double remainder_of(double value, double period) {
    return value - period * std::round(value / period);
}

// A mesh at an instant: the external gear's and the other's place and teeth.
struct Instant {
    const ToothProfile& first;
    const ToothProfile& second;
    const MeshSizes& mesh;
    MeshStanding standing;
    double second_tooth_rad;

    [[nodiscard]] bool internal() const { return second.sizes.spec.internal; }
    [[nodiscard]] double base_pitch_mm() const {
        return std::numbers::pi * first.sizes.base_diameter_mm / first.sizes.spec.teeth;
    }
    [[nodiscard]] std::vector<PlanePoint> points(FlankSide side) const {
        return contact_points(first, mesh, internal(), standing, side);
    }
};

// Centres at the operating distance, apart in a direction; the second gear's teeth meet the first one's gaps by the
// condition of place/starting_rotation.hpp.
Instant instant_of(const PlacedTrain& train, double first_tooth_rad, double direction_rad) {
    const Mesh& mesh = train.train.meshes.front();
    const GearIndex first = external_gear_of(train.train, mesh);
    const GearIndex second = other_gear_of(train.train, mesh);
    const MeshSizes& sizes = train.teeth.meshes.front();
    const double distance = sizes.pair.value().centre_distance_mm;
    const PlanePoint centre{12.5, -7.25};
    const PlanePoint other{centre.x_mm + distance * std::cos(direction_rad),
                           centre.y_mm + distance * std::sin(direction_rad)};
    const int teeth = train.train[first].teeth;
    const int other_teeth = train.train[second].teeth;
    const double facing = direction_rad + 0.5 * kTurn;
    double tooth = 0.0;
    if (train.train[second].internal) {
        const double u = (facing - first_tooth_rad) / kTurn * teeth;
        tooth = facing - (u - 0.5) / other_teeth * kTurn;
    } else {
        const double u = (direction_rad - first_tooth_rad) / kTurn * teeth;
        tooth = facing - (0.5 - u) / other_teeth * kTurn;
    }
    return {train.teeth.profiles[first.position()].profile.value(),
            train.teeth.profiles[second.position()].profile.value(),
            sizes,
            {centre, other, first_tooth_rad},
            tooth};
}

// The distance of a point from the common tangent of the base circles along which the first gear's flanks of that side
// push: of an external pair the one that crosses between the gears, of an internal one the one outside of both.
double distance_from_line_of_action(const Instant& at, FlankSide side, const PlanePoint& point) {
    const PlanePoint& from = at.standing.first_centre_mm;
    const PlanePoint& to = at.standing.second_centre_mm;
    const double dx = to.x_mm - from.x_mm;
    const double dy = to.y_mm - from.y_mm;
    const double distance = std::hypot(dx, dy);
    const double r_1 = 0.5 * at.first.sizes.base_diameter_mm;
    const double r_2 = 0.5 * at.second.sizes.base_diameter_mm;
    const double along = std::acos(at.internal() ? (r_2 - r_1) / distance : (r_1 + r_2) / distance);
    const double to_pitch_point = std::atan2(dy, dx) + (at.internal() ? 0.5 * kTurn : 0.0);
    const double normal_rad = to_pitch_point + (side == FlankSide::ahead ? -along : along);
    return (point.x_mm - from.x_mm) * std::cos(normal_rad) + (point.y_mm - from.y_mm) * std::sin(normal_rad) - r_1;
}

// How far the gear has to turn until a flank of its teeth that faces counter-clockwise (or the others) is at the point.
double turn_to_flank(const ToothProfile& profile, const PlanePoint& centre, double tooth_rad, bool counter_clockwise,
                     const PlanePoint& point) {
    const double x = point.x_mm - centre.x_mm;
    const double y = point.y_mm - centre.y_mm;
    const double r_b = 0.5 * profile.sizes.base_diameter_mm;
    const double squared = (x * x + y * y) / (r_b * r_b);
    const PlanePoint flank = flank_point(profile, std::sqrt(std::max(squared - 1.0, 0.0)));
    const double flank_rad = std::atan2(flank.y_mm, flank.x_mm) * (counter_clockwise ? 1.0 : -1.0);
    return remainder_of(std::atan2(y, x) - tooth_rad - flank_rad, kTurn / profile.sizes.spec.teeth);
}

void expect_true_contacts(const Instant& at, double same = kSame) {
    const PairSizes& pair = at.mesh.pair.value();
    for (const FlankSide side : {FlankSide::ahead, FlankSide::behind}) {
        const bool ahead = side == FlankSide::ahead;
        for (const PlanePoint& point : at.points(side)) {
            EXPECT_NEAR(distance_from_line_of_action(at, side, point), 0.0, same);
            EXPECT_NEAR(turn_to_flank(at.first, at.standing.first_centre_mm, at.standing.first_tooth_rad, ahead, point),
                        0.0, same);
            // Teeth stand centred, so half of the play is left to the partner's flank. Round the other axis of an
            // external pair that flank faces the same way, round a ring's the other.
            const double gap = turn_to_flank(at.second, at.standing.second_centre_mm, at.second_tooth_rad,
                                             at.internal() ? !ahead : ahead, point);
            EXPECT_NEAR(std::abs(gap), 0.5 * pair.second_backlash_rad, same);
        }
    }
}

const char* const kPairs[] = {"a 20 x b 33", "a 17 x b 17", "a 24 in b 69", "a 18 in b 80"};

TEST(ContactPoints, LieOnTheLineOfActionAndOnBothFlanks) {
    for (const char* notation : kPairs)
        for (const double backlash : {0.0, 0.04})
            for (const double direction : {0.0, 0.7, 2.9, -1.1}) {
                SCOPED_TRACE(notation);
                Train train = sized_train(notation);
                train.teeth.backlash = backlash == 0.0 ? Ratio(0) : Ratio(1, 25);
                const PlacedTrain one = placed(train);
                for (int k = 0; k < 7; ++k) expect_true_contacts(instant_of(one, 0.031 * k, direction));
            }
}

TEST(ContactPoints, AreThereAsOftenAsTheContactRatioSays) {
    for (const char* notation : kPairs) {
        const PlacedTrain one = placed(sized_train(notation));
        constexpr int kSteps = 4000;
        for (const FlankSide side : {FlankSide::ahead, FlankSide::behind}) {
            std::size_t count = 0;
            for (int k = 0; k < kSteps; ++k)
                count += instant_of(one, kTurn / one.train.gears.front().teeth * k / kSteps, 0.4).points(side).size();
            // A step is counted wrongly at most where contact begins and where it ends.
            EXPECT_NEAR(static_cast<double>(count) / kSteps, one.teeth.meshes.front().active->contact_ratio,
                        2.0 / kSteps)
                << notation;
        }
    }
}

TEST(ContactPoints, StayOnTheActivePathOneBasePitchApart) {
    for (const char* notation : kPairs) {
        const PlacedTrain one = placed(sized_train(notation));
        double least = 1e9;
        double most = -1e9;
        for (int k = 0; k < 500; ++k) {
            const Instant at = instant_of(one, 0.002 * k, 0.0);
            const double r_b = 0.5 * at.first.sizes.base_diameter_mm;
            const double to_pitch_point = r_b * std::tan(at.mesh.pair->operating_angle_rad);
            std::vector<double> along;
            for (const PlanePoint& point : at.points(FlankSide::ahead)) {
                const double x = point.x_mm - at.standing.first_centre_mm.x_mm;
                const double y = point.y_mm - at.standing.first_centre_mm.y_mm;
                along.push_back(std::sqrt(std::max(x * x + y * y - r_b * r_b, 0.0)) - to_pitch_point);
            }
            std::ranges::sort(along);
            ASSERT_FALSE(along.empty()) << notation << ": the contact ratio is above 1";
            for (std::size_t i = 1; i < along.size(); ++i)
                EXPECT_NEAR(along[i] - along[i - 1], at.base_pitch_mm(), 1e-7);
            least = std::min(least, along.front());
            most = std::max(most, along.back());
        }
        const ActivePath& path = one.teeth.meshes.front().active.value();
        EXPECT_GE(least, path.start_mm - 1e-7) << notation;
        EXPECT_LE(most, path.end_mm + 1e-7) << notation;
        EXPECT_NEAR(least, path.start_mm, 0.05) << notation << ": and uses all of it";
        EXPECT_NEAR(most, path.end_mm, 0.05) << notation;
    }
}

// Mirrored in the line of centres, flanks ahead become flanks behind.
TEST(ContactPoints, OfBothSidesMirrorEachOther) {
    for (const char* notation : kPairs) {
        const PlacedTrain one = placed(sized_train(notation));
        for (const double tooth : {0.0, 0.05, 0.11}) {
            Instant at = instant_of(one, tooth, 0.0);
            const std::vector<PlanePoint> ahead = at.points(FlankSide::ahead);
            at.standing.first_tooth_rad = -tooth;
            const std::vector<PlanePoint> behind = at.points(FlankSide::behind);
            ASSERT_EQ(ahead.size(), behind.size()) << notation;
            for (std::size_t i = 0; i < ahead.size(); ++i) {
                EXPECT_NEAR(ahead[i].x_mm, behind[i].x_mm, kSame);
                EXPECT_NEAR(ahead[i].y_mm - at.standing.first_centre_mm.y_mm,
                            at.standing.first_centre_mm.y_mm - behind[i].y_mm, kSame);
            }
        }
    }
}

// Shifted gears, planets in mesh with each other, helices and set centre distances, as the shipped scenes have them.
TEST(ContactPoints, OfEveryMeshOfTheShippedScenesAreTrue) {
    constexpr double kWrittenShift_mm = 1e-5;  // a shift of six decimals moves the centres by less
    std::size_t meshes = 0;
    for (const std::string& name : shipped_names()) {
        if (name == "misfit_mooring") continue;  // its teeth do not meet gaps
        SCOPED_TRACE(name);
        const PlacedTrain one = placed(shipped_train(name));
        for (const PlacedMesh& placed : one.placement.meshes) {
            const Mesh& mesh = one.train[placed.mesh];
            const bool swapped = external_gear_of(one.train, mesh) != mesh.first;
            const GearIndex first = swapped ? mesh.second : mesh.first;
            const GearIndex second = swapped ? mesh.first : mesh.second;
            const PlaceIndex first_place = swapped ? placed.second : placed.first;
            const PlaceIndex second_place = swapped ? placed.first : placed.second;
            const auto tooth_rad = [&](GearIndex gear, PlaceIndex place) {
                return one.rotations.of(gear, place).tooth.value(one.placement.direction_turns) * kTurn;
            };
            expect_true_contacts({one.teeth.profiles[first.position()].profile.value(),
                                  one.teeth.profiles[second.position()].profile.value(),
                                  one.teeth.meshes[placed.mesh.position()],
                                  {one.placement[first_place].centre_mm, one.placement[second_place].centre_mm,
                                   tooth_rad(first, first_place)},
                                  tooth_rad(second, second_place)},
                                 kWrittenShift_mm);
            ++meshes;
        }
    }
    EXPECT_GT(meshes, 50U);
}

// The common normal of both flanks is the line of action, so that a point half of the play along it has as far to the
// one flank as to the other. With the play of centred teeth that leaves both gears the same turn to it, seen from
// either, by half of the play over the base radius.
TEST(ContactPoints, WithPlayLieInTheMiddleOfIt) {
    for (const char* notation : kPairs) {
        const PlacedTrain one = placed(sized_train(notation));
        for (const double tooth : {0.0, 0.05, 0.11}) {
            Instant at = instant_of(one, tooth, 0.7);
            const double r_1 = 0.5 * at.first.sizes.base_diameter_mm;
            const double r_2 = 0.5 * at.second.sizes.base_diameter_mm;
            const double play_mm = 0.5 * at.mesh.pair->second_backlash_rad * r_2;
            at.standing.play_mm = play_mm;
            for (const FlankSide side : {FlankSide::ahead, FlankSide::behind}) {
                const bool ahead = side == FlankSide::ahead;
                const double sense = ahead ? 1.0 : -1.0;
                ASSERT_FALSE(at.points(side).empty()) << notation;
                for (const PlanePoint& point : at.points(side)) {
                    EXPECT_NEAR(distance_from_line_of_action(at, side, point), 0.0, kSame);
                    EXPECT_NEAR(sense * turn_to_flank(at.first, at.standing.first_centre_mm,
                                                      at.standing.first_tooth_rad, ahead, point),
                                0.5 * play_mm / r_1, kSame);
                    EXPECT_NEAR(std::abs(turn_to_flank(at.second, at.standing.second_centre_mm, at.second_tooth_rad,
                                                       at.internal() ? !ahead : ahead, point)),
                                0.5 * play_mm / r_2, kSame);
                }
            }
        }
    }
}

TEST(ContactPoints, NearestToThePitchPointIsTheMiddleOne) {
    const PlacedTrain one = placed(sized_train("a 20 x b 33"));
    for (int k = 0; k < 20; ++k) {
        const Instant at = instant_of(one, 0.017 * k, 0.0);
        const std::optional<PlanePoint> middle =
            middle_contact(at.first, at.mesh, at.internal(), at.standing, FlankSide::ahead);
        ASSERT_TRUE(middle);
        const double base_pitch_mm = at.base_pitch_mm();
        // The pitch point of 20 teeth of module 1, towards +X. Contacts are a base pitch apart and the path reaches
        // farther than half of one to either side.
        EXPECT_LE(std::hypot(middle->x_mm - at.standing.first_centre_mm.x_mm - 10.0,
                             middle->y_mm - at.standing.first_centre_mm.y_mm),
                  0.5 * base_pitch_mm + kSame);
    }
}

TEST(ContactPoints, AreNoneWhereFlanksCannotTouch) {
    const PlacedTrain one = placed(sized_train("a 20 x b 33"));
    const Instant at = instant_of(one, 0.0, 0.0);
    MeshSizes apart = at.mesh;
    apart.active->end_mm = apart.active->start_mm - 1.0;
    EXPECT_TRUE(contact_points(at.first, apart, false, at.standing, FlankSide::ahead).empty());
    EXPECT_TRUE(contact_points(at.first, {}, false, at.standing, FlankSide::ahead).empty());
    EXPECT_FALSE(middle_contact(at.first, {}, false, at.standing, FlankSide::ahead));
}

}  // namespace
}  // namespace couplet
