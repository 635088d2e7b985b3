// Names: what a misspelt name was probably meant to be.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace couplet {

// The nearest name: one letter in three or so, at most four, typed wrong, left out, put in or swapped with a neighbour;
// the first of several equally near. Nothing where none is near or the name is longer than people type. Time linear in
// the number of names.
[[nodiscard]] std::optional<std::string_view> nearest_name(std::string_view name,
                                                           std::span<const std::string_view> names);

// "did you mean 'drum'?" where a name is near, else "the members are 'crank' and 'drum'" (`what_they_are` being "the
// members are"; long lists are cut), else, of no names, `where_none`.
[[nodiscard]] std::string suggestion(std::string_view name, std::span<const std::string_view> names,
                                     std::string_view what_they_are, std::string_view where_none);

// How many letters to change, leave out, put in or swap with a neighbour to make one name of the other (optimal string
// alignment: Boytsov, Indexing methods for approximate dictionary searching, 2011, 2.1); `most` + 1 where more than
// `most`.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b, std::size_t most);

}  // namespace couplet
