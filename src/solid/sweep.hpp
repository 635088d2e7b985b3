// Sweep: what round parts pass through while the train turns, and which of them can meet.
//
// A band is a part as a solid of revolution: between two radii round an axis and between two heights. Its body is the
// place that it is fixed to. Against another body it sweeps the ring that it covers on its way round the axes between
// them; only the distances of the start pose count, so what is clear here stays clear however the members turn. Lengths
// in mm; touching is not meeting.
#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "place/placement.hpp"

namespace couplet {

struct Span {
    double bottom_mm = 0.0;
    double top_mm = 0.0;

    friend bool operator==(const Span&, const Span&) = default;
};

struct Band {
    PlaceIndex body;         // -1: the frame
    PlanePoint centre_mm{};  // of its axis in the start pose, in the frame
    double inner_mm = 0.0;   // radii
    double outer_mm = 0.0;
    Span span;
};

// Whether the two can meet in plan, whatever their heights. Bands of one body never do.
[[nodiscard]] bool can_meet_in_plan(const Placement& placement, const Band& a, const Band& b);
[[nodiscard]] bool can_meet(const Placement& placement, const Band& a, const Band& b);

// What the band sweeps in the frame.
[[nodiscard]] Band swept_on_frame(const Placement& placement, const Band& band);

// Many bands, found by where they sweep. `cell_mm` is about the size of a usual band, `cell_height_mm` its height.
class Surroundings {
  public:
    Surroundings(const Placement& placement, double cell_mm, double cell_height_mm);

    void add(const Band& band);
    [[nodiscard]] bool is_clear(const Band& band) const;
    // Positions, in the order of adding, of all that can meet the band; rising.
    [[nodiscard]] std::vector<std::size_t> meeting(const Band& band) const;

  private:
    struct Cells {
        std::int64_t left, right, low, high;
    };
    [[nodiscard]] Cells cells_of(const Band& band) const;
    template <class Visit>
    void each_near(const Band& band, Visit visit) const;

    const Placement& placement_;
    double cell_mm_;
    double cell_height_mm_;
    std::vector<Band> bands_;
    std::unordered_map<std::int64_t, std::vector<std::size_t>> in_cell_;
    std::vector<std::size_t> large_;  // of too many cells to list
};

}  // namespace couplet
