#include "sheet/sketches.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "sheet/numbers.hpp"
#include "sheet/paper.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr double kText_mm = 3.2;
constexpr double kLetter_mm = 1.9;  // an average letter of that size
constexpr double kThin_mm = 0.15;
constexpr double kThick_mm = 0.5;

double width_of(const std::string& text) {
    return static_cast<double>(display_width(text)) * kLetter_mm;
}

// Heights for words beside their places, top down, at least a line apart.
std::vector<double> apart(std::vector<std::pair<double, std::size_t>> wanted) {
    constexpr double kLine_mm = 4.4;
    std::vector<double> heights(wanted.size());
    std::ranges::sort(wanted);
    double next = -std::numeric_limits<double>::infinity();
    for (const auto& [height, which] : wanted) {
        heights[which] = std::max(height, next);
        next = heights[which] + kLine_mm;
    }
    return heights;
}

// A member in a row: its name above its teeth.
class MeshSketch {
  public:
    explicit MeshSketch(const Train& train) : train_(train) { place_boxes(); }

    std::string run() {
        for (const Mesh& mesh : train_.meshes) draw_mesh(mesh);
        for (std::size_t m = 0; m < boxes_.size(); ++m)
            if (is_shown(MemberIndex{static_cast<std::int32_t>(m)}))
                draw_box(MemberIndex{static_cast<std::int32_t>(m)});
        return paper_.drawing(width_mm_, height_mm_);
    }

  private:
    struct Box {
        double x_mm = 0.0;
        double y_mm = 0.0;
        double width_mm = 0.0;
    };
    static constexpr double kBoxHeight_mm = 10.5;
    static constexpr double kBetweenRows_mm = 15.0;
    static constexpr double kBetweenBoxes_mm = 8.0;
    static constexpr double kWidest_mm = 170.0;

    // Carriers without gears are named by what rides on them.
    [[nodiscard]] bool is_shown(MemberIndex member) const { return !gears_of(train_, member).empty(); }

    [[nodiscard]] std::size_t depth_of(MemberIndex member) const {
        std::size_t depth = 0;
        for (MemberIndex on = rides_on(train_, member); on != kFrame; on = rides_on(train_, on)) ++depth;
        return depth;
    }

    [[nodiscard]] std::string teeth_of(MemberIndex member) const {
        std::vector<std::string> teeth;
        for (const GearIndex gear : gears_of(train_, member))
            teeth.push_back(fmt::format("{}{}", train_[gear].teeth, train_[gear].internal ? " inside" : ""));
        const MemberIndex on = rides_on(train_, member);
        return fmt::format("{}{}", fmt::join(teeth, " / "), on == kFrame ? "" : " on " + name_of(train_, on));
    }

    // Row by row; one that is too wide goes on below.
    void place_boxes() {
        boxes_.resize(train_.members.size());
        std::map<std::size_t, std::vector<std::size_t>> rows;
        for (std::size_t m = 0; m < train_.members.size(); ++m) {
            const MemberIndex member{static_cast<std::int32_t>(m)};
            if (!is_shown(member)) continue;
            boxes_[m].width_mm = std::max(width_of(member_label(train_, member)), width_of(teeth_of(member))) + 5.0;
            rows[depth_of(member)].push_back(m);
        }
        double y = 1.0;
        for (const auto& [depth, members] : rows) {
            double x = 1.0;
            for (const std::size_t m : members) {
                if (x > 1.0 && x + boxes_[m].width_mm > kWidest_mm) {
                    x = 1.0;
                    y += kBoxHeight_mm + kBetweenRows_mm;
                }
                boxes_[m].x_mm = x;
                boxes_[m].y_mm = y;
                x += boxes_[m].width_mm + kBetweenBoxes_mm;
                width_mm_ = std::max(width_mm_, x - kBetweenBoxes_mm + 1.0);
            }
            y += kBoxHeight_mm + kBetweenRows_mm;
        }
        height_mm_ = y - kBetweenRows_mm + kBelow_mm;
    }

    // From edge to edge; within one row in a bow below it.
    void draw_mesh(const Mesh& mesh) {
        const Box& one = boxes_[train_[mesh.first].member.position()];
        const Box& other = boxes_[train_[mesh.second].member.position()];
        const bool internal = train_[mesh.first].internal || train_[mesh.second].internal;
        const double from = one.x_mm + 0.5 * one.width_mm;
        const double to = other.x_mm + 0.5 * other.width_mm;
        for (const double aside : internal ? std::vector{-0.45, 0.45} : std::vector{0.0}) {
            if (one.y_mm == other.y_mm) {
                const double below = one.y_mm + kBoxHeight_mm;
                paper_.line({{from + aside, below},
                             {from + aside, below + 5.0 + aside},
                             {to - aside, below + 5.0 + aside},
                             {to - aside, below}},
                            kThin_mm * 2);
                continue;
            }
            const bool down = one.y_mm < other.y_mm;
            paper_.line({{from + aside, one.y_mm + (down ? kBoxHeight_mm : 0.0)},
                         {to + aside, other.y_mm + (down ? 0.0 : kBoxHeight_mm)}},
                        kThin_mm * 2);
        }
    }

    void draw_box(MemberIndex member) {
        const Box& box = boxes_[member.position()];
        const PlanePoint corner{box.x_mm, box.y_mm};
        paper_.line({corner,
                     {corner.x_mm + box.width_mm, corner.y_mm},
                     {corner.x_mm + box.width_mm, corner.y_mm + kBoxHeight_mm},
                     {corner.x_mm, corner.y_mm + kBoxHeight_mm},
                     corner},
                    kThin_mm * 2);
        paper_.text({corner.x_mm + 2.0, corner.y_mm + 4.4}, member_label(train_, member), kText_mm, true);
        paper_.text({corner.x_mm + 2.0, corner.y_mm + 8.6}, teeth_of(member));
    }

    static constexpr double kBelow_mm = 8.0;
    const Train& train_;
    std::vector<Box> boxes_;
    double width_mm_ = 0.0;
    double height_mm_ = 0.0;
    Paper paper_;
};

// A plane of speeds to the right and places upwards, with words on the left.
struct SpeedPlane {
    static constexpr double kTop_mm = 8.0;
    static constexpr double kHeight_mm = 60.0;
    static constexpr double kWidth_mm = 90.0;

    double words_mm;
    double least_speed = 0.0;
    double most_speed = 0.0;
    double least_place = 0.0;
    double most_place = 0.0;

    void hold_speed(double speed) {
        least_speed = std::min(least_speed, speed);
        most_speed = std::max(most_speed, speed);
    }
    [[nodiscard]] double x(double speed) const {
        const double span = most_speed > least_speed ? most_speed - least_speed : 1.0;
        return words_mm + kWidth_mm * (speed - least_speed) / span;
    }
    [[nodiscard]] double y(double place) const {
        const double span = most_place > least_place ? most_place - least_place : 1.0;
        return kTop_mm + kHeight_mm * (most_place - place) / span;
    }
    [[nodiscard]] double right_mm() const { return words_mm + kWidth_mm; }
    [[nodiscard]] double bottom_mm() const { return kTop_mm + kHeight_mm; }
};

void draw_standstill(Paper& paper, const SpeedPlane& plane) {
    paper.line({{plane.x(0.0), SpeedPlane::kTop_mm - 4.0}, {plane.x(0.0), plane.bottom_mm() + 4.0}}, kThin_mm, "1.5 1");
    paper.text({plane.x(0.0) - 1.0, plane.bottom_mm() + 9.0}, "0");
}

}  // namespace

std::string mesh_sketch(const Train& train) {
    if (train.members.size() > kMostSketched || train.meshes.empty()) return "";
    return MeshSketch(train).run();
}

std::string lever_sketch(const Train& train, const Lever& lever) {
    double words_mm = 0.0;
    for (const Lever::Point& point : lever.points)
        words_mm = std::max(words_mm, width_of(name_of(train, point.member)));
    SpeedPlane plane{words_mm + 8.0};
    std::vector<std::pair<double, std::size_t>> wanted;
    plane.least_place = lever.points.back().height.to_double();
    plane.most_place = lever.points.front().height.to_double();
    for (const Lever::Point& point : lever.points)
        if (point.speed) plane.hold_speed(point.speed->to_double());
    for (const Lever::Point& point : lever.points)
        wanted.emplace_back(plane.y(point.height.to_double()), wanted.size());
    const std::vector<double> heights = apart(wanted);
    Paper paper;
    draw_standstill(paper, plane);
    std::vector<PlanePoint> line;
    double bottom_mm = plane.bottom_mm();
    for (std::size_t p = 0; p < lever.points.size(); ++p) {
        const Lever::Point& point = lever.points[p];
        const double y = wanted[p].first;
        bottom_mm = std::max(bottom_mm, heights[p]);
        paper.text({1.0, heights[p] + 1.1}, name_of(train, point.member), kText_mm, point.member == lever.carrier);
        paper.line({{plane.words_mm - 6.0, heights[p]}, {plane.words_mm - 3.0, y}, {plane.right_mm(), y}}, kThin_mm,
                   "0.5 1");
        if (!point.speed) continue;
        line.push_back({plane.x(point.speed->to_double()), y});
        paper.dot(line.back());
        paper.text({plane.right_mm() + 3.0, heights[p] + 1.1}, fraction_cell(*point.speed).shown);
    }
    if (line.size() > 1) paper.line(line, kThick_mm);
    return paper.drawing(plane.right_mm() + 45.0, bottom_mm + 12.0);
}

std::string section_sketch(const Train& train, const PlanSection& section) {
    double words_mm = 0.0;
    for (const PlanSection::Ray& ray : section.rays)
        words_mm = std::max(words_mm, width_of(name_of(train, ray.member)));
    SpeedPlane plane{6.0};
    plane.least_place = std::numeric_limits<double>::infinity();
    plane.most_place = -plane.least_place;
    for (const PlanSection::Ray& ray : section.rays) {
        for (const double velocity : {ray.velocity_from, ray.velocity_to}) plane.hold_speed(velocity);
        plane.least_place = std::min({plane.least_place, ray.from_mm, ray.to_mm});
        plane.most_place = std::max({plane.most_place, ray.from_mm, ray.to_mm});
    }
    Paper paper;
    draw_standstill(paper, plane);
    std::vector<std::pair<double, std::size_t>> wanted;
    for (const PlanSection::Ray& ray : section.rays)
        wanted.emplace_back(std::min(plane.y(ray.from_mm), plane.y(ray.to_mm)), wanted.size());
    const std::vector<double> heights = apart(wanted);
    double bottom_mm = plane.bottom_mm();
    for (std::size_t r = 0; r < section.rays.size(); ++r) {
        const PlanSection::Ray& ray = section.rays[r];
        const PlanePoint from{plane.x(ray.velocity_from), plane.y(ray.from_mm)};
        const PlanePoint to{plane.x(ray.velocity_to), plane.y(ray.to_mm)};
        const PlanePoint& upper = from.y_mm < to.y_mm ? from : to;
        paper.line({from, to}, kThick_mm);
        paper.line({upper, {plane.right_mm() + 4.0, heights[r]}, {plane.right_mm() + 6.0, heights[r]}}, kThin_mm,
                   "0.5 1");
        paper.text({plane.right_mm() + 7.0, heights[r] + 1.1}, name_of(train, ray.member));
        bottom_mm = std::max(bottom_mm, heights[r]);
    }
    for (const PlanSection::PitchPoint& point : section.pitch_points)
        paper.dot({plane.x(point.velocity), plane.y(point.place_mm)});
    return paper.drawing(plane.right_mm() + words_mm + 10.0, bottom_mm + 12.0);
}

}  // namespace couplet
