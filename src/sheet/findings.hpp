// Findings: the design rules that were looked at, as sheets show them.
//
// For eyes what fails comes first, then the cautions, each with its mend; then a table of what holds.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sheet/json_values.hpp"
#include "sheet/page.hpp"
#include "train/finding.hpp"

namespace couplet {

// "holds", "fails", "caution".
[[nodiscard]] std::string_view verdict_name(Verdict verdict);

// Of one that fails or is a caution: "FAILS: undercut at sun: 14 teeth, limit 17.1 teeth (ISO 21771).", and "What would
// mend it: ..."; the latter may be empty.
[[nodiscard]] std::string finding_statement(const Finding& finding);
[[nodiscard]] std::string mend_text(const Finding& finding);

// The first list, then what the second one adds: a rule that both looked at in one place is told once, where the first
// has it, by its worse verdict.
[[nodiscard]] std::vector<Finding> joined_findings(std::vector<Finding> first, const std::vector<Finding>& second);

[[nodiscard]] bool any_fails(const std::vector<Finding>& findings);

// "none fails, 2 cautions, 31 hold".
[[nodiscard]] std::string findings_summary(const std::vector<Finding>& findings);

// "12 rules hold, 2 cautions, 1 fails."
[[nodiscard]] std::string verdict_sentence(const std::vector<Finding>& findings);

[[nodiscard]] Json finding_json(const Finding& finding);
[[nodiscard]] Json findings_json(const std::vector<Finding>& findings);
void add_findings(Page& page, const std::vector<Finding>& findings);
// Its two parts without the heading: the statements with their mends; the table of what holds.
void add_statements(Page& page, const std::vector<Finding>& findings);
void add_holding(Page& page, const std::vector<Finding>& findings);
void add_findings(Table& quantities_list, const std::vector<Finding>& findings);

}  // namespace couplet
