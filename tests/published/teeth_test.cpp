// Tooth geometry that was published elsewhere, to the printed digits.
//
// How each figure is known stands beside it: "read" where the page was at hand, "from memory" where it was not,
// "derived" where the rule itself gives it. Where a book's last digit was remembered cut off instead of rounded, the
// exact figure stands here and the remembered one beside it.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "support/train_notation.hpp"
#include "tooth/involute.hpp"
#include "tooth/measure.hpp"
#include "tooth/mesh_checks.hpp"

namespace couplet {
namespace {

constexpr double kDegree = std::numbers::pi / 180.0;

// Half a unit of the last printed digit.
constexpr double kTwo = 0.5e-2;
constexpr double kThree = 0.5e-3;
constexpr double kFour = 0.5e-4;
constexpr double kFive = 0.5e-5;
constexpr double kSix = 0.5e-6;
constexpr double kSeven = 0.5e-7;

GearSpec gear(double module_mm, int teeth, double shift, double helix_deg = 0.0) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.module_mm = module_mm;
    spec.rack = *iso_53_rack('A');
    spec.helix_angle_rad = helix_deg * kDegree;
    spec.shift = shift;
    spec.face_width_mm = 10.0 * module_mm;
    return spec;
}

GearSpec ring(double module_mm, int teeth, double shift) {
    GearSpec spec = gear(module_mm, teeth, shift);
    spec.internal = true;
    return spec;
}

// A full-depth rack of that angle, sharp: what the texts' formulas mean.
BasicRack sharp_rack(double angle_deg, double depth = 1.0) {
    return {angle_deg * kDegree, depth, depth, 0.0};
}

// Two gears at the centre distance of their shifts, their tips shortened as that asks.
struct Pair {
    GearSizes first;
    GearSizes second;
    PairSizes sizes;

    Pair(GearSpec a, GearSpec b) {
        const double angle = operating_angle_of(a, b).value();
        a.tip_change = b.tip_change = tip_change_for(a, b, angle);
        first = sizes_of(a);
        second = sizes_of(b);
        sizes = pair_sizes(first, second, angle);
    }
    [[nodiscard]] double distance_modification() const {
        return (sizes.centre_distance_mm - sizes.reference_centre_mm) / first.spec.module_mm;
    }
};

double addendum_mm(const GearSizes& g) {
    return std::abs(g.tip_diameter_mm - g.pitch_diameter_mm) / 2.0;
}
double depth_mm(const GearSizes& g) {
    return std::abs(g.tip_diameter_mm - g.root_diameter_mm) / 2.0;
}

// C01. ISO 53:1998, from memory.
TEST(PublishedTeeth, BasicRacksOfIso53) {
    struct Row {
        char profile;
        double clearance, dedendum, radius;
    };
    for (const auto& [profile, clearance, dedendum, radius] :
         {Row{'A', 0.25, 1.25, 0.38}, Row{'B', 0.25, 1.25, 0.30}, Row{'C', 0.25, 1.25, 0.25},
          Row{'D', 0.40, 1.40, 0.39}}) {
        const BasicRack rack = iso_53_rack(profile).value();
        EXPECT_DOUBLE_EQ(rack.pressure_angle_rad, 20 * kDegree) << profile;
        EXPECT_EQ(rack.addendum, 1.0) << profile;
        EXPECT_EQ(rack.dedendum, dedendum) << profile;
        EXPECT_NEAR(rack.dedendum - rack.addendum, clearance, 1e-15) << profile;
        EXPECT_EQ(rack.root_radius, radius) << profile;
    }
    // Derived: c / (1 - sin 20), and the full round.
    EXPECT_NEAR(root_radius_in_clearance(*iso_53_rack('A')), 0.37995, kFive);
    EXPECT_NEAR(largest_root_radius(*iso_53_rack('D')), 0.39394, kFive);
    // Thickness and space are both half a pitch.
    EXPECT_NEAR(sizes_of(gear(1.0, 20, 0.0)).pitch_thickness_mm, std::numbers::pi / 2, 1e-14);
}

// C02. ISO 54:1996, from memory.
TEST(PublishedTeeth, ModulesOfIso54) {
    for (const double module_mm :
         {1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0, 40.0, 50.0})
        EXPECT_EQ(iso_54_series(module_mm), ModuleSeries::preferred) << module_mm;
    for (const double module_mm :
         {1.125, 1.375, 1.75, 2.25, 2.75, 3.5, 4.5, 5.5, 6.5, 7.0, 9.0, 11.0, 14.0, 18.0, 22.0, 28.0, 36.0, 45.0})
        EXPECT_EQ(iso_54_series(module_mm), ModuleSeries::second_choice) << module_mm;
    for (const double module_mm : {0.9, 1.3, 3.175, 15.0, 60.0})
        EXPECT_EQ(iso_54_series(module_mm), ModuleSeries::none) << module_mm;
}

// C03. Printed involute tables (Machinery's Handbook), from memory.
TEST(PublishedTeeth, InvoluteTable) {
    const std::vector<std::pair<double, double>> table = {{10.0, 0.0017941}, {14.5, 0.0055448}, {15.0, 0.0061498},
                                                          {20.0, 0.0149044}, {22.5, 0.0215145}, {25.0, 0.0299753},
                                                          {30.0, 0.0537515}, {45.0, 0.2146018}};
    for (const auto& [degrees, value] : table) {
        EXPECT_NEAR(involute(degrees * kDegree), value, kSeven) << degrees;
        EXPECT_NEAR(inverse_involute(involute(degrees * kDegree)) / kDegree, degrees, 1e-9) << degrees;
    }
}

// C04. A gear maker's printed technical handbook, calculation tables, from memory.
TEST(PublishedTeeth, StandardSpurPair) {
    const Pair pair(gear(3.0, 12, 0.0), gear(3.0, 24, 0.0));
    EXPECT_NEAR(pair.sizes.centre_distance_mm, 54.000, kThree);
    EXPECT_NEAR(pair.first.pitch_diameter_mm, 36.0, kThree);
    EXPECT_NEAR(pair.second.pitch_diameter_mm, 72.0, kThree);
    EXPECT_NEAR(pair.first.base_diameter_mm, 33.8289, kFour);
    EXPECT_NEAR(pair.second.base_diameter_mm, 67.6579, kFour);
    EXPECT_NEAR(pair.first.tip_diameter_mm, 42.0, kThree);
    EXPECT_NEAR(pair.second.tip_diameter_mm, 78.0, kThree);
    EXPECT_NEAR(pair.first.root_diameter_mm, 28.5, kThree);
    EXPECT_NEAR(pair.second.root_diameter_mm, 64.5, kThree);
    EXPECT_NEAR(depth_mm(pair.first), 6.75, kThree);
    EXPECT_NEAR(depth_mm(pair.second), 6.75, kThree);
}

// C05. As C04.
TEST(PublishedTeeth, ShiftedSpurPair) {
    const Pair pair(gear(3.0, 12, 0.6), gear(3.0, 24, 0.36));
    EXPECT_NEAR(involute(pair.sizes.operating_angle_rad), 0.034316, kSix);
    EXPECT_NEAR(pair.sizes.operating_angle_rad / kDegree, 26.0886, kFour);
    EXPECT_NEAR(pair.distance_modification(), 0.83329, kFive);
    EXPECT_NEAR(pair.sizes.centre_distance_mm, 56.4999, kFour);
    EXPECT_NEAR(pair.sizes.first_operating_diameter_mm, 37.667, kThree);
    EXPECT_NEAR(pair.sizes.second_operating_diameter_mm, 75.333, kThree);
    EXPECT_NEAR(addendum_mm(pair.first), 4.420, kThree);
    EXPECT_NEAR(addendum_mm(pair.second), 3.700, kThree);
    EXPECT_NEAR(depth_mm(pair.first), 6.370, kThree);
    EXPECT_NEAR(depth_mm(pair.second), 6.370, kThree);
    EXPECT_NEAR(pair.first.tip_diameter_mm, 44.840, kThree);
    EXPECT_NEAR(pair.second.tip_diameter_mm, 79.400, kThree);
    EXPECT_NEAR(pair.first.root_diameter_mm, 32.100, kThree);
    EXPECT_NEAR(pair.second.root_diameter_mm, 66.660, kThree);
    EXPECT_NEAR(pair.sizes.transverse_contact_ratio, 1.202, kThree);
}

// C06. As C04.
TEST(PublishedTeeth, ShiftsFromACentreDistance) {
    const GearSpec first = gear(3.0, 12, 0.0);
    const GearSpec second = gear(3.0, 24, 0.0);
    const double angle = operating_angle_at(first, second, 56.4999).value();
    EXPECT_NEAR((56.4999 - centre_distance_at(first, second, 20 * kDegree)) / 3.0, 0.8333, kFour);
    EXPECT_NEAR(angle / kDegree, 26.0886, kFour);
    EXPECT_NEAR(shift_sum_for(first, second, angle), 0.9600, kFour);
}

// C07. As C04; remembered with 31.0937 degrees and a contact ratio of 1.680.
TEST(PublishedTeeth, InternalPair) {
    const Pair pair(gear(3.0, 16, 0.0), ring(3.0, 24, 0.5));
    EXPECT_NEAR(involute(pair.sizes.operating_angle_rad), 0.060401, kSix);
    EXPECT_NEAR(pair.sizes.operating_angle_rad / kDegree, 31.09362, kFive);
    EXPECT_NEAR(pair.distance_modification(), 0.38942, kFive);
    EXPECT_NEAR(pair.sizes.centre_distance_mm, 13.1683, kFour);
    EXPECT_NEAR(pair.first.base_diameter_mm, 45.105, kThree);
    EXPECT_NEAR(pair.second.base_diameter_mm, 67.658, kThree);
    EXPECT_NEAR(pair.sizes.first_operating_diameter_mm, 52.673, kThree);
    EXPECT_NEAR(pair.sizes.second_operating_diameter_mm, 79.010, kThree);
    EXPECT_NEAR(addendum_mm(pair.first), 3.0, kThree);
    EXPECT_NEAR(addendum_mm(pair.second), 1.5, kThree);
    EXPECT_NEAR(pair.first.tip_diameter_mm, 54.0, kThree);
    EXPECT_NEAR(pair.second.tip_diameter_mm, 69.0, kThree);
    EXPECT_NEAR(pair.first.root_diameter_mm, 40.5, kThree);
    EXPECT_NEAR(pair.second.root_diameter_mm, 82.5, kThree);
    EXPECT_NEAR(pair.sizes.transverse_contact_ratio, 1.6795, kFour);
}

// C09. As C04; remembered with y 0.09744, d_a1 48.153 and d_f1 34.657.
TEST(PublishedTeeth, HelicalPair) {
    const Pair pair(gear(3.0, 12, 0.09809, 30.0), gear(3.0, 60, 0.0, -30.0));
    EXPECT_NEAR(pair.first.transverse_angle_rad / kDegree, 22.79588, kFive);
    EXPECT_NEAR(involute(pair.sizes.operating_angle_rad), 0.023405, kSix);
    EXPECT_NEAR(pair.sizes.operating_angle_rad / kDegree, 23.1126, kFour);
    EXPECT_NEAR(pair.distance_modification(), 0.09745, kFive);
    EXPECT_NEAR(pair.sizes.centre_distance_mm, 125.000, kThree);
    EXPECT_NEAR(pair.first.pitch_diameter_mm, 41.569, kThree);
    EXPECT_NEAR(pair.second.pitch_diameter_mm, 207.846, kThree);
    EXPECT_NEAR(pair.first.base_diameter_mm, 38.322, kThree);
    EXPECT_NEAR(pair.second.base_diameter_mm, 191.611, kThree);
    EXPECT_NEAR(pair.sizes.first_operating_diameter_mm, 41.667, kThree);
    EXPECT_NEAR(pair.sizes.second_operating_diameter_mm, 208.333, kThree);
    EXPECT_NEAR(addendum_mm(pair.first), 3.292, kThree);
    EXPECT_NEAR(addendum_mm(pair.second), 2.998, kThree);
    EXPECT_NEAR(depth_mm(pair.first), 6.748, kThree);
    EXPECT_NEAR(depth_mm(pair.second), 6.748, kThree);
    EXPECT_NEAR(pair.first.tip_diameter_mm, 48.154, kThree);
    EXPECT_NEAR(pair.second.tip_diameter_mm, 213.842, kThree);
    EXPECT_NEAR(pair.first.root_diameter_mm, 34.658, kThree);
    EXPECT_NEAR(pair.second.root_diameter_mm, 200.346, kThree);
}

// C11. Elements of metric gear technology, table 10-1, read.
TEST(PublishedTeeth, ChordalThicknessOfAGear) {
    const GearSizes sizes = sizes_of(gear(10.0, 12, 0.3));
    const ChordalThickness chordal = chordal_thickness_of(sizes);
    EXPECT_NEAR(sizes.pitch_thickness_mm, 17.8918, kFour);
    EXPECT_NEAR(chordal.half_angle_rad / kDegree, 8.54270, kFive);
    EXPECT_NEAR(chordal.chord_mm, 17.8256, kFour);
    EXPECT_NEAR(addendum_mm(sizes), 13.000, kThree);
    EXPECT_NEAR(chordal.height_mm, 13.6657, kFour);
}

// C13. Elements of metric gear technology, table 10-2, read. A rack is the gear of ever more teeth.
TEST(PublishedTeeth, ChordalThicknessOfARack) {
    const ChordalThickness chordal = chordal_thickness_of(sizes_of(gear(3.0, 100000, 0.0)));
    EXPECT_NEAR(chordal.chord_mm, 4.7124, kFour);
    EXPECT_NEAR(chordal.height_mm, 3.0000, kFour);
}

// C15. As C04.
TEST(PublishedTeeth, SpanOverFourTeeth) {
    const SpanMeasurement span = span_of(sizes_of(gear(3.0, 24, 0.4))).value();
    EXPECT_EQ(span.teeth, 4);
    EXPECT_NEAR(span.span_mm, 32.8266, kFour);
}

// C17. Machinery's Handbook, measurement over wires of 1.728/P, from memory; 16 teeth remembered as 18.3768.
TEST(PublishedTeeth, MeasurementOverWires) {
    const std::vector<std::pair<int, double>> table = {{8, 10.3271},  {10, 12.3445}, {12, 14.3578}, {14, 16.3683},
                                                       {16, 18.3769}, {18, 20.3840}, {20, 22.3900}, {30, 32.4102}};
    for (const auto& [teeth, over_wires] : table)
        EXPECT_NEAR(over_pins(sizes_of(gear(1.0, teeth, 0.0)), 1.728), over_wires, kFour) << teeth;
}

// C19. All texts, 2 / sin^2(alpha), from memory.
TEST(PublishedTeeth, FewestTeethWithoutUndercut) {
    const std::vector<std::pair<double, double>> table = {
        {14.5, 31.903}, {20.0, 17.097}, {22.5, 13.657}, {25.0, 11.198}};
    for (const auto& [degrees, fewest] : table) {
        GearSpec spec = gear(1.0, 12, 0.0);
        spec.rack = sharp_rack(degrees);
        EXPECT_NEAR(undercut_limit(spec).fewest_teeth, fewest, kThree) << degrees;
    }
    GearSpec twelve = gear(1.0, 12, 0.0);
    twelve.rack = sharp_rack(20.0);
    EXPECT_NEAR(undercut_limit(twelve).least_shift, 0.298, kThree);
    EXPECT_NEAR(undercut_limit(twelve).least_shift, 1.0 - 12.0 / undercut_limit(twelve).fewest_teeth, 1e-12);
}

// Whether the second gear's tip touches past the end of the first one's involute, its base tangent point.
bool interferes(int first_teeth, int second_teeth, double addendum) {
    GearSpec first = gear(1.0, first_teeth, 0.0);
    GearSpec second = gear(1.0, second_teeth, 0.0);
    first.rack = second.rack = sharp_rack(20.0, addendum);
    const GearSizes pinion = sizes_of(first);
    const PairSizes pair = pair_sizes(pinion, sizes_of(second), 20 * kDegree);
    return tangent_length_mm(pinion, pair.first_operating_diameter_mm) + pair.path_start_mm < 0.0;
}

// Teeth in parts: a gear of 1000 z teeth with an addendum of 1000 k is the gear of z teeth with k, larger.
double smallest_pinion(int ratio) {
    constexpr int kParts = 10000;
    int interfering = 5 * kParts;
    int clear = 30 * kParts;
    while (clear - interfering > 1) {
        const int middle = (clear + interfering) / 2;
        (interferes(middle, ratio * middle, kParts) ? interfering : clear) = middle;
    }
    return static_cast<double>(clear) / kParts;
}

double largest_gear(int pinion) {
    constexpr int kParts = 10000;
    int clear = 10 * kParts;
    int interfering = 5000 * kParts;
    while (interfering - clear > 1) {
        const int middle = (clear + interfering) / 2;
        (interferes(pinion * kParts, middle, kParts) ? interfering : clear) = middle;
    }
    return static_cast<double>(clear) / kParts;
}

// C20. Shigley, Mechanical Engineering Design, from memory; he prints whole teeth.
TEST(PublishedTeeth, InterferenceOfFullDepthSpurGears) {
    EXPECT_NEAR(smallest_pinion(1), 12.3, 0.05);
    EXPECT_NEAR(smallest_pinion(4), 15.4, 0.05);
    EXPECT_NEAR(largest_gear(13), 16.45, kTwo);
    EXPECT_NEAR(largest_gear(14), 26.12, kTwo);
    EXPECT_NEAR(largest_gear(15), 45.49, kTwo);
    EXPECT_NEAR(largest_gear(16), 101.07, kTwo);
    EXPECT_NEAR(largest_gear(17), 1309.86, kTwo);
    for (const auto& [pinion, most] :
         std::vector<std::pair<int, int>>{{13, 16}, {14, 26}, {15, 45}, {16, 101}, {17, 1309}}) {
        EXPECT_FALSE(interferes(pinion, most, 1.0)) << pinion;
        EXPECT_TRUE(interferes(pinion, most + 1, 1.0)) << pinion;
    }
    EXPECT_FALSE(interferes(13, 13, 1.0));
    EXPECT_TRUE(interferes(12, 12, 1.0));
    EXPECT_FALSE(interferes(16, 64, 1.0));
    EXPECT_TRUE(interferes(15, 60, 1.0));
}

Verdict verdict_inside(int planet_teeth, int ring_teeth, const std::string& rule) {
    Train train = train_from("planet 20 in ring 60");
    train.teeth.module_mm = Ratio(1);
    for (Gear& g : train.gears) g.teeth = g.internal ? ring_teeth : planet_teeth;
    for (const Finding& finding : mesh_findings(train, teeth_of(train)))
        if (finding.rule == rule) return finding.verdict;
    ADD_FAILURE() << "no finding of " << rule;
    return Verdict::caution;
}

// C23. As C04.
TEST(PublishedTeeth, LimitsOfInternalGears) {
    // Derived: the tip reaches the base circle at 2 / (1 - cos 20) teeth.
    EXPECT_NEAR(2.0 / (1.0 - std::cos(20 * kDegree)), 33.16, kTwo);
    EXPECT_EQ(verdict_inside(10, 33, "ring tip outside the base circle"), Verdict::fails);
    EXPECT_EQ(verdict_inside(10, 34, "ring tip outside the base circle"), Verdict::holds);
    for (const int planet : {25, 30, 40, 60}) {
        EXPECT_EQ(verdict_inside(planet, planet + 8, "trochoid interference"), Verdict::fails) << planet;
        EXPECT_EQ(verdict_inside(planet, planet + 9, "trochoid interference"), Verdict::holds) << planet;
    }
}

}  // namespace
}  // namespace couplet
