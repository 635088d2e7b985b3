#include "export/svg.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace couplet {

namespace {

constexpr double kLine_mm = 0.1;
constexpr double kCross_mm = 1.5;  // from its middle

class SvgWriter {
  public:
    explicit SvgWriter(LengthUnit unit) : unit_(unit) {}

    std::string document(std::vector<FlatLayer> layers) {
        head(box_of(layers));
        for (FlatLayer& layer : layers) {
            // What is larger lies below, so that a smaller gear of the same member can be seen.
            std::ranges::stable_sort(layer.gears, std::greater{}, &FlatGear::reach_mm);
            add("<g id=\"{}\">\n", layer.name);
            for (const FlatGear& gear : layer.gears) draw(gear);
            for (const PlanePoint& axis : layer.axes) draw_axis(axis);
            add("</g>\n");
        }
        add("</g>\n</svg>\n");
        return std::move(text_);
    }

  private:
    template <class... Values>
    void add(fmt::format_string<Values...> form, Values&&... values) {
        fmt::format_to(std::back_inserter(text_), form, std::forward<Values>(values)...);
    }
    [[nodiscard]] std::string length(double mm) const { return length_text(mm, unit_); }
    [[nodiscard]] std::string at(const PlanePoint& p) const { return length(p.x_mm) + ' ' + length(-p.y_mm); }

    void head(const FlatBox& box) {
        const std::string_view unit = unit_ == LengthUnit::inch ? "in" : "mm";
        const std::string width = length(box.high.x_mm - box.low.x_mm + 2.0 * kSvgMargin_mm);
        const std::string height = length(box.high.y_mm - box.low.y_mm + 2.0 * kSvgMargin_mm);
        add("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}{2}\" height=\"{1}{2}\" "
            "viewBox=\"{3} {0} {1}\">\n",
            width, height, unit, at({box.low.x_mm - kSvgMargin_mm, box.high.y_mm + kSvgMargin_mm}));
        add("<g fill=\"#9db4c8\" fill-opacity=\"0.3\" fill-rule=\"evenodd\" stroke=\"#000\" stroke-width=\"{}\" "
            "stroke-linejoin=\"round\">\n",
            length(kLine_mm));
    }

    void draw(const FlatGear& gear) {
        add("<path d=\"M{}", at(gear.teeth.front().at));
        for (std::size_t i = 0; i < gear.teeth.size(); ++i)
            arc(gear.teeth[i], gear.teeth[(i + 1) % gear.teeth.size()].at);
        add("Z");
        if (gear.circle_mm) circle(gear.centre, *gear.circle_mm / 2.0);
        add("\"/>\n");
    }

    // With +Y up, an arc that turns counter-clockwise is one against the sweep.
    void arc(const ArcCorner& from, const PlanePoint& to) {
        const double chord_mm = std::hypot(to.x_mm - from.at.x_mm, to.y_mm - from.at.y_mm);
        const double bulge = std::abs(from.bulge);
        constexpr double kStraight = 1e-9;
        if (bulge < kStraight) {
            add("L{}", at(to));
            return;
        }
        const std::string radius = length(chord_mm * (1.0 + bulge * bulge) / (4.0 * bulge));
        add("A{0} {0} 0 {1} {2} {3}", radius, bulge > 1.0 ? 1 : 0, from.bulge > 0.0 ? 0 : 1, at(to));
    }

    void circle(const PlanePoint& centre, double radius_mm) {
        const PlanePoint right{centre.x_mm + radius_mm, centre.y_mm};
        const PlanePoint left{centre.x_mm - radius_mm, centre.y_mm};
        add("M{1}A{0} {0} 0 1 0 {2}A{0} {0} 0 1 0 {1}Z", length(radius_mm), at(right), at(left));
    }

    void draw_axis(const PlanePoint& axis) {
        add("<path class=\"axis\" fill=\"none\" d=\"M{}H{}M{}V{}\"/>\n", at({axis.x_mm - kCross_mm, axis.y_mm}),
            length(axis.x_mm + kCross_mm), at({axis.x_mm, axis.y_mm - kCross_mm}), length(-axis.y_mm - kCross_mm));
    }

    LengthUnit unit_;
    std::string text_;
};

}  // namespace

std::string svg_of(const ExportModel& model, const FlatOptions& options) {
    return SvgWriter(options.unit).document(flat_drawing(model, options));
}

}  // namespace couplet
