// Sleeves: the shafts of members on one axis, one inside the other.
//
// A member is held to its axis at some heights: by its gears' hubs, its plate, its disc. Its shaft joins these, and
// reaches down to a bearing where it can. Where a shaft passes another member's hub it runs inside of it, and that
// member's shaft becomes a sleeve. Radii and heights in mm.
//
// METHOD    1  Each shaft spans from its lowest to its highest hub. Two that would each have to pass the other are cut
//              into short ones, a piece for each hub.
//           2  From the lowest member up, a shaft is led down to the bearing unless a hub that it would pass belongs to
//              a shaft that passes one of its own.
//           3  The longest shaft lies innermost; each next one begins outside of all that pass its hubs. Where that
//              leaves a member no room for a wall, the shafts inside of it end above it instead.
#pragma once

#include <optional>
#include <vector>

#include "solid/sweep.hpp"
#include "train/train.hpp"

namespace couplet {

struct Hub {
    Span span;
    double outer_mm = 0.0;  // radius of what sits there: of two at one height the wider one lies round the other
};

struct HubsOnAxis {
    MemberIndex member;
    std::vector<Hub> hubs;   // rising, not empty
    double wanted_mm = 0.0;  // radius of its shaft where nothing else asks for more; 0: as thin as may be
    double most_mm = 0.0;    // radius that leaves its gears whole
};

struct Sleeve {
    MemberIndex member;
    double inner_mm = 0.0;  // radius; 0: solid
    double outer_mm = 0.0;
    std::vector<Span> pieces;  // rising; each holds at least one hub
    bool reaches_bearing = false;
};

struct SleeveRoom {
    double wall_mm;                    // least wall of a sleeve
    double clearance_mm;               // between radii that turn against each other
    std::optional<double> bearing_mm;  // height down to which shafts may go
};

// By entry of `members`. Members of more than some dozens on one axis keep their shafts to themselves: none passes more
// than a few hubs of others on its way to the bearing.
[[nodiscard]] std::vector<Sleeve> nest_sleeves(const std::vector<HubsOnAxis>& members, const SleeveRoom& room);

}  // namespace couplet
