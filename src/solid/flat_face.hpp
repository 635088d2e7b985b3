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

// A sector of a band: the runs of lines on its loops, by the first point and the number of lines. Its direction orders
// sectors.
struct Sector {
    struct Run {
        std::size_t first;
        std::size_t lines;
    };
    Run outer;
    Run inner;
    double direction_rad;
};

// A round opening of a band with its own sector, and its edge.
struct Opening {
    Sector sector;
    PlanePoint centre;
    Loop edge;
};

// The band between two loops, and the sectors in it that are taken. It refers to the loops.
class FaceBand {
  public:
    FaceBand(const Loop& outer, const Loop& inner, const PlanePoint& middle);

    [[nodiscard]] const Loop& outer() const { return outer_; }
    [[nodiscard]] const Loop& inner() const { return inner_; }
    [[nodiscard]] const PlanePoint& middle() const { return middle_; }

    void take(const Sector& sector) { taken_.push_back(sector); }

    // A free sector whose lines all pass by the hole, so that its boundary is seen from every point of the hole's edge
    // that faces it. At most `half_rad` to both sides, seen from the middle; nothing where there is no room.
    [[nodiscard]] std::optional<Sector> sector_round(const Hole& hole, double half_rad) const;

    // Counter-clockwise.
    [[nodiscard]] std::vector<PlanePoint> boundary_of(const Sector& sector) const;

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

    // Triangles from each line of a chain to a point on its left.
    void fill_fan(std::span<const std::uint32_t> chain, std::uint32_t apex);

    // The polygon between two chains that both go on along a direction, one on the right and one on the left of it. The
    // right one begins first and ends last, or the left one does.
    void fill_monotone(std::span<const std::uint32_t> right, std::span<const std::uint32_t> left,
                       const PlanePoint& along);

    // Openings in any order. The inner chain may be a single point.
    void fill_band(const Chain& outer, const Chain& inner, const PlanePoint& middle, std::vector<Opening> openings);

  private:
    // The triangle that goes on along the outer or the inner chain, from the points that both have come to.
    struct Step {
        std::uint32_t outer;
        std::uint32_t inner;
        bool along_outer;
    };

    // A point of a polygon between two chains.
    struct Ahead {
        std::uint32_t vertex;
        bool left;
    };

    [[nodiscard]] PlanePoint at(std::uint32_t vertex) const;
    [[nodiscard]] std::vector<Ahead> in_order(std::span<const std::uint32_t> right, std::span<const std::uint32_t> left,
                                              const PlanePoint& along) const;
    [[nodiscard]] double twice_area(std::uint32_t a, std::uint32_t b, std::uint32_t c) const;
    [[nodiscard]] std::vector<double> progress_along(const Chain& chain, const PlanePoint& middle, double start) const;
    void add_triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c);
    [[nodiscard]] bool folds(const Chain& outer, const Chain& inner, Step step) const;
    [[nodiscard]] std::vector<Step> even_steps(const Chain& outer, const Chain& inner, const PlanePoint& middle) const;
    [[nodiscard]] std::vector<Step> best_steps(const Chain& outer, const Chain& inner,
                                               const std::vector<Step>& near) const;
    void fill_between(const Chain& outer, const Chain& inner, const PlanePoint& middle);
    template <class Distance>
    [[nodiscard]] std::size_t nearest_of(const Chain& chain, Distance distance) const {
        const auto nearer = [&](std::uint32_t a, std::uint32_t b) { return distance(at(a)) < distance(at(b)); };
        return static_cast<std::size_t>(std::ranges::min_element(chain, nearer) - chain.begin());
    }
    void fill_round(const Chain& outer, const Chain& inner, const PlanePoint& middle);
    void fill_sector(const Chain& outer, const Chain& inner, const Opening& opening);

    Solid& solid_;
    bool up_;
    Surface surface_;
};

// A face that is nothing but a band.
void add_band_face(Solid& solid, bool up, Surface surface, const FaceBand& band, std::vector<Opening> openings = {});

}  // namespace couplet
