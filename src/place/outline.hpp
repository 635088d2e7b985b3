// Outline: a gear's polygon near one direction, and the distance between two outlines.
//
// Lengths in mm, angles in radians, in whatever plane the caller puts the gears. A step of the proof of mesh
// (mesh_proof.hpp) turns two outlines, keeps the edges in reach of each other and asks for their distance.
#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include "tooth/profile.hpp"

namespace couplet {

struct Edge {
    PlanePoint from;
    PlanePoint to;
};

// One tooth as a polygon, with what tells metal from space.
class ToothOutline {
  public:
    ToothOutline(const ToothProfile& profile, double tolerance_mm);

    // Adds the edges of all teeth whose middles stand within `half_width_rad` of `middle_rad`, one of them being at
    // `tooth_rad`, turned round `centre`; only those that `keep(point)` wants at either end.
    template <class Keep>
    void add_edges(std::vector<Edge>& edges, const PlanePoint& centre, double tooth_rad, double middle_rad,
                   double half_width_rad, Keep keep) const {
        for (const double turn : tooth_directions(tooth_rad, middle_rad, half_width_rad)) {
            const double cosine = std::cos(turn);
            const double sine = std::sin(turn);
            PlanePoint last{};
            bool last_kept = false;
            for (std::size_t i = 0; i < points_.size(); ++i) {
                const PlanePoint& p = points_[i];
                const PlanePoint next{centre.x_mm + p.x_mm * cosine - p.y_mm * sine,
                                      centre.y_mm + p.x_mm * sine + p.y_mm * cosine};
                const bool next_kept = keep(next);
                if (i > 0 && (last_kept || next_kept)) edges.push_back({last, next});
                last = next;
                last_kept = next_kept;
            }
        }
    }

    // True where a point, seen from the gear's centre with a tooth at `tooth_rad`, lies in metal.
    [[nodiscard]] bool is_metal(const PlanePoint& from_centre, double tooth_rad) const;

    [[nodiscard]] double tip_radius_mm() const { return tip_radius_mm_; }

  private:
    struct Halfway {
        double radius_mm;
        double half_angle_rad;  // of the metal
    };

    [[nodiscard]] std::vector<double> tooth_directions(double tooth_rad, double middle_rad,
                                                       double half_width_rad) const;

    std::vector<PlanePoint> points_;  // from the middle of a space to the middle of the next, both there
    std::vector<Halfway> halves_;     // by rising radius
    double pitch_rad_;
    double tip_radius_mm_;
    bool internal_;
};

struct ClosestEdges {
    double distance_mm = 0.0;  // 0 where edges cross
    PlanePoint between{};
    bool crossing = false;
};

// The closest points of two sets of edges, where they are closer than `within_mm`. Sorts both by their lower end.
[[nodiscard]] std::optional<ClosestEdges> closest_within(std::vector<Edge>& a, std::vector<Edge>& b, double within_mm);

// How far the longest of the edges rises in y.
[[nodiscard]] double longest_rise(const std::vector<Edge>& edges);

// The distance to the closest of edges that closest_within has sorted, `longest_mm` being their longest rise, or
// `within_mm` where all are farther.
[[nodiscard]] double distance_to_sorted(const PlanePoint& point, const std::vector<Edge>& sorted, double longest_mm,
                                        double within_mm);

[[nodiscard]] double distance_to_edge(const PlanePoint& point, const Edge& edge);

}  // namespace couplet
