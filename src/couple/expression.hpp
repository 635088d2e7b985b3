// Expression: a coupling's angle written as plain arithmetic in tooth counts, "-360 * 21/24 * 69/(21+69)".
//
// INPUT     a train and a setting, two joints whose ratio is fixed, the first joint's angle.
// OUTPUT    text of numbers and + - * / ( ), exact in any field that takes a formula: the second joint's angle.
// METHOD    the elimination that gave the rates (motion/elimination.hpp) is done once more, step by step, with tooth
//           counts as symbols (symbols.hpp), so that what cancels by the mechanism (a planet between sun and ring)
//           cancels on paper too. Where that grows beyond what anybody would read, or the train beyond
//           kMostExpressedMembers, the exact ratio itself is written as a fraction. Every text is evaluated and
//           compared with the exact ratio before it is given.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "couple/symbols.hpp"
#include "exact/ratio.hpp"
#include "motion/motion.hpp"

namespace couplet {

inline constexpr std::size_t kMostExpressedMembers = 400;
inline constexpr std::size_t kMostExpressionLength = 300;

// The joint rates of a setting as quotients of tooth counts, per turn of one parameter with the others still. By
// member; nothing where a rate grew too long. The motion is that of the setting, and moves or is free.
[[nodiscard]] std::vector<std::optional<Quotient>> symbolic_joint_rates(const Train& train, const Setting& setting,
                                                                        const Motion& motion, std::size_t parameter);

// The second joint's angle for the first joint's, whose exact ratio is known, from the rates of symbolic_joint_rates
// (empty: none).
[[nodiscard]] std::string angle_expression(const Train& train, const std::vector<std::optional<Quotient>>& joint_rates,
                                           const Joint& first, const Joint& second, const Ratio& second_per_first,
                                           const Ratio& first_deg);

// The same with the ratio as a fraction: "-360 * 161/240".
[[nodiscard]] std::string fraction_expression(const Ratio& second_per_first, const Ratio& first_deg);

// The value of such a text: decimal numbers, + - * / with the usual precedence, parentheses, a leading sign. Nothing
// where the text is anything else, divides by zero, or nests deeper than 100.
[[nodiscard]] std::optional<Ratio> evaluate_expression(const std::string& text);

}  // namespace couplet
