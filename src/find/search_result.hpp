// Search result: the trains that were found, each of them checked, and why the others were not.
//
// Lengths in mm. Counts stand in the order of count_names (search_wish.hpp).
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "exact/ratio.hpp"
#include "place/copies_balance.hpp"

namespace couplet {

// A candidate is counted under the first rule that it breaks. Whole numbers are looked at first: without shifts the
// counts that are `undercut` whatever they are in mesh with, then the rules before `centre_distance` and axes far too
// far apart; room for copies only without shifts and at equal angles. Then come the teeth, then the places, each in the
// order here, by the code that sizes and places a train.
enum class Rule {
    ratio,                // outside the tolerance, or behind the rows that are nearest
    tooth_range,          // a count that follows from the others is outside its range
    ring_diameter,        // larger than the largest
    hunting,              // required, and some teeth never meet
    assembly,             // the copies cannot be put in
    neighbour_clearance,  // tip circles of copies touch or collide
    centre_distance,      // the meshes of a planet, or of a shaft, do not agree, and no shift mends it
    undercut,
    interference,   // of a ring with the gear inside it
    contact_ratio,  // below 1
    other_teeth     // profile, tip thickness, clearance, backlash, fillets
};
inline constexpr std::size_t kRules = 11;

// "neighbour clearance"
[[nodiscard]] std::string_view name_of(Rule rule);

struct SearchRow {
    std::vector<int> teeth;
    std::vector<Ratio> shifts;  // by count
    int copies = 1;
    // Where the copies of each carrier stand, in its order; empty: at equal angles everywhere.
    std::vector<std::vector<Ratio>> places_deg;
    Ratio ratio;
    Ratio error_ppm;  // (ratio / target - 1) x 10^6
    // Pitch diameter of the largest ring; of the largest gear where there is no ring.
    double ring_diameter_mm = 0.0;
    bool hunting = false;               // in every mesh
    double contact_ratio = 0.0;         // the least of all meshes
    CopiesBalance balance;              // of the carrier where it is worst
    std::vector<std::string> cautions;  // rules of mesh_findings and assembly_of that allow this with a caution

    friend bool operator==(const SearchRow&, const SearchRow&) = default;
};

// whole: all candidates of the wish, or of its slice. partial: it was stopped before.
enum class SearchExtent { whole, partial };

struct SearchResult {
    Ratio target;
    std::int64_t examined = 0;
    std::array<std::int64_t, kRules> rejected{};  // by Rule
    std::vector<SearchRow> rows;                  // by error, then by teeth in all, then by counts and copies
    SearchExtent extent = SearchExtent::whole;

    [[nodiscard]] std::int64_t rejected_by(Rule rule) const { return rejected[static_cast<std::size_t>(rule)]; }
};

// (ratio / target - 1) x 10^6.
[[nodiscard]] Ratio error_in_ppm(const Ratio& ratio, const Ratio& target);

// The order of the rows.
[[nodiscard]] bool comes_before(const SearchRow& a, const SearchRow& b);

}  // namespace couplet
