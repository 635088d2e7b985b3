// Wish input: what a search on the command line is for, from its options.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "find/search.hpp"

namespace CLI {
class App;
}

namespace couplet {

struct WishOptions {
    std::optional<std::string> ratio;
    std::string arrangement = "simple";
    std::optional<std::string> pairs;
    std::optional<std::string> hold;
    std::optional<std::string> drive;
    std::optional<std::string> out;
    std::optional<std::string> tolerance;
    std::optional<std::string> nearest;
    std::vector<std::string> teeth;
    std::optional<std::string> copies;
    std::optional<std::string> ring_diameter;
    std::string module = "2";
    std::string shift = "none";
    std::string hunting = "any";
    std::optional<std::string> spacing;
    std::string each = "train";

    friend bool operator==(const WishOptions&, const WishOptions&) = default;
};

// The options must outlive the parsing.
void add_wish_options(CLI::App& verb, WishOptions& options);

// UsageError where an option is not what it asks for, or the wish as a whole cannot be meant.
[[nodiscard]] SearchWish wish_of(const WishOptions& options);

// "3/8": the third of eight, counted from 1. UsageError where it is none.
[[nodiscard]] Slice slice_of(const std::string& text);

// A whole number from 1 to `most`; UsageError where the text is none.
[[nodiscard]] std::size_t count_within(std::string_view option, const std::string& text, std::size_t most);

}  // namespace couplet
