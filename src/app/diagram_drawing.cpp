#include "app/diagram_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/numbers.hpp"

namespace couplet {

namespace {

// One member of a diagram as it is named beside the drawing.
struct SideLabel {
    MemberIndex member;
    float wanted_y = 0;   // of what it names
    double velocity = 0;  // and how far to the right that is
    std::string value;    // at the right end; may be empty
    std::string said;
    float y = 0;  // where it found room
};

enum class Role { none, held, driver };

Role role_of(const Session& session, MemberIndex member) {
    const Setting& setting = session.study->setting();
    if (is_held(setting, member)) return Role::held;
    if (is_driven(setting, member)) return Role::driver;
    return Role::none;
}

const ImVec4& ink_of(const Theme& theme, Role role) {
    return role == Role::held ? theme.held : role == Role::driver ? theme.driver : theme.ink;
}

// Where drawing and labels stand: names on the left, values on the right, velocities between them.
class Plot {
  public:
    Plot(Screen& screen, const Session& session, Edits& edits, float height_u)
        : screen_(screen), session_(session), edits_(edits), list_(*ImGui::GetWindowDrawList()) {
        from_ = ImGui::GetCursorScreenPos();
        to_ = {from_.x + ImGui::GetContentRegionAvail().x, from_.y + screen.px(height_u)};
        ImGui::Dummy({to_.x - from_.x, to_.y - from_.y});
        hovered_ = ImGui::IsItemHovered();
        list_.AddRectFilled(from_, to_, colour(screen.theme->field), screen.px(6));
        list_.AddRect(from_, to_, colour(screen.theme->line), screen.px(6), 0, screen.scale);
    }

    [[nodiscard]] float top() const { return from_.y + screen_.px(20); }
    [[nodiscard]] float bottom() const { return to_.y - screen_.px(20); }
    // A value from `least` to `most` on the way from the bottom to the top.
    [[nodiscard]] float y_of(double value, double least, double most) const {
        const double part = most > least ? (value - least) / (most - least) : 0.5;
        return bottom() + static_cast<float>(part) * (top() - bottom());
    }

    // Room for the labels; then velocities between the two, 0 among them, can be drawn.
    void label_with(std::vector<SideLabel> labels, double slowest, double fastest) {
        labels_ = std::move(labels);
        std::ranges::stable_sort(labels_, {}, &SideLabel::wanted_y);
        std::vector<float> wanted;
        for (const SideLabel& label : labels_) wanted.push_back(label.wanted_y);
        const std::vector<float> found = apart(wanted, gap(), from_.y + 0.5F * gap(), to_.y - 0.5F * gap());
        float names = 0;
        float values = 0;
        for (std::size_t i = 0; i < labels_.size(); ++i) {
            labels_[i].y = found[i];
            names = std::max(names, width_of(name_of(session_.train(), labels_[i].member)));
            values = std::max(values, width_of(labels_[i].value));
        }
        const float most = 0.34F * (to_.x - from_.x);
        left_ = from_.x + screen_.px(12) + std::min(names, most) + screen_.px(14);
        right_ = to_.x - screen_.px(12) - (values > 0 ? std::min(values, most) + screen_.px(12) : screen_.px(6));
        slowest_ = std::min(slowest, 0.0);
        fastest_ = std::max(fastest, 0.0);
    }
    [[nodiscard]] float x_of(double velocity) const {
        const double range = fastest_ - slowest_;
        const double part = range > 0 ? (velocity - slowest_) / range : 0;
        return left_ + static_cast<float>(part) * (right_ - left_);
    }

    // Under all else: lines that lead from the names to what they name.
    void draw_guides() {
        for (const SideLabel& label : labels_)
            list_.AddLine({left_ - px(2), label.wanted_y}, {x_of(label.velocity), label.wanted_y}, colour(theme().line),
                          screen_.scale);
    }
    void draw_zero_line() {
        const float x = std::round(x_of(0));
        list_.AddLine({x, top() - screen_.px(8)}, {x, bottom() + screen_.px(8)}, colour(theme().faint, 0.7F),
                      screen_.scale);
    }
    void draw_labels(const std::string& name) {
        for (const SideLabel& label : labels_) draw_label(label, name);
    }

    [[nodiscard]] bool is_lit(MemberIndex member) const { return session_.view.pointed == member; }
    [[nodiscard]] ImU32 ink(MemberIndex member) const { return colour(ink_of(theme(), role_of(session_, member))); }
    [[nodiscard]] Role role(MemberIndex member) const { return role_of(session_, member); }
    [[nodiscard]] float thick(MemberIndex member) const { return screen_.px(is_lit(member) ? 3.5F : 2); }
    [[nodiscard]] const Theme& theme() const { return *screen_.theme; }
    [[nodiscard]] ImDrawList& list() { return list_; }
    [[nodiscard]] float px(float units) const { return screen_.px(units); }

    [[nodiscard]] bool is_pointed_at() const { return hovered_; }
    // Among the names and values the label under the cursor; nothing between them.
    void point_by_labels() {
        const ImVec2 cursor = ImGui::GetIO().MousePos;
        if (!hovered_ || (cursor.x > left_ && cursor.x < right_)) return;
        for (const SideLabel& label : labels_)
            if (std::abs(cursor.y - label.y) < 0.5F * gap()) edits_.view.pointed = label.member;
    }
    void point_at(MemberIndex member) { edits_.view.pointed = member; }

  private:
    [[nodiscard]] float gap() const { return screen_.fonts.small->FontSize + screen_.px(5); }
    [[nodiscard]] float width_of(const std::string& text) const {
        const ImFont& font = *screen_.fonts.small;
        return font.CalcTextSizeA(font.FontSize, 1e6F, 0, text.c_str()).x;
    }

    void draw_label(const SideLabel& label, const std::string& name) {
        ImFont* font = screen_.fonts.small;
        const std::string& member = name_of(session_.train(), label.member);
        const ImVec2 row_from(from_.x + screen_.px(4), label.y - 0.5F * gap());
        const ImVec2 row_to(to_.x - screen_.px(4), label.y + 0.5F * gap());
        const float top = std::round(label.y - 0.5F * font->FontSize);
        if (is_lit(label.member)) list_.AddRectFilled(row_from, {left_, row_to.y}, colour(theme().row_lit), px(4));
        list_.PushClipRect(row_from, {left_ - px(12), row_to.y}, true);
        list_.AddText(font, font->FontSize, {from_.x + px(12), top}, ink(label.member), member.c_str());
        list_.PopClipRect();
        // From the name to the height of what it names.
        const ImVec2 elbow[] = {{left_ - px(11), label.y}, {left_ - px(7), label.y}, {left_ - px(2), label.wanted_y}};
        list_.AddPolyline(elbow, 3, colour(theme().panel_edge), 0, screen_.scale);
        list_.AddText(font, font->FontSize, {to_.x - px(12) - width_of(label.value), top}, ink(label.member),
                      label.value.c_str());
        say(screen_, "point", fmt::format("{}: {}", name, member), label.said, row_from, {left_ - px(2), row_to.y});
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    ImDrawList& list_;
    ImVec2 from_;
    ImVec2 to_;
    bool hovered_ = false;
    std::vector<SideLabel> labels_;
    float left_ = 0;
    float right_ = 0;
    double slowest_ = 0;
    double fastest_ = 0;
};

// A member on the line of standing still that is held there.
void draw_held(Plot& plot, ImVec2 at) {
    const float arm = plot.px(6);
    const ImU32 ink = colour(plot.theme().held);
    plot.list().AddRectFilled({at.x - arm, at.y - arm}, {at.x + arm, at.y + arm}, ink, plot.px(2));
    plot.list().AddRectFilled({at.x - plot.px(2), at.y - plot.px(2)}, {at.x + plot.px(2), at.y + plot.px(2)},
                              colour(plot.theme().field));
}

struct LeverPoint {
    MemberIndex member;
    float y = 0;
    std::optional<double> speed;
};

void draw_lever_point(Plot& plot, const LeverPoint& point) {
    const ImVec2 zero(plot.x_of(0), point.y);
    const ImVec2 end(plot.x_of(point.speed.value_or(0)), point.y);
    if (!point.speed) {
        plot.list().AddCircle(zero, plot.px(5), plot.ink(point.member), 0, plot.px(1.5F));
        return;
    }
    plot.list().AddLine(zero, end, plot.ink(point.member), plot.thick(point.member));
    if (plot.role(point.member) == Role::held) {
        draw_held(plot, end);
        return;
    }
    plot.list().AddCircleFilled(end, plot.px(plot.is_lit(point.member) ? 6.5F : 5), plot.ink(point.member));
    plot.list().AddCircleFilled(end, plot.px(1.8F), colour(plot.theme().field));
}

// The lever itself, a little beyond its ends.
void draw_beam(Plot& plot, const std::vector<LeverPoint>& points) {
    const LeverPoint* first = nullptr;
    const LeverPoint* last = nullptr;
    for (const LeverPoint& point : points) {
        if (!point.speed) continue;
        if (first == nullptr) first = &point;
        last = &point;
    }
    if (first == nullptr || first->y == last->y) return;
    const ImVec2 a(plot.x_of(*first->speed), first->y);
    const ImVec2 b(plot.x_of(*last->speed), last->y);
    const float beyond = plot.px(8) / std::hypot(b.x - a.x, b.y - a.y);
    const ImVec2 way(beyond * (b.x - a.x), beyond * (b.y - a.y));
    plot.list().AddLine({a.x - way.x, a.y - way.y}, {b.x + way.x, b.y + way.y}, colour(plot.theme().accent, 0.75F),
                        plot.px(4));
}

void point_at_nearest(Plot& plot, const std::vector<LeverPoint>& points) {
    if (!plot.is_pointed_at()) return;
    const float cursor = ImGui::GetIO().MousePos.y;
    const auto distance = [&](const LeverPoint& point) { return std::abs(point.y - cursor); };
    const LeverPoint& nearest = *std::ranges::min_element(points, {}, distance);
    if (distance(nearest) < plot.px(12)) plot.point_at(nearest.member);
}

struct PlanRange {
    double least_mm = 0;
    double most_mm = 0;
    double slowest = 0;
    double fastest = 0;
};

PlanRange range_of(const PlanSection& section) {
    PlanRange range;
    for (const PlanSection::Ray& ray : section.rays) {
        range.least_mm = std::min({range.least_mm, ray.from_mm, ray.to_mm});
        range.most_mm = std::max({range.most_mm, ray.from_mm, ray.to_mm});
        range.slowest = std::min({range.slowest, ray.velocity_from, ray.velocity_to});
        range.fastest = std::max({range.fastest, ray.velocity_from, ray.velocity_to});
    }
    return range;
}

// Where a ray is named: at its far end where it begins on the arm's axis, else beside its middle, where its carrier's
// is.
double named_place(const PlanSection::Ray& ray) {
    if (ray.from_mm == 0) return ray.to_mm;
    return ray.to_mm == 0 ? ray.from_mm : std::lerp(ray.from_mm, ray.to_mm, 0.7);
}

float distance_to_segment(ImVec2 point, ImVec2 a, ImVec2 b) {
    const ImVec2 along(b.x - a.x, b.y - a.y);
    const float length2 = along.x * along.x + along.y * along.y;
    const float part =
        length2 > 0 ? std::clamp(((point.x - a.x) * along.x + (point.y - a.y) * along.y) / length2, 0.0F, 1.0F) : 0;
    return std::hypot(point.x - a.x - part * along.x, point.y - a.y - part * along.y);
}

void draw_rays(Plot& plot, const PlanSection& section, const PlanRange& range) {
    float nearest = plot.px(8);
    for (const PlanSection::Ray& ray : section.rays) {
        const ImVec2 from(plot.x_of(ray.velocity_from), plot.y_of(ray.from_mm, range.least_mm, range.most_mm));
        const ImVec2 to(plot.x_of(ray.velocity_to), plot.y_of(ray.to_mm, range.least_mm, range.most_mm));
        plot.list().AddLine(from, to, plot.ink(ray.member), plot.thick(ray.member));
        const float distance = distance_to_segment(ImGui::GetIO().MousePos, from, to);
        if (!plot.is_pointed_at() || distance >= nearest) continue;
        nearest = distance;
        plot.point_at(ray.member);
    }
}

void draw_pitch_points(Plot& plot, const PlanSection& section, const PlanRange& range) {
    for (const PlanSection::PitchPoint& point : section.pitch_points) {
        const ImVec2 at(plot.x_of(point.velocity), plot.y_of(point.place_mm, range.least_mm, range.most_mm));
        plot.list().AddLine({plot.x_of(0), at.y}, at, colour(plot.theme().faint, 0.5F), plot.px(1));
        plot.list().AddCircleFilled(at, plot.px(4), colour(plot.theme().field));
        plot.list().AddCircle(at, plot.px(4), colour(plot.theme().accent), 0, plot.px(1.6F));
    }
}

}  // namespace

std::vector<float> apart(std::vector<float> wanted, float gap, float least, float most) {
    // Down from the top, then up from the bottom: each pass moves only what stands too near.
    float free_from = least;
    for (float& y : wanted) {
        y = std::max(y, free_from);
        free_from = y + gap;
    }
    float free_to = most;
    for (auto y = wanted.rbegin(); y != wanted.rend(); ++y) {
        *y = std::min(*y, free_to);
        free_to = *y - gap;
    }
    return wanted;
}

void draw_lever(Screen& screen, const Session& session, Edits& edits, const Lever& lever, const std::string& name) {
    const auto count = static_cast<float>(lever.points.size());
    Plot plot(screen, session, edits, std::max(120.0F, 40 + 26 * count));
    const double highest = lever.points.front().height.to_double();
    const double lowest = lever.points.back().height.to_double();
    std::vector<LeverPoint> points;
    std::vector<SideLabel> labels;
    double slowest = 0;
    double fastest = 0;
    for (const Lever::Point& point : lever.points) {
        const float y = plot.y_of(point.height.to_double(), lowest, highest);
        const std::string value = point.speed ? fraction_cell(*point.speed).shown : "?";
        const std::optional<double> speed = point.speed ? std::optional(point.speed->to_double()) : std::nullopt;
        points.push_back({point.member, y, speed});
        labels.push_back({point.member, y, speed.value_or(0), value, value, y});
        slowest = std::min(slowest, speed.value_or(0));
        fastest = std::max(fastest, speed.value_or(0));
    }
    plot.label_with(std::move(labels), slowest, fastest);
    point_at_nearest(plot, points);
    plot.point_by_labels();
    plot.draw_guides();
    plot.draw_zero_line();
    draw_beam(plot, points);
    for (const LeverPoint& point : points) draw_lever_point(plot, point);
    plot.draw_labels(name);
}

void draw_plan_section(Screen& screen, const Session& session, Edits& edits, const PlanSection& section,
                       const std::string& name) {
    const auto count = static_cast<float>(section.rays.size());
    Plot plot(screen, session, edits, std::max(170.0F, 40 + 22 * count));
    const PlanRange range = range_of(section);
    std::vector<SideLabel> labels;
    for (const PlanSection::Ray& ray : section.rays) {
        const float y = plot.y_of(named_place(ray), range.least_mm, range.most_mm);
        labels.push_back({ray.member, y, ray.velocity_at(named_place(ray)), "",
                          fmt::format("{:.4g} at {:.4g} mm, {:.4g} at {:.4g} mm", ray.velocity_from, ray.from_mm,
                                      ray.velocity_to, ray.to_mm),
                          y});
    }
    plot.label_with(std::move(labels), range.slowest, range.fastest);
    plot.draw_guides();
    plot.draw_zero_line();
    draw_rays(plot, section, range);
    plot.point_by_labels();
    draw_pitch_points(plot, section, range);
    plot.draw_labels(name);
}

}  // namespace couplet
