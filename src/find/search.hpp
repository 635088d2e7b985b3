// Search: all tooth counts of an arrangement that make a ratio and keep every rule.
//
// Exhaustive within the ranges of the wish. Whole numbers sort out what cannot be (closed forms of the ratio, the
// assembly conditions of place/assembly.hpp, room between tip circles); every candidate that is left is judged by the
// code that sizes, places and moves trains (judge.hpp). A count that must follow from the others for the centre
// distances to agree is not a loop of its own: candidates are the free counts times the copies. Pairs on fixed axes are
// not looped over either: for each choice of driving gears, the driven ones that suit are found in a sorted table.
//
// The outermost loop, over the first count, can be cut into slices, and its steps are dealt out to threads. The result
// does not depend on the number of threads. Joined, the slices of a wish give what the wish gives whole; where only the
// nearest rows are wanted, the counts of what was rejected may differ, since less is known to a slice of what is near.
#pragma once

#include <functional>
#include <span>

#include "find/search_result.hpp"
#include "find/search_wish.hpp"

namespace couplet {

// The index-th of count slices, from 0: every count-th value of the outermost loop.
struct Slice {
    std::size_t index = 0;
    std::size_t count = 1;
};

// Where the nearest rows are wanted the loop is run through twice: when it is known which rows these are, for what was
// rejected before them.
struct SearchProgress {
    std::size_t done;  // steps of the outermost loop, in both rounds
    std::size_t all;
    std::span<const SearchRow> new_rows;  // found since the call before; some may be pushed out by nearer ones
};

enum class SearchPace { go_on, stop };
using SearchListener = std::function<SearchPace(const SearchProgress&)>;

// More candidates than this are refused with std::length_error, and more rows than kMostSearchRows within a tolerance.
inline constexpr double kMostCandidates = 1e12;
inline constexpr std::size_t kMostSearchRows = 100000;

// Told of after every step of the outermost loop and a few times a second within one that lasts, by whichever thread
// makes it and never by two at once, the listener may stop the search: what was found by then comes back, marked as
// partial. std::invalid_argument where the wish is not meant (require_meant), there is no such slice or no thread.
[[nodiscard]] SearchResult search(const SearchWish& wish, const Slice& slice = {}, const SearchListener& listener = {},
                                  unsigned threads = 1);

// The results of slices of one wish, as one.
[[nodiscard]] SearchResult join(const SearchWish& wish, std::span<const SearchResult> slices);

}  // namespace couplet
