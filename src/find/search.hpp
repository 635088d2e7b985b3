// Search: all tooth counts of an arrangement that make a ratio and keep every rule.
//
// Exhaustive within the ranges of the wish. Whole numbers sort out what cannot be (closed forms of the ratio, the
// assembly conditions of place/assembly.hpp, room between tip circles); every candidate that is left is judged by the
// code that sizes, places and moves trains (judge.hpp). A count that must follow from the others for the centre
// distances to agree is not a loop of its own: candidates are the free counts times the copies.
//
// The outermost loop, over the first count, can be cut into slices. Joined, the slices of a wish give what the wish
// gives whole; where only the nearest rows are wanted, the counts of what was rejected may differ, since less is known
// to a slice of what is near.
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

struct SearchProgress {
    std::size_t done;  // of the outermost loop
    std::size_t all;
    std::size_t rows;  // found so far
};

enum class SearchPace { go_on, stop };
using SearchListener = std::function<SearchPace(const SearchProgress&)>;

// More candidates than this are refused with std::length_error, and more rows than kMostSearchRows within a tolerance.
inline constexpr double kMostCandidates = 1e12;
inline constexpr std::size_t kMostSearchRows = 1000000;

// Told of after every step of the outermost loop, the listener may stop the search: what was found by then comes back,
// marked as partial. std::invalid_argument where the wish is not meant (require_meant) or there is no such slice.
[[nodiscard]] SearchResult search(const SearchWish& wish, const Slice& slice = {}, const SearchListener& listener = {});

// The results of slices of one wish, as one.
[[nodiscard]] SearchResult join(const SearchWish& wish, std::span<const SearchResult> slices);

}  // namespace couplet
