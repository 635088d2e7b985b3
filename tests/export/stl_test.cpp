#include "export/stl.hpp"

#include <gtest/gtest.h>

#include <cstdio>
#include <map>

#include "export/exported.hpp"
#include "export/printable.hpp"
#include "export/stl_reader.hpp"
#include "record/own_folder.hpp"
#include "solid/detail.hpp"
#include "solid/solid_measure.hpp"

namespace couplet {
namespace {

// What admesh, which knows nothing of us, says of a file.
struct Admesh {
    std::map<std::string, double> said;

    explicit Admesh(const std::filesystem::path& file) {
        FILE* pipe = popen(("admesh '" + file.string() + "' 2>&1").c_str(), "r");  // NOLINT: a program of the test's
        std::array<char, 256> line{};
        while (std::fgets(line.data(), line.size(), pipe) != nullptr) {
            const std::string text(line.data());
            for (const char* what :
                 {"Number of facets", "Total disconnected facets", "Number of parts", "Volume", "Degenerate facets",
                  "Edges fixed", "Facets removed", "Facets reversed", "Backwards edges", "Normals fixed"})
                if (const std::size_t at = text.find(what); at != std::string::npos)
                    if (const std::size_t colon = text.find(':', at); colon != std::string::npos)
                        said[what] = std::strtod(text.c_str() + colon + 1, nullptr);
        }
        status = pclose(pipe);
    }
    int status = -1;
};

class Stl : public OwnFolder {
  protected:
    Admesh measured(const std::string& bytes) const {
        write("body.stl", bytes);
        return Admesh(in_folder("body.stl"));
    }
};

const MemberBody& body_named(const std::vector<MemberBody>& bodies, const std::string& name) {
    return *std::ranges::find(bodies, name, &MemberBody::name);
}

// By the divergence theorem over the parts' own solids (tests/solid).
double parts_volume_mm3(const Machine& machine, const MemberBody& body, double tolerance_mm) {
    double sum = 0.0;
    for (const std::size_t p : body.parts)
        sum +=
            volume_mm3(solid_of(with_detail(machine.shapes[machine.parts[p].shape], Detail::unmarked), tolerance_mm));
    return sum;
}

TEST_F(Stl, IsClosedAndSoundInTheEyesOfAnotherProgram) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        const Machine machine = printable(model, 0.15);
        ExportModel printed = model;
        printed.machine = machine;
        for (const MemberBody& body : member_bodies(printed)) {
            const Admesh admesh = measured(stl_of(machine, body, {0.05}));
            ASSERT_EQ(admesh.status, 0) << "admesh did not run";
            ASSERT_EQ(admesh.said.size(), 10U);
            for (const char* fault : {"Total disconnected facets", "Degenerate facets", "Edges fixed", "Facets removed",
                                      "Facets reversed", "Backwards edges", "Normals fixed"})
                EXPECT_EQ(admesh.said.at(fault), 0.0) << fault << ": " << name << ", " << body.name;
            const double wanted = parts_volume_mm3(machine, body, 0.05);
            EXPECT_NEAR(admesh.said.at("Volume"), wanted, 1e-4 * wanted) << name << ", " << body.name;
        }
    }
}

// A disc of the tip circle less a disc of the root circle at most: a plain bound that no measure of ours is behind.
TEST_F(Stl, TheWheelHoldsWhatAWheelOfItsSizeCan) {
    const ExportModel model = exported("harbour_capstan");
    const std::vector<MemberBody> bodies = member_bodies(model);
    const Admesh admesh = measured(stl_of(model.machine, body_named(bodies, "planet"), {}));
    const double face_mm = 12.0;
    const double tip_mm = 39.0;  // 3 (24 + 2) / 2
    EXPECT_LT(admesh.said.at("Volume"), 1.1 * std::numbers::pi * tip_mm * tip_mm * face_mm);
    EXPECT_GT(admesh.said.at("Volume"), 0.3 * std::numbers::pi * tip_mm * tip_mm * face_mm);
}

// Counted on the file's points: as many teeth as the scene says, the first where the starting rotation puts it.
void expect_teeth(const std::string& scene, const std::string& member, std::size_t gear_of_member = 0) {
    const ExportModel model = exported(scene);
    const std::vector<MemberBody> bodies = member_bodies(model);
    const MemberBody& body = body_named(bodies, member);
    const GearIndex gear = gears_of(model.train, find_member(model.train, member).value())[gear_of_member];
    const int teeth = model.train[gear].teeth;
    const std::vector<double> middles =
        tooth_middles_rad(stl_facets(stl_of(model.machine, body, {})),
                          model.teeth.gears[gear.position()].tip_diameter_mm / 2.0, 2e-3, teeth);
    ASSERT_EQ(middles.size(), static_cast<std::size_t>(teeth)) << scene << ", " << member;
    const double tooth_rad = 2.0 * std::numbers::pi *
                             model.rotations.of(gear, body.places.front()).tooth.value(model.placement.direction_turns);
    const double pitch = 2.0 * std::numbers::pi / teeth;
    for (const double middle : middles)
        EXPECT_NEAR(std::remainder(middle - tooth_rad, pitch), 0.0, 1e-4) << scene << ", " << member;
}

TEST_F(Stl, HasTheTeethOfTheSceneWhereTheyBelong) {
    expect_teeth("harbour_capstan", "crank");
    expect_teeth("harbour_capstan", "planet");
    expect_teeth("harbour_capstan", "ring");
    expect_teeth("misfit_mooring", "planet");
    expect_teeth("launch_winch", "ring");
}

// The middles of the drum's pins, from the points of the file at their upper ends: where the placement has the planets.
TEST_F(Stl, HasThePinsWhereThePlanetsStand) {
    ExportModel model = exported("harbour_capstan");
    model.machine = printable(model, 0.0);
    const std::vector<StlFacet> facets =
        stl_facets(stl_of(model.machine, body_named(member_bodies(model), "drum"), {}));
    float top_mm = 0.0F;
    for (const StlFacet& facet : facets)
        for (const auto& p : facet.corners) top_mm = std::max(top_mm, p[2]);
    struct Box {
        double left, right, front, back;
    };
    std::vector<Box> pins;
    for (const StlFacet& facet : facets)
        for (const auto& p : facet.corners) {
            if (p[2] < top_mm) continue;
            const auto x = static_cast<double>(p[0]);
            const auto y = static_cast<double>(p[1]);
            constexpr double kApart_mm = 20.0;  // wider than a pin, narrower than from pin to pin
            const auto near = std::ranges::find_if(pins, [&](const Box& box) {
                return std::abs(x - box.left) < kApart_mm && std::abs(y - box.front) < kApart_mm;
            });
            if (near == pins.end())
                pins.push_back({x, x, y, y});
            else
                *near = {std::min(near->left, x), std::max(near->right, x), std::min(near->front, y),
                         std::max(near->back, y)};
        }
    ASSERT_EQ(pins.size(), 3U);
    // Centre distance 3 (21 + 24) / 2 mm; a third of a turn apart.
    for (const double at : {0.0, 1.0, 2.0}) {
        const double x_mm = 67.5 * std::cos(at * 2.0 * std::numbers::pi / 3.0);
        const double y_mm = 67.5 * std::sin(at * 2.0 * std::numbers::pi / 3.0);
        EXPECT_TRUE(std::ranges::any_of(pins, [&](const Box& pin) {
            return std::abs((pin.left + pin.right) / 2.0 - x_mm) < 0.02 &&
                   std::abs((pin.front + pin.back) / 2.0 - y_mm) < 0.02;
        })) << at;
    }
}

// Moved in by the clearance along their normals: at the reference circle each tooth is thinner by twice the clearance
// over the cosine of the pressure angle, 20 degrees here.
TEST_F(Stl, ThinsTheTeethByTheClearance) {
    const ExportModel model = exported("harbour_capstan");
    constexpr double kClearance_mm = 0.2;
    const Machine machine = printable(model, kClearance_mm);
    const auto thickness_mm = [](const Machine& of, std::size_t part) {
        return std::get<GearShape>(of.shapes[of.parts[part].shape]).profile.sizes.pitch_thickness_mm;
    };
    const auto crank = [&](const Machine& of) {
        for (std::size_t p = 0; p < of.parts.size(); ++p)
            if (of.parts[p].gear == GearIndex{0}) return p;
        return of.parts.size();
    };
    EXPECT_NEAR(thickness_mm(model.machine, crank(model.machine)) - thickness_mm(machine, crank(machine)),
                2.0 * kClearance_mm / std::cos(std::numbers::pi / 9.0), 1e-12);
}

TEST_F(Stl, IsInTheMembersOwnFrameInMillimetres) {
    const ExportModel model = exported("harbour_capstan");
    const std::vector<MemberBody> bodies = member_bodies(model);
    double reach = 0.0;
    for (const StlFacet& facet : stl_facets(stl_of(model.machine, body_named(bodies, "planet"), {})))
        for (const auto& p : facet.corners)
            reach = std::max(reach, std::hypot(static_cast<double>(p[0]), static_cast<double>(p[1])));
    EXPECT_NEAR(reach, 39.0, 1e-3);
}

TEST_F(Stl, HasUnitNormalsOfItsTriangles) {
    const ExportModel model = exported("signal_arm");
    for (const MemberBody& body : member_bodies(model))
        for (const StlFacet& facet : stl_facets(stl_of(model.machine, body, {0.05}))) {
            const double length = std::hypot(static_cast<double>(facet.normal[0]), static_cast<double>(facet.normal[1]),
                                             static_cast<double>(facet.normal[2]));
            EXPECT_TRUE(length == 0.0 || std::abs(length - 1.0) < 1e-6);
        }
}

TEST_F(Stl, DoesNotBeginAsTheFormatsTextFormDoes) {
    Train train = shipped_train("harbour_capstan");
    train.members[0].name = "solid";
    const ExportModel model = export_model_of(train, train.settings.front());
    const std::vector<MemberBody> bodies = member_bodies(model);
    EXPECT_NE(stl_of(model.machine, body_named(bodies, "solid"), {}).substr(0, 5), "solid");
}

TEST_F(Stl, IsTheSameEveryTime) {
    const ExportModel a = exported("signal_arm");
    const ExportModel b = exported("signal_arm");
    EXPECT_TRUE(stl_of(a.machine, member_bodies(a)[1], {}) == stl_of(b.machine, member_bodies(b)[1], {}));
}

}  // namespace
}  // namespace couplet
