// Outline: a train as the keys and values of its scene file, in the order of the format's description.
//
// Writing prints an outline; rewriting compares two of them. A key that the format lets one leave out is there too,
// marked, so that it can be changed where a file does write it.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "train/train.hpp"

namespace couplet {

struct Field;

// A value as it is written on one line, and its parts: the items of a list, the fields of a table, or none.
struct Value {
    std::string text;
    std::vector<Value> items;
    std::vector<Field> fields;
};

struct Field {
    std::string key;  // not in quotes
    Value value;
    bool is_default = false;
};

struct Entry {
    // What tells the entry from others of its list.
    std::string identity;
    std::vector<Field> fields;
    std::vector<Entry> gears;
};

struct EntryList {
    std::string_view key;
    std::string_view header;
    std::vector<Entry> entries;
};

struct Outline {
    std::vector<Field> top;
    std::vector<Field> teeth;
    std::array<EntryList, 6> lists;
};

inline constexpr std::string_view kGearHeader = "[[member.gear]]";

// The train must have no faults; std::invalid_argument where one of its numbers is no decimal.
[[nodiscard]] Outline outline_of(const Train& train);

// "key = value" lines of the fields that are not defaults, each after the indentation.
[[nodiscard]] std::string lines_of(const std::vector<Field>& fields, std::string_view indentation = "");
// The fields as a table on one line, "{ key = value }".
[[nodiscard]] Value table_value(std::vector<Field> fields);
// The entry with its header and its gears.
[[nodiscard]] std::string entry_text(std::string_view header, const Entry& entry);

}  // namespace couplet
