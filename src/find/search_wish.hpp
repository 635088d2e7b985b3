// Search wish: what a gear train is wanted to do, and within which limits its tooth counts are looked for.
//
// A ratio is driver turns per output turn; negative where the sense reverses. Counts are named as arrangement.hpp names
// them ("sun", "planet's first gear", "pair 2, driven").
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "exact/ratio.hpp"
#include "find/tooth_range.hpp"
#include "train/arrangement.hpp"

namespace couplet {

// Members by the names that train_of gives them.
struct CentralChoice {
    std::string held;
    std::string driver;
    std::string output;

    friend bool operator==(const CentralChoice&, const CentralChoice&) = default;
};

// none: every gear has shift 0. allowed: a gear that would be undercut gets the least shift that avoids it, and a ring
// the shift that brings it to its planet's centre distance; its count may differ by up to kMostMendedTeeth from the one
// that fits without.
enum class ShiftUse { none, allowed };
inline constexpr int kMostMendedTeeth = 2;

// required: in every mesh each tooth meets all of the other gear.
enum class HuntingUse { any, required };

// equal: copies stand at equal angles. free: where they cannot be put in so, each stands at the nearest angle at which
// it can (a multiple of the least mesh angle).
enum class SpacingUse { equal, free };

// Which trains are rows: each one, or for each ratio its first one (fewest teeth in all).
enum class RowsUse { each_train, each_ratio };

inline constexpr int kMostSearchedCopies = 63;
inline constexpr int kMostSearchedTeeth = 10000;

struct CopiesRange {
    int fewest = 3;
    int most = 3;

    friend bool operator==(const CopiesRange&, const CopiesRange&) = default;
};

struct SearchWish {
    Arrangement arrangement = Arrangement::simple;
    int pairs = 2;  // of Arrangement::pairs: 1 to 4
    Ratio target;   // not 0
    // The largest difference of ratio / target from 1, and all rows within it; nothing: the most_nearest best rows.
    std::optional<Ratio> tolerance;
    std::size_t most_nearest = 100;
    // Only for planetary sets with one carrier; nothing: as train_of sets them.
    std::optional<CentralChoice> choice;
    // Counts that are not named: 12 to 100, rings whatever fits.
    std::map<std::string, ToothRange> teeth;
    CopiesRange copies;
    std::optional<double> largest_ring_diameter_mm;  // pitch diameter
    Ratio module_mm = 2;
    ShiftUse shift = ShiftUse::none;
    HuntingUse hunting = HuntingUse::any;
    SpacingUse spacing = SpacingUse::equal;
    RowsUse rows = RowsUse::each_train;

    friend bool operator==(const SearchWish&, const SearchWish&) = default;
};

// What can be searched: arrangements whose ratio is one number.
[[nodiscard]] const std::vector<Arrangement>& searchable_arrangements();

// Of the wish's arrangement: the names of its counts, its central members (none where nothing can be chosen), and the
// choice that the wish makes or leaves as usual.
[[nodiscard]] std::vector<std::string> count_names(const SearchWish& wish);
[[nodiscard]] std::vector<std::string> central_members(Arrangement arrangement);
[[nodiscard]] CentralChoice choice_of(const SearchWish& wish);

// Where in the counts the rings and the meshes are.
struct CountPlaces {
    std::vector<std::size_t> rings;
    std::vector<std::pair<std::size_t, std::size_t>> meshes;
};
[[nodiscard]] CountPlaces count_places(const SearchWish& wish);

// The range of every count, in order.
[[nodiscard]] std::vector<ToothRange> ranges_of(const SearchWish& wish);

// std::invalid_argument where the wish cannot be meant: an arrangement that is not searchable, a name that it does not
// have, a choice of members that are not three, a target of 0, a range that is empty or outside kFewestTeeth to
// kMostSearchedTeeth, copies outside 1 to kMostSearchedCopies, no row wanted, a module, tolerance or diameter below 0.
void require_meant(const SearchWish& wish);

}  // namespace couplet
