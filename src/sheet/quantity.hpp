// Quantity: one measured figure of a gear or a mesh, as every format shows it.
//
// The same list of quantities makes the keys of a JSON object, the rows of a table for eyes and the rows of a CSV file.
// A number that is none (infinite, or without a value) is null for programs and "none" for eyes: no NaN leaves here.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/json_values.hpp"
#include "sheet/table.hpp"

namespace couplet {

struct Quantity {
    std::string key;    // of the JSON object, unit included: "pitch_diameter_mm"
    std::string label;  // for eyes; empty: only programs get it
    std::string unit;   // "mm", "deg", "" for a plain number or a word
    Json value;
};

// Null where the number is not finite or there is none.
[[nodiscard]] Json measured_json(double value);
[[nodiscard]] Json measured_json(const std::optional<double>& value);

// In full for programs; for eyes 3 decimals for mm, else at most 4.
[[nodiscard]] Cell measured_cell(double value, std::string_view unit);

[[nodiscard]] Json quantities_json(const std::vector<Quantity>& quantities);

// Three columns: quantity, value, unit.
[[nodiscard]] Table quantities_table(std::string title, const std::vector<Quantity>& quantities);

// Rows "what, name, key, value, unit" for a CSV table with those columns.
[[nodiscard]] Table quantities_list();
void add_quantities(Table& list, const std::string& what, const std::string& name,
                    const std::vector<Quantity>& quantities);

}  // namespace couplet
