#include "export/svg.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <regex>

#include "export/exact_profile.hpp"
#include "export/exported.hpp"
#include "export/plain_names.hpp"
#include "place/copy_places.hpp"
#include "record/own_folder.hpp"
#include "view/image.hpp"

namespace couplet {
namespace {

constexpr double kPixelsPerMm = 10.0;

class Svg : public OwnFolder {
  protected:
    // What librsvg draws of the fills alone, at so many pixels for each mm that the file itself says it is wide; of one
    // group where it is named.
    [[nodiscard]] Image drawn(const std::string& svg, const std::string& group = "",
                              double pixels_per_mm = kPixelsPerMm) const {
        write("a.svg", svg);
        const std::string others = group.empty() ? "" : "g > g { display: none } #" + group + " { display: inline }";
        write("fills.css", "path { fill: #000; fill-opacity: 1; stroke: none } path.axis { display: none }" + others);
        const std::string dpi = std::to_string(pixels_per_mm * 25.4);
        const std::string command = "rsvg-convert --unlimited -d " + dpi + " -p " + dpi + " --stylesheet='" +
                                    in_folder("fills.css").string() + "' -o '" + in_folder("a.png").string() + "' '" +
                                    in_folder("a.svg").string() + "'";
        EXPECT_EQ(std::system(command.c_str()), 0);  // NOLINT(cert-env33-c): a program of the test's
        return image_of_png(read("a.png"));
    }
};

double filled_mm2(const Image& image) {
    double pixels = 0.0;
    for (std::size_t i = 3; i < image.rgba.size(); i += 4) pixels += image.rgba[i] / 255.0;
    return pixels / (kPixelsPerMm * kPixelsPerMm);
}

// Of all that is filled, in mm from the upper left corner.
struct FilledBox {
    double left = 1e9, top = 1e9, right = 0.0, bottom = 0.0;
};
FilledBox filled_box(const Image& image) {
    FilledBox box;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            if (image.rgba[4 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                                static_cast<std::size_t>(x)) +
                           3] < 128)
                continue;
            box.left = std::min(box.left, x / kPixelsPerMm);
            box.top = std::min(box.top, y / kPixelsPerMm);
            box.right = std::max(box.right, (x + 1) / kPixelsPerMm);
            box.bottom = std::max(box.bottom, (y + 1) / kPixelsPerMm);
        }
    return box;
}

// A ring is what lies between its outside and its teeth.
double exact_metal_mm2(const ExportModel& model, GearIndex gear) {
    const double teeth = exact_area_mm2(model.teeth.profiles[gear.position()].profile.value());
    const auto disc = [](double diameter) { return std::numbers::pi / 4.0 * diameter * diameter; };
    if (model.train[gear].internal) return disc(outer_diameter_mm(model.teeth, gear)) - teeth;
    return teeth - (model.train[gear].bore ? disc(model.train[gear].bore->to_double()) : 0.0);
}

// The renderer's edges are right to a tenth of a pixel; that much along the whole outline.
double edge_mm2(const ExportModel& model, GearIndex gear) {
    const double rim = model.train[gear].internal ? std::numbers::pi * outer_diameter_mm(model.teeth, gear) : 0.0;
    return 0.1 / kPixelsPerMm * (exact_length_mm(model.teeth.profiles[gear.position()].profile.value()) + rim);
}

TEST_F(Svg, FillsTheExactAreaOfEachMember) {
    const ExportModel model = exported("harbour_capstan");
    const std::string svg = svg_of(model, {});
    for (const auto& [member, copies, gear] : {std::tuple{"crank", 1, 0}, {"planet", 3, 1}, {"ring", 1, 2}}) {
        const double exact = copies * exact_metal_mm2(model, {gear});
        EXPECT_NEAR(filled_mm2(drawn(svg, member)), exact, copies * edge_mm2(model, {gear})) << member;
    }
}

// In place no metal lies on other metal here, so the whole is the sum.
TEST_F(Svg, FillsTheExactAreaOfTheTrain) {
    const ExportModel model = exported("harbour_capstan");
    const double exact = exact_metal_mm2(model, {0}) + 3.0 * exact_metal_mm2(model, {1}) + exact_metal_mm2(model, {2});
    for (const LengthUnit unit : {LengthUnit::mm, LengthUnit::inch})
        EXPECT_NEAR(filled_mm2(drawn(svg_of(model, {0.005, DrawnAt::place, unit}))), exact, 1e-3 * exact);
}

TEST_F(Svg, HasTheTrainsExtentAtTrueScale) {
    const ExportModel model = exported("harbour_capstan");
    const double outside = outer_diameter_mm(model.teeth, {2});
    for (const LengthUnit unit : {LengthUnit::mm, LengthUnit::inch}) {
        const Image image = drawn(svg_of(model, {0.005, DrawnAt::place, unit}));
        EXPECT_NEAR(image.width, kPixelsPerMm * (outside + 2.0 * kSvgMargin_mm), 1.0);
        EXPECT_NEAR(image.height, kPixelsPerMm * (outside + 2.0 * kSvgMargin_mm), 1.0);
        const FilledBox box = filled_box(image);
        EXPECT_NEAR(box.left, kSvgMargin_mm, 0.15);
        EXPECT_NEAR(box.top, kSvgMargin_mm, 0.15);
        EXPECT_NEAR(box.right, kSvgMargin_mm + outside, 0.15);
        EXPECT_NEAR(box.bottom, kSvgMargin_mm + outside, 0.15);
    }
}

// 67.5 mm = 3 (21 + 24) / 2 from the middle at 120 degrees, counter-clockwise as in the frame: up, so that its height
// is negative; the cross begins 1.5 mm to its left.
TEST_F(Svg, HasPlusYUp) {
    Train train = shipped_train("harbour_capstan");
    train.members[2].copies = 1;
    train.members[2].at_deg = {Ratio(120)};
    const std::string svg = svg_of(export_model_of(train, train.settings.front()), {});
    const std::string planet = svg.substr(svg.find("<g id=\"planet\">"));
    std::smatch cross;
    ASSERT_TRUE(
        std::regex_search(planet, cross, std::regex("class=\"axis\" fill=\"none\" d=\"M(-?[0-9.]+) (-?[0-9.]+)H")));
    EXPECT_NEAR(std::stod(cross[1]), -67.5 / 2.0 - 1.5, 1e-6);
    EXPECT_NEAR(std::stod(cross[2]), -67.5 * std::sqrt(3.0) / 2.0, 1e-6);
}

TEST_F(Svg, HasAGroupForEachMember) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        const std::string svg = svg_of(model, {});
        std::vector<std::string> names;
        for (const Member& member : model.train.members) names.push_back(member.name);
        for (const std::string& id : plain_names(names))
            EXPECT_NE(svg.find("<g id=\"" + id + "\">"), std::string::npos) << name << " " << id;
        EXPECT_GT(drawn(svg, "", 0.5).width, 10) << name;
    }
}

TEST_F(Svg, SaysItsSizeInItsOwnUnit) {
    const ExportModel model = exported("harbour_capstan");
    EXPECT_TRUE(std::regex_search(
        svg_of(model, {}), std::regex("width=\"([0-9.]+)mm\" height=\"([0-9.]+)mm\" viewBox=\"[-0-9. ]+ \\1 \\2\"")));
    EXPECT_TRUE(
        std::regex_search(svg_of(model, {0.005, DrawnAt::place, LengthUnit::inch}),
                          std::regex("width=\"([0-9.]+)in\" height=\"([0-9.]+)in\" viewBox=\"[-0-9. ]+ \\1 \\2\"")));
}

TEST_F(Svg, IsTheSameEveryTime) {
    EXPECT_TRUE(svg_of(exported("signal_arm"), {}) == svg_of(exported("signal_arm"), {}));
}

}  // namespace
}  // namespace couplet
