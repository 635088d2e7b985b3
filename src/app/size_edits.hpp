// Size edits: what the user changes of units, copies and where they stand, each as a new train.
//
// Numbers that come out are decimals, as a scene file needs: what no decimal writes is rounded (lengths to 1e-6 of
// their unit, angles to 1e-12 degrees, far below what place/ can tell from an exact fit).
#pragma once

#include <span>

#include "place/assembly.hpp"
#include "train/train.hpp"

namespace couplet {

// How the size of teeth is given; lengths are in mm or in inches with it.
enum class PitchUnit { module_mm, diametral_pitch };

// Of the train's [teeth]: by diametral pitch only where no module is given.
[[nodiscard]] PitchUnit pitch_unit(const Train& train);
// The same train given the other way: every length that [teeth] and the gears without a size of their own give is
// converted. [teeth] without a size gets that of module 2.
[[nodiscard]] Train with_pitch_unit(const Train& train, PitchUnit unit);

// Spread equally.
[[nodiscard]] Train with_copies(const Train& train, MemberIndex member, int copies);

// Where a copy goes, from the first copy.
struct CopyMove {
    PlaceIndex place;
    Ratio to_deg;
};
// What a misplaced copy is nearest to; nothing where no place suits it or none is exact.
[[nodiscard]] std::optional<CopyMove> nearest_move(const MisplacedCopy& copy);
[[nodiscard]] Train with_copies_moved(const Train& train, const Placement& placement, std::span<const CopyMove> moves);

}  // namespace couplet
