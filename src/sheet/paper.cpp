#include "sheet/paper.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/table.hpp"

namespace couplet {

namespace {

std::string dash_attribute(std::string_view dashes) {
    return dashes.empty() ? "" : fmt::format(" stroke-dasharray=\"{}\"", dashes);
}

// Heights near those of the anchors, each at least a line from the next.
std::vector<double> spread(const std::vector<Callout>& callouts, const CalloutColumn& column) {
    std::vector<double> heights;
    double next = column.top_mm;
    for (const Callout& callout : callouts) {
        heights.push_back(std::max(next, callout.anchor.y_mm));
        next = heights.back() + column.line_mm;
    }
    double latest = column.bottom_mm - column.line_mm;
    for (auto height = heights.rbegin(); height != heights.rend(); ++height, latest -= column.line_mm)
        *height = std::min(*height, latest);
    return heights;
}

}  // namespace

double scale_into(double length_mm, double room_mm) {
    if (!(length_mm > 0.0)) return 1.0;
    const double most = room_mm / length_mm;
    const double power = std::pow(10.0, std::floor(std::log10(most)));
    for (const double step : {5.0, 4.0, 2.5, 2.0})
        if (step * power <= most) return step * power;
    return power;
}

std::string scale_text(double scale) {
    return scale >= 1.0 ? fmt::format("{:.6g}:1", scale) : fmt::format("1:{:.6g}", 1.0 / scale);
}

void Paper::text(const PlanePoint& at, std::string_view words, double size_mm, bool bold) {
    body_ += fmt::format("<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{}\"{}>{}</text>\n", at.x_mm, at.y_mm, size_mm,
                         bold ? " font-weight=\"bold\"" : "", markup_escaped(words));
}

void Paper::line(const std::vector<PlanePoint>& points, double width_mm, std::string_view dashes) {
    body_ += fmt::format("<polyline stroke-width=\"{}\"{} points=\"", width_mm, dash_attribute(dashes));
    for (const PlanePoint& point : points) body_ += fmt::format("{:.3f},{:.3f} ", point.x_mm, point.y_mm);
    body_ += "\"/>\n";
}

void Paper::circle(const PlanePoint& centre, double radius_mm, double width_mm, std::string_view dashes) {
    body_ += fmt::format("<circle cx=\"{:.3f}\" cy=\"{:.3f}\" r=\"{:.3f}\" stroke-width=\"{}\"{}/>\n", centre.x_mm,
                         centre.y_mm, radius_mm, width_mm, dash_attribute(dashes));
}

void Paper::dot(const PlanePoint& at) {
    body_ += fmt::format("<circle cx=\"{:.3f}\" cy=\"{:.3f}\" r=\"0.55\" fill=\"#000\" stroke=\"none\"/>\n", at.x_mm,
                         at.y_mm);
}

void Paper::cross(const PlanePoint& at, double half_mm) {
    constexpr std::string_view kChainLine = "4 0.8 0.6 0.8";
    line({{at.x_mm - half_mm, at.y_mm}, {at.x_mm + half_mm, at.y_mm}}, 0.13, kChainLine);
    line({{at.x_mm, at.y_mm - half_mm}, {at.x_mm, at.y_mm + half_mm}}, 0.13, kChainLine);
}

void Paper::frame(int sheet) {
    constexpr double kMargin_mm = 6.0;
    body_ += fmt::format("<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\" stroke-width=\"0.3\"/>\n", kMargin_mm,
                         kMargin_mm + sheet * kSheetHeight_mm, kSheetWidth_mm - 2.0 * kMargin_mm,
                         kSheetHeight_mm - 2.0 * kMargin_mm);
}

void Paper::define(std::string_view id, const std::string& path) {
    shapes_ += fmt::format("<path id=\"{}\" d=\"{}\"/>\n", id, path);
}

void Paper::put(std::string_view id, const PlanePoint& at, double scale, double turn_deg) {
    // Lines keep their width whatever the scale; y points up in the shape and down on the paper.
    body_ += fmt::format(
        "<g fill=\"#dbe4ec\" fill-opacity=\"0.75\" fill-rule=\"evenodd\" stroke-width=\"{:.6g}\" "
        "transform=\"translate({:.3f} {:.3f}) scale({:.6g} {:.6g}) rotate({:.6f})\"><use xlink:href=\"#{}\"/></g>\n",
        0.18 / scale, at.x_mm, at.y_mm, scale, -scale, turn_deg, id);
}

void Paper::callouts(std::vector<Callout> callouts, const CalloutColumn& column) {
    const auto room = static_cast<std::size_t>((column.bottom_mm - column.top_mm) / column.line_mm);
    if (callouts.size() > room) {
        const std::size_t left = callouts.size() - room + 1;
        callouts.resize(room - 1);
        text({column.x_mm, column.bottom_mm + 1.0}, fmt::format("and {} more", left));
    }
    std::ranges::stable_sort(callouts, {}, [](const Callout& callout) { return callout.anchor.y_mm; });
    const std::vector<double> heights = spread(callouts, column);
    for (std::size_t i = 0; i < callouts.size(); ++i) {
        const double y = heights[i];
        dot(callouts[i].anchor);
        line({callouts[i].anchor, {column.x_mm - 5.0, y}, {column.x_mm - 1.0, y}}, 0.13);
        text({column.x_mm, y + 1.1}, callouts[i].text);
        if (!callouts[i].below.empty()) text({column.x_mm, y + 5.0}, callouts[i].below, 3.0);
    }
}

std::string Paper::drawing(double width_mm, double height_mm) const {
    return fmt::format(
               "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
               "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" "
               "width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n"
               "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n<defs>\n",
               width_mm, height_mm) +
           shapes_ + "</defs>\n<g fill=\"none\" stroke=\"#000\" stroke-linejoin=\"round\">\n" +
           "<style>text { font-family: sans-serif; fill: #000; stroke: none }</style>\n" + body_ + "</g>\n</svg>\n";
}

std::string Paper::document(int sheets) const {
    return drawing(kSheetWidth_mm, kSheetHeight_mm * sheets);
}

std::string polygon_path(const std::vector<PlanePoint>& points) {
    std::string path;
    for (const PlanePoint& point : points)
        path += fmt::format("{}{:.4f} {:.4f}", path.empty() ? "M" : "L", point.x_mm, point.y_mm);
    return path + 'Z';
}

std::string circle_path(double radius_mm) {
    return fmt::format("M{0:.4f} 0A{0:.4f} {0:.4f} 0 1 1 -{0:.4f} 0A{0:.4f} {0:.4f} 0 1 1 {0:.4f} 0Z", radius_mm);
}

}  // namespace couplet
