#include "place/layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "place/copy_places.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

PlanePoint moved(const PlanePoint& from, double turns, double distance_mm) {
    return {from.x_mm + distance_mm * std::cos(kTurn * turns), from.y_mm + distance_mm * std::sin(kTurn * turns)};
}

double distance(const PlanePoint& a, const PlanePoint& b) {
    return std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
}

// The angle of a triangle with that cosine.
Angle angle_of_cosine(double cosine, std::vector<double>& direction_turns) {
    struct RationalCosine {
        double cosine;
        Ratio turns;
    };
    static const std::array<RationalCosine, 5> kRational = {
        {{1.0, Ratio(0)}, {0.5, Ratio(1, 6)}, {0.0, Ratio(1, 4)}, {-0.5, Ratio(1, 3)}, {-1.0, Ratio(1, 2)}}};
    for (const RationalCosine& rational : kRational)
        if (std::abs(cosine - rational.cosine) < 1e-13) return exact_angle(rational.turns);
    direction_turns.push_back(std::acos(std::clamp(cosine, -1.0, 1.0)) / kTurn);
    return direction_angle(static_cast<int>(direction_turns.size()) - 1);
}

class Layer {
  public:
    Layer(const Train& train, CarrierLayout& layout, std::vector<double>& direction_turns,
          std::vector<Finding>& findings)
        : train_(train),
          layout_(layout),
          direction_turns_(direction_turns),
          findings_(findings),
          meshes_of_(layout.axes.size()) {
        for (std::size_t m = 0; m < layout.meshes.size(); ++m) {
            const LaidMesh& mesh = layout.meshes[m];
            if (mesh.first == mesh.second) continue;
            meshes_of_[node(mesh.first)].push_back(m);
            meshes_of_[node(mesh.second)].push_back(m);
        }
    }

    void run() {
        const bool on_frame = layout_.carrier == kFrame;
        double right_edge_mm = 0.0;
        if (!on_frame) place(0, {});
        if (!on_frame) grow();
        // A group begins at an axis that copies can be spread round.
        for (const bool with_copies : {false, true}) {
            for (std::size_t n = 1; n < layout_.axes.size(); ++n) {
                if (layout_.axes[n].placed || (layout_.axes[n].copies > 1) != with_copies) continue;
                group_.clear();
                report_unheld(layout_.axes[n]);
                layout_.axes[n].starts_group = true;
                place(static_cast<int>(n), {});
                grow();
                if (on_frame) right_edge_mm = set_beside(right_edge_mm);
            }
        }
        for (LaidMesh& mesh : layout_.meshes)
            if (mesh.first != mesh.second) mesh.direction = direction(mesh.first, mesh.second);
    }

  private:
    static std::size_t node(int n) { return static_cast<std::size_t>(n); }
    const std::vector<Ratio>& at_deg(int n) { return train_[axis(n).members.front()].at_deg; }
    LaidAxis& axis(int n) { return layout_.axes[node(n)]; }

    void place(int n, const PlanePoint& at) {
        axis(n).position_mm = at;
        axis(n).placed = true;
        axis(n).order = placed_count_++;
        group_.push_back(n);
        waiting_once_.erase(n);
        waiting_twice_.erase(n);
        for (const std::size_t m : meshes_of_[node(n)]) {
            const int other = other_end(m, n);
            if (axis(other).placed) continue;
            // Twice by two different nodes: a sun and a ring on one axis are one.
            const auto [reached, fresh] = reached_from_.try_emplace(other, n);
            if (fresh)
                waiting_once_.insert(other);
            else if (reached->second != n)
                waiting_twice_.insert(other);
        }
    }

    void grow() {
        while (!waiting_once_.empty())
            place_next(waiting_twice_.empty() ? *waiting_once_.begin() : *waiting_twice_.begin());
    }

    struct Anchor {
        int node;
        double distance_mm;
        bool internal;
    };

    // The placed nodes that an axis is in mesh with, each once; what can be its hub first, then as they were placed.
    std::vector<Anchor> anchors_of(int n) {
        std::vector<Anchor> anchors;
        for (const std::size_t m : meshes_of_[node(n)]) {
            const int other = other_end(m, n);
            const bool known = std::ranges::any_of(anchors, [&](const Anchor& a) { return a.node == other; });
            if (axis(other).placed && !known)
                anchors.push_back({other, layout_.meshes[m].distance_mm, layout_.meshes[m].internal});
        }
        std::ranges::sort(anchors, {},
                          [&](const Anchor& a) { return std::pair(!is_hub(a.node, n), axis(a.node).order); });
        return anchors;
    }

    bool is_hub(int hub, int n) {
        if (layout_.carrier != kFrame) return hub == 0;
        return axis(hub).copies == 1 && axis(n).copies > 1;
    }

    void place_next(int n) {
        const std::vector<Anchor> anchors = anchors_of(n);
        LaidAxis& own = axis(n);
        const Anchor& first = anchors.front();
        own.hub = layout_.carrier != kFrame ? 0 : is_hub(first.node, n) ? first.node : axis(first.node).hub;
        if (at_deg(n).empty() && anchors.size() > 1 && !closes_round(first.node, n) &&
            close_triangle(n, first, anchors[1]))
            return;
        if (closes_round(first.node, n)) return place_on_hub(n, first.node);
        const Angle way = way_on(first, n);
        own.direction = way;
        directions_[{first.node, n}] = way;
        place(n, moved(axis(first.node).position_mm, way.value(direction_turns_), first.distance_mm));
    }

    // One axis in mesh with copies is what they are spread round, as a ring is round the planets of a sun.
    bool closes_round(int anchor, int n) {
        return layout_.carrier == kFrame && axis(anchor).copies > 1 && axis(n).copies == 1 && axis(anchor).hub != 0;
    }

    void place_on_hub(int n, int anchor) {
        axis(n).direction = axis(anchor).direction + exact_angle(Ratio(1, 2));
        directions_[{anchor, n}] = axis(n).direction;
        place(n, axis(axis(anchor).hub).position_mm);
    }

    // A chain goes straight on; an internal mesh leads back to where the chain came from.
    Angle way_on(const Anchor& from, int n) {
        if (!at_deg(n).empty()) return exact_angle(at_deg(n).front() / Ratio(360));
        if (is_hub(from.node, n)) return {};
        const bool began_here = from.node == 0 || axis(from.node).starts_group;
        const Angle onward = axis(from.node).direction;
        return from.internal && !began_here ? onward + exact_angle(Ratio(1, 2)) : onward;
    }

    bool close_triangle(int n, const Anchor& first, const Anchor& second) {
        const double base = distance(axis(first.node).position_mm, axis(second.node).position_mm);
        const double a = first.distance_mm;
        const double b = second.distance_mm;
        constexpr double kRounding = 1e-9;
        if (!(base > 0.0 && a > 0.0 && b > 0.0) || a + b < base * (1.0 - kRounding) ||
            std::abs(a - b) > base * (1.0 + kRounding)) {
            findings_.push_back({"triangle of axes", name_of(train_, axis(n).members.front()), a + b, base, "mm",
                                 Verdict::fails, "triangle inequality",
                                 "change tooth counts or shifts until the three centre distances make a triangle"});
            return false;
        }
        const Angle along = direction(first.node, second.node);
        const Angle at_first = angle_of_cosine((base * base + a * a - b * b) / (2.0 * base * a), direction_turns_);
        const Angle at_second = angle_of_cosine((base * base + b * b - a * a) / (2.0 * base * b), direction_turns_);
        axis(n).direction = along + at_first;
        directions_[{first.node, n}] = along + at_first;
        directions_[{second.node, n}] = along + exact_angle(Ratio(1, 2)) - at_second;
        place(n, moved(axis(first.node).position_mm, axis(n).direction.value(direction_turns_), a));
        return true;
    }

    // Exact where one of the nodes was placed by the other.
    Angle direction(int from, int to) {
        if (const auto known = directions_.find({from, to}); known != directions_.end()) return known->second;
        if (const auto back = directions_.find({to, from}); back != directions_.end())
            return back->second + exact_angle(Ratio(1, 2));
        const PlanePoint& a = axis(from).position_mm;
        const PlanePoint& b = axis(to).position_mm;
        direction_turns_.push_back(std::atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm) / kTurn);
        return directions_[{from, to}] = direction_angle(static_cast<int>(direction_turns_.size()) - 1);
    }

    void report_unheld(const LaidAxis& alone) {
        if (alone.copies == 1) return;
        findings_.push_back(
            {"place of copies", name_of(train_, alone.members.front()), 0.0, 0.0, "mm", Verdict::fails,
             "geometry of the train",
             "give the copies a mesh with a member on the axis that they are spread round: nothing says how "
             "far from it they stand"});
    }

    // Moves the group just placed to the right of everything before it.
    double set_beside(double right_edge_mm) {
        double left = 0.0;
        double right = 0.0;
        for (const int n : group_) {
            for (int k = 0; k < axis(n).copies; ++k) {
                const double x = position_of(train_, layout_, n, k).x_mm;
                left = std::min(left, x - axis(n).reach_mm);
                right = std::max(right, x + axis(n).reach_mm);
            }
        }
        constexpr double kGapPart = 0.1;
        const double shift = has_neighbour_ ? right_edge_mm - left + kGapPart * (right - left) : 0.0;
        has_neighbour_ = true;
        for (const int n : group_) axis(n).position_mm.x_mm += shift;
        return right + shift;
    }

    int other_end(std::size_t m, int n) const {
        return layout_.meshes[m].first == n ? layout_.meshes[m].second : layout_.meshes[m].first;
    }

    const Train& train_;
    CarrierLayout& layout_;
    std::vector<double>& direction_turns_;
    std::vector<Finding>& findings_;
    std::vector<std::vector<std::size_t>> meshes_of_;
    std::vector<int> group_;
    bool has_neighbour_ = false;
    int placed_count_ = 0;
    std::map<int, int> reached_from_;
    std::set<int> waiting_once_;   // in mesh with a placed axis
    std::set<int> waiting_twice_;  // with two
    std::map<std::pair<int, int>, Angle> directions_;
};

}  // namespace

void lay_out(const Train& train, CarrierLayout& layout, std::vector<double>& direction_turns,
             std::vector<Finding>& findings) {
    Layer(train, layout, direction_turns, findings).run();
}

PlanePoint position_of(const Train& train, const CarrierLayout& layout, int node, int k) {
    const LaidAxis& axis = layout.axes[static_cast<std::size_t>(node)];
    if (k == 0) return axis.position_mm;
    const PlanePoint& hub = layout.axes[static_cast<std::size_t>(axis.hub)].position_mm;
    const double turn = kTurn * turns_from_first(train, axis.members.front(), k).fraction().to_double();
    const double x = axis.position_mm.x_mm - hub.x_mm;
    const double y = axis.position_mm.y_mm - hub.y_mm;
    return {hub.x_mm + x * std::cos(turn) - y * std::sin(turn), hub.y_mm + x * std::sin(turn) + y * std::cos(turn)};
}

double reach_of(const CarrierLayout& layout) {
    double reach = 0.0;
    for (std::size_t n = 1; n < layout.axes.size(); ++n) {
        const PlanePoint& p = layout.axes[n].position_mm;
        reach = std::max(reach, std::hypot(p.x_mm, p.y_mm) + layout.axes[n].reach_mm);
    }
    return reach;
}

}  // namespace couplet
