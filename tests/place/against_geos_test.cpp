// The distance between teeth by a general-purpose geometry library, GEOS, against the proof of mesh.

#include <geos_c.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdarg>
#include <numbers>

#include "place/placed_train.hpp"
#include "tooth/profile.hpp"

namespace couplet {
namespace {

void say_nothing(const char*, ...) {}

// The closed outline of a gear where it stands, turned by an angle, as a GEOS line.
class OutlineLine {
  public:
    OutlineLine(const ToothProfile& profile, PlanePoint centre_mm, double turned_rad, double tolerance_mm) {
        const std::vector<PlanePoint> points = gear_polygon(profile, tolerance_mm);
        const auto count = static_cast<unsigned>(points.size());
        GEOSCoordSequence* sequence = GEOSCoordSeq_create(count + 1, 2);
        for (unsigned i = 0; i <= count; ++i) {
            const PlanePoint& p = points[i % count];
            GEOSCoordSeq_setX(sequence, i,
                              centre_mm.x_mm + p.x_mm * std::cos(turned_rad) - p.y_mm * std::sin(turned_rad));
            GEOSCoordSeq_setY(sequence, i,
                              centre_mm.y_mm + p.x_mm * std::sin(turned_rad) + p.y_mm * std::cos(turned_rad));
        }
        line_ = GEOSGeom_createLinearRing(sequence);
    }
    ~OutlineLine() { GEOSGeom_destroy(line_); }
    OutlineLine(const OutlineLine&) = delete;
    OutlineLine& operator=(const OutlineLine&) = delete;

    [[nodiscard]] double distance_mm(const OutlineLine& other) const {
        double distance = 0.0;
        EXPECT_EQ(GEOSDistanceIndexed(line_, other.line_, &distance), 1);
        return distance;
    }
    [[nodiscard]] bool crosses(const OutlineLine& other) const { return GEOSIntersects(line_, other.line_) == 1; }

  private:
    GEOSGeometry* line_ = nullptr;
};

class AgainstGeos : public testing::Test {
  protected:
    AgainstGeos() {
        initGEOS(say_nothing, say_nothing);
        Train train = sized_train("sun 30 x planet 18; planet 18 in ring 66 (planet on carrier)");
        train.teeth.addendum = Ratio(4, 5);
        set_copies(train, "planet", 3);
        train_ = placed(std::move(train));
    }
    ~AgainstGeos() override { finishGEOS(); }
    AgainstGeos(const AgainstGeos&) = delete;
    AgainstGeos& operator=(const AgainstGeos&) = delete;

    [[nodiscard]] OutlineLine outline(const std::string& member, double more_turned_rad = 0.0) const {
        const GearIndex gear = gears_of(train_.train, member_named(train_.train, member)).front();
        const double start_rad = train_.start(member).starting_rotation.value_deg * std::numbers::pi / 180.0;
        return {*train_.teeth.profiles[gear.position()].profile, train_.place(member).centre_mm,
                start_rad + more_turned_rad, kTolerance_mm};
    }

    static constexpr double kTolerance_mm = 3e-5;
    PlacedTrain train_;
};

TEST_F(AgainstGeos, AllThroughAPitchTheOutlinesAreAsFarApartAsTheProofSays) {
    const MeshProof proof = train_.proof();
    constexpr int kSteps = 12;
    for (const auto& [other, teeth, sense] : {std::tuple{"sun", 30, -1.0}, std::tuple{"ring", 66, 1.0}}) {
        double smallest_mm = 1e9;
        for (int i = 0; i < kSteps; ++i) {
            const double pitches = static_cast<double>(i) / kSteps;
            const OutlineLine planet = outline("planet", 2 * std::numbers::pi * pitches / 18);
            const OutlineLine mate = outline(other, sense * 2 * std::numbers::pi * pitches / teeth);
            EXPECT_FALSE(planet.crosses(mate)) << other << " at " << pitches;
            smallest_mm = std::min(smallest_mm, planet.distance_mm(mate));
        }
        const MeshGap& gap = proof.meshes[other == std::string("sun") ? 0 : 3];
        EXPECT_NEAR(smallest_mm, std::min(gap.gap_mm, gap.elsewhere_mm), 2e-4) << other;
    }
}

TEST_F(AgainstGeos, ATwentiethOfADegreeShiftsTheGapByItsArcOnTheBaseCircle) {
    const double error_rad = 0.05 * std::numbers::pi / 180.0;
    const GearIndex planet = gears_of(train_.train, member_named(train_.train, "planet")).front();
    const double moved_mm = error_rad * train_.teeth.gears[planet.position()].base_diameter_mm / 2.0;
    const double true_mm = outline("sun").distance_mm(outline("planet"));
    EXPECT_NEAR(outline("sun").distance_mm(outline("planet", error_rad)), true_mm - moved_mm, 1e-4);
}

}  // namespace
}  // namespace couplet
