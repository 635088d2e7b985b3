// JSON values: the pieces that every JSON sheet is made of.
#pragma once

#include <nlohmann/json.hpp>

#include "motion/motion.hpp"

namespace couplet {

// Keys stay in the order in which they are written here.
using Json = nlohmann::ordered_json;

// {"exact": "-5/12", "value": -0.41666}; null where there is no value.
[[nodiscard]] Json exact_json(const Ratio& value);
[[nodiscard]] Json exact_json(const std::optional<Ratio>& value);

// The nearest double; null where none is near.
[[nodiscard]] Json double_json(const Ratio& value);

// A whole number where every reader of JSON keeps it exact (at most 2^53), else its digits as text.
[[nodiscard]] Json whole_json(const Ratio& whole);

[[nodiscard]] Json names_json(const Train& train, const std::vector<MemberIndex>& members);
[[nodiscard]] Json ties_json(const Train& train, const std::vector<std::pair<MemberIndex, MemberIndex>>& ties);
[[nodiscard]] Json drivers_json(const Train& train, const std::vector<Drive>& drivers);
[[nodiscard]] Json cautions_json();

// The text of a sheet: two blanks of indent, a line break at the end; malformed UTF-8 is replaced.
[[nodiscard]] std::string json_text(const Json& sheet);

}  // namespace couplet
