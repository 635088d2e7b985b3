#include "export/dxf.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "export/exact_profile.hpp"
#include "export/exported.hpp"
#include "export/plain_names.hpp"
#include "place/copy_places.hpp"
#include "record/own_folder.hpp"
#include "sheet/json_values.hpp"
#include "support/random_trains.hpp"

namespace couplet {
namespace {

class Dxf : public OwnFolder {
  protected:
    // What ezdxf, a reader by other people, finds in each of the files.
    [[nodiscard]] Json read_back(const std::vector<std::string>& files) const {
        std::string command =
            "cd '" + folder_.string() + "' && " COUPLET_DXF_PYTHON " '" COUPLET_ROOT "/tests/export/read_dxf.py'";
        for (std::size_t i = 0; i < files.size(); ++i) {
            const std::string name = std::to_string(i) + ".dxf";
            write(name, files[i]);
            command += " " + name;
        }
        EXPECT_EQ(std::system((command + " >found.json").c_str()), 0);  // NOLINT(cert-env33-c): the test's program
        return Json::parse(read("found.json"));
    }
    [[nodiscard]] Json read_back(const std::string& dxf) const { return read_back(std::vector{dxf}).at(0); }
    [[nodiscard]] Json read_back(const ExportModel& model, const FlatOptions& options = {}) const {
        return read_back(dxf_of(model, options));
    }
};

std::vector<PlanePoint> points_of(const Json& polyline, double unit_mm = 1.0) {
    std::vector<PlanePoint> points;
    for (const Json& point : polyline["points"])
        points.push_back({point[0].get<double>() * unit_mm, point[1].get<double>() * unit_mm});
    return points;
}

// What the points of a gear tell by themselves.
struct MeasuredGear {
    PlanePoint centre;
    int teeth = 0;
    double tooth_rad = 0.0;  // where one stands
};

// Teeth stand out of the middle of the radii; a ring's stand in.
MeasuredGear measured(const std::vector<PlanePoint>& points) {
    MeasuredGear gear{{0.0, 0.0}, 0, 0.0};
    // The middle of a rotationally symmetric area.
    double twice = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const PlanePoint& a = points[i];
        const PlanePoint& b = points[(i + 1) % points.size()];
        const double piece = a.x_mm * b.y_mm - b.x_mm * a.y_mm;
        twice += piece;
        gear.centre.x_mm += piece * (a.x_mm + b.x_mm) / 3.0;
        gear.centre.y_mm += piece * (a.y_mm + b.y_mm) / 3.0;
    }
    gear.centre = {gear.centre.x_mm / twice, gear.centre.y_mm / twice};
    double low = 1e9;
    double high = 0.0;
    const auto radius = [&](const PlanePoint& p) {
        return std::hypot(p.x_mm - gear.centre.x_mm, p.y_mm - gear.centre.y_mm);
    };
    for (const PlanePoint& p : points) {
        low = std::min(low, radius(p));
        high = std::max(high, radius(p));
    }
    std::vector<double> edges;  // directions where the outline passes the middle radius
    for (std::size_t i = 0; i < points.size(); ++i) {
        const PlanePoint& a = points[i];
        const PlanePoint& b = points[(i + 1) % points.size()];
        const double middle = (low + high) / 2.0;
        if ((radius(a) > middle) == (radius(b) > middle)) continue;
        const double part = (middle - radius(a)) / (radius(b) - radius(a));
        edges.push_back(std::atan2(std::lerp(a.y_mm, b.y_mm, part) - gear.centre.y_mm,
                                   std::lerp(a.x_mm, b.x_mm, part) - gear.centre.x_mm));
    }
    gear.teeth = static_cast<int>(edges.size() / 2);
    // The outline begins at the foot of a tooth: its first two edges are that tooth's.
    gear.tooth_rad = edges[0] + std::remainder(edges[1] - edges[0], 2.0 * std::numbers::pi) / 2.0;
    return gear;
}

TEST_F(Dxf, PassesTheAuditWithALayerForEachMember) {
    std::vector<std::string> files;
    for (const std::string& name : shipped_names()) files.push_back(dxf_of(exported(name), {}));
    const Json all = read_back(files);
    for (std::size_t i = 0; i < files.size(); ++i) {
        const std::string name = shipped_names()[i];
        const Train train = shipped_train(name);
        const Json& found = all.at(i);
        EXPECT_EQ(found["errors"], Json::array()) << name;
        EXPECT_EQ(found["version"], "AC1015") << "the edition of 2000";
        EXPECT_EQ(found["insunits"], 4) << "mm";
        EXPECT_EQ(found["measurement"], 1) << "metric";
        std::vector<std::string> members;
        for (const Member& member : train.members) members.push_back(member.name);
        EXPECT_EQ(found["layers"].size(), members.size());
        for (const std::string& layer : plain_names(members)) {
            ASSERT_TRUE(found["layers"].contains(layer)) << name << " " << layer;
            EXPECT_EQ(found["layers"][layer]["others"], 0);
            for (const Json& polyline : found["layers"][layer]["polylines"]) EXPECT_EQ(polyline["closed"], true);
        }
    }
}

// Trains whose gears need not fit; teeth that cannot be made are refused.
TEST_F(Dxf, PassesTheAuditForRandomTrains) {
    std::vector<std::string> files;
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        RandomTrain random = random_train(seed, {.most_members = 12});
        random.train.teeth.module_mm = Ratio(1);
        try {
            files.push_back(dxf_of(export_model_of(random.train, random.setting), {0.05}));
        } catch (const ExportRefused&) {
            continue;
        }
    }
    EXPECT_GT(files.size(), 3U);
    for (const Json& found : read_back(files)) EXPECT_EQ(found["errors"], Json::array());
}

void expect_gears_as_placed(const ExportModel& model, const Json& found) {
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m) {
        const Json& layer = found["layers"][plain_names({model.train.members[static_cast<std::size_t>(m)].name})[0]];
        std::size_t next = 0;
        for (PlaceIndex place{model.placement.first_place[static_cast<std::size_t>(m)]};
             place.value < model.placement.first_place[static_cast<std::size_t>(m) + 1]; ++place.value)
            for (const GearIndex gear : gears_of(model.train, {m})) {
                const MeasuredGear measure = measured(points_of(layer["polylines"].at(next++)));
                const PlanePoint& centre = model.placement[place].centre_mm;
                const int teeth = model.train[gear].teeth;
                EXPECT_EQ(measure.teeth, teeth);
                EXPECT_NEAR(measure.centre.x_mm, centre.x_mm, 1e-4);
                EXPECT_NEAR(measure.centre.y_mm, centre.y_mm, 1e-4);
                const double wanted = 2.0 * std::numbers::pi *
                                      model.rotations.of(gear, place).tooth.value(model.placement.direction_turns);
                const double pitch = 2.0 * std::numbers::pi / teeth;
                EXPECT_LT(std::abs(std::remainder(measure.tooth_rad - wanted, pitch)), 0.002 * pitch);
            }
        EXPECT_EQ(layer["polylines"].size(), next);
    }
}

// Measured from the outlines alone: where each gear stands, how many teeth it has, and where they point.
TEST_F(Dxf, GivesPlacesTeethAndStartingRotationsBack) {
    for (const std::string name : {"harbour_capstan", "lock_gate_winder", "signal_arm", "boat_carousel"}) {
        const ExportModel model = exported(name);
        expect_gears_as_placed(model, read_back(model));
    }
}

// The deviation of the curves that ezdxf makes of the bulges, and their area, against the exact profile; area within
// tolerance times the length of the outline.
void expect_exact(const ExportModel& model, const Json& found, double tolerance_mm, double unit_mm) {
    double most = 0.0;
    for (std::size_t g = 0; g < model.train.gears.size(); ++g) {
        const Gear& gear = model.train.gears[g];
        const ToothProfile& profile = model.teeth.profiles[g].profile.value();
        const ExactProfile exact(profile);
        const std::vector<GearIndex> gears = gears_of(model.train, gear.member);
        const auto own =
            static_cast<std::size_t>(std::ranges::find(gears, GearIndex{static_cast<std::int32_t>(g)}) - gears.begin());
        const Json& polyline = found["layers"][plain_names({model.train[gear.member].name})[0]]["polylines"].at(own);
        for (const PlanePoint& point : points_of(polyline, unit_mm)) most = std::max(most, exact.distance_mm(point));
        EXPECT_NEAR(polyline["area"].get<double>() * unit_mm * unit_mm, exact_area_mm2(profile),
                    tolerance_mm * exact_length_mm(profile));
    }
    EXPECT_LE(most, tolerance_mm + 2.0 * kExactly_mm);
    EXPECT_GT(most, tolerance_mm / 5.0) << "finer than it was asked for";
}

TEST_F(Dxf, StaysWithinItsTolerance) {
    for (const std::string name : {"harbour_capstan", "lock_gate_winder"}) {
        const ExportModel model = exported(name);
        for (const double tolerance_mm : {0.05, 0.005, 0.0005})
            expect_exact(model, read_back(model, {tolerance_mm, DrawnAt::origin, LengthUnit::mm}), tolerance_mm, 1.0);
    }
}

TEST_F(Dxf, IsInInchesWhereThatIsAskedFor) {
    const ExportModel model = exported("harbour_capstan");
    const Json found = read_back(model, {0.005, DrawnAt::origin, LengthUnit::inch});
    EXPECT_EQ(found["insunits"], 1);
    EXPECT_EQ(found["measurement"], 0);
    expect_exact(model, found, 0.005, 25.4);
}

TEST_F(Dxf, DrawsEachGearOnceAtItsOwnOriginWithAToothOnX) {
    const ExportModel model = exported("lock_gate_winder");
    const Json found = read_back(model, {0.005, DrawnAt::origin, LengthUnit::mm});
    EXPECT_EQ(found["layers"]["step_planet"]["polylines"].size(), 2U) << "two gears, whatever the copies";
    for (const auto& [name, layer] : found["layers"].items()) {
        EXPECT_EQ(layer["points"], Json::parse("[[0.0, 0.0]]")) << name;
        for (const Json& polyline : layer["polylines"]) {
            const MeasuredGear gear = measured(points_of(polyline));
            EXPECT_NEAR(std::hypot(gear.centre.x_mm, gear.centre.y_mm), 0.0, 1e-4);
            EXPECT_LT(std::abs(std::remainder(gear.tooth_rad, 2.0 * std::numbers::pi)), 1e-3);
        }
    }
}

// The capstan's crank has a hole of 8 mm; a ring's circle is its outside, and no other gear has any.
TEST_F(Dxf, DrawsHolesRimsAndAxes) {
    Train train = shipped_train("harbour_capstan");
    train.gears[1].bore = Ratio(6);
    const ExportModel model = export_model_of(train, train.settings.front());
    const Json layers = read_back(model)["layers"];
    EXPECT_EQ(layers["crank"]["circles"], Json::parse("[[0.0, 0.0, 8.0]]"));
    ASSERT_EQ(layers["planet"]["circles"].size(), 3U);
    EXPECT_NEAR(layers["planet"]["circles"][0][0].get<double>(), 67.5, 1e-6);  // 3 (21 + 24) / 2
    EXPECT_NEAR(layers["planet"]["circles"][0][2].get<double>(), 6.0, 1e-9);
    EXPECT_NEAR(layers["ring"]["circles"][0][2].get<double>(), outer_diameter_mm(model.teeth, {2}), 1e-8);
    EXPECT_EQ(layers["planet"]["points"].size(), 3U);
    EXPECT_EQ(layers["drum"]["points"].size(), 1U) << "a member without gears has an axis too";
}

TEST_F(Dxf, SaysHowFarItReaches) {
    const ExportModel model = exported("harbour_capstan");
    const Json found = read_back(model);
    const double reach = outer_diameter_mm(model.teeth, {2}) / 2.0;
    for (const int axis : {0, 1}) {
        EXPECT_NEAR(found["low"][axis].get<double>(), -reach, 1e-8);
        EXPECT_NEAR(found["high"][axis].get<double>(), reach, 1e-8);
    }
}

// Layers that programs treat in ways of their own are no member's.
TEST_F(Dxf, MakesLayerNamesLegal) {
    Train train = shipped_train("harbour_capstan");
    train.members[0].name = "Kurbel <ä>/1";
    train.members[1].name = "Defpoints";
    train.members[2].name = "0";
    const Json found = read_back(export_model_of(train, train.settings.front()));
    EXPECT_EQ(found["errors"], Json::array());
    for (const char* name : {"Kurbel_1", "Defpoints_2", "m_0", "ring"})
        EXPECT_TRUE(found["layers"].contains(name)) << name << " in " << found["listed"];
}

TEST_F(Dxf, RefusesTeethThatCannotBeMade) {
    Train train = shipped_train("harbour_capstan");
    train.gears[0].shift = Ratio(4);
    const ExportModel model = export_model_of(train, train.settings.front());
    try {
        (void)dxf_of(model, {});
        FAIL() << "drawn without a profile";
    } catch (const ExportRefused& refused) {
        EXPECT_STREQ(refused.what(),
                     "the teeth of 'crank' cannot be made, so there is no profile to draw; 'couplet size' says what "
                     "would mend them");
    }
}

TEST_F(Dxf, TheReaderSeesWhatIsWrong) {
    const std::string right = dxf_of(exported("harbour_capstan"), {});
    for (const auto& [found, put] : {std::pair{"\n  8\ncrank\n", "\n  8\ncr<nk\n"},
                                     {"330\n4\n100\nAcDbEntity\n", "330\nFFF\n100\nAcDbEntity\n"}}) {
        std::string broken = right;
        const std::size_t at = broken.find(found);
        ASSERT_NE(at, std::string::npos) << found;
        broken.replace(at, std::string_view(found).size(), put);
        EXPECT_NE(read_back(broken)["errors"], Json::array()) << put;
    }
}

TEST_F(Dxf, IsTheSameEveryTime) {
    EXPECT_TRUE(dxf_of(exported("signal_arm"), {}) == dxf_of(exported("signal_arm"), {}));
}

}  // namespace
}  // namespace couplet
