// FlatFace: a flat face across Z, filled between the loops of the walls that end at it.
//
// No general triangulation: what has to be filled is a strip between two mirrored sides, or the band between an outer
// and an inner loop round one middle, with openings. A band with openings is cut into sectors, one for each opening,
// which the opening's edge and the sector's boundary fill between them, and plain bands between the sectors. All loops
// run counter-clockwise seen from above, whichever way the face looks. An inner loop of one point is a band's middle.
#pragma once

#include <algorithm>
#include <optional>
#include <span>

#include "solid/contour.hpp"

namespace couplet {

// Vertices of a face in the order of a loop.
using Chain = std::vector<std::uint32_t>;

// What a loop runs round: all within a half width of a line. A hole's line is a point.
struct Slot {
    PlanePoint from;
    PlanePoint to;
    double half_width_mm;
};

// A sector of a band: the runs of lines on its loops, by the first point and the number of lines. Its direction orders
// sectors.
struct Sector {
    struct Run {
        std::size_t first;
        std::size_t lines;
    };
    Run outer;
    Run inner;
    double direction_rad;  // in [0, 2 pi)
};

// An opening of a band with its own sector, and its edge.
struct Opening {
    Sector sector;
    Slot slot;
    Loop edge;
};

// The band between two loops, and the sectors in it that are taken. It refers to the loops.
class Band {
  public:
    Band(const Loop& outer, const Loop& inner, const PlanePoint& middle);

    [[nodiscard]] const Loop& outer() const { return outer_; }
    [[nodiscard]] const Loop& inner() const { return inner_; }

    void take(const Sector& sector) { taken_.push_back(sector); }

    // A free sector whose lines all pass by the hole, so that its boundary is seen from every point of the hole's edge
    // that faces it. At most `half_rad` to both sides, seen from the middle; nothing where there is no room.
    [[nodiscard]] std::optional<Sector> sector_round(const Hole& hole, double half_rad) const;

    // Counter-clockwise.
    [[nodiscard]] std::vector<PlanePoint> boundary_of(const Sector& sector) const;

    // The lines of the outer or the inner loop between two directions from the middle, to the nearest points.
    [[nodiscard]] Sector::Run outer_run(const PlanePoint& from, const PlanePoint& to) const;
    [[nodiscard]] Sector::Run inner_run(const PlanePoint& from, const PlanePoint& to) const;

  private:
    [[nodiscard]] bool is_free(const Sector& sector) const;

    const Loop& outer_;
    const Loop& inner_;
    PlanePoint middle_;
    std::vector<PlanePoint> outer_directions_;
    std::vector<PlanePoint> inner_directions_;
    double inner_reach_mm_;
    std::vector<Sector> taken_;
};

class FlatFace {
  public:
    FlatFace(Solid& solid, bool up, Surface surface) : solid_(solid), up_(up), surface_(surface) {}

    // Vertices along a loop, with the face's normal.
    Chain add(const Loop& loop);

    // A polygon whose sides mirror each other: its first and last points face each other, and so on inwards.
    void fill_strip(std::span<const std::uint32_t> polygon);

    // Openings in any order. The inner chain may be a single point.
    void fill_band(const Chain& outer, const Chain& inner, const PlanePoint& middle, std::vector<Opening> openings);

  private:
    // The triangle that goes on along the outer or the inner chain, from the points that both have come to.
    struct Step {
        std::uint32_t outer;
        std::uint32_t inner;
        bool along_outer;
    };

    [[nodiscard]] PlanePoint at(std::uint32_t vertex) const;
    [[nodiscard]] double twice_area(std::uint32_t a, std::uint32_t b, std::uint32_t c) const;
    [[nodiscard]] std::vector<double> progress_along(const Chain& chain, const Slot& slot, double start) const;
    void add_triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c);
    [[nodiscard]] bool folds(const Chain& outer, const Chain& inner, Step step) const;
    [[nodiscard]] std::vector<Step> even_steps(const Chain& outer, const Chain& inner, const Slot& slot) const;
    [[nodiscard]] std::vector<Step> best_steps(const Chain& outer, const Chain& inner) const;
    void fill_between(const Chain& outer, const Chain& inner, const Slot& slot);
    template <class Distance>
    [[nodiscard]] std::size_t nearest_of(const Chain& chain, Distance distance) const {
        const auto nearer = [&](std::uint32_t a, std::uint32_t b) { return distance(at(a)) < distance(at(b)); };
        return static_cast<std::size_t>(std::ranges::min_element(chain, nearer) - chain.begin());
    }
    void fill_round(const Chain& outer, const Chain& inner, const Slot& slot);
    void fill_sector(const Chain& outer, const Chain& inner, const Opening& opening);

    Solid& solid_;
    bool up_;
    Surface surface_;
};

}  // namespace couplet
