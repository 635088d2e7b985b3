// Expression: a ratio written as plain arithmetic in tooth counts, "21/24 * 69/(21+69)".
//
// INPUT     a train and a setting, two joints whose ratio is fixed.
// OUTPUT    text of whole numbers and + - * / ( ), exact in any field that takes a formula, and its exact value.
// METHOD    the equations of motion are eliminated once more with tooth counts as symbols: a coefficient is a sum of
//           products of tooth counts, each counted by its gear, so that what cancels by the mechanism (a planet
//           between sun and ring) cancels on paper too. Zero is decided by value, not by form.
#pragma once

#include <optional>
#include <string>

#include "exact/ratio.hpp"
#include "motion/motion.hpp"

namespace couplet {

// The value of such an expression: whole numbers, + - * / with the usual precedence, parentheses, a leading sign.
// Nothing where the text is anything else or divides by zero.
[[nodiscard]] std::optional<Ratio> evaluate_expression(const std::string& text);

}  // namespace couplet
