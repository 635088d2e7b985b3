#include "sheet/findings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "sheet/quantity.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::size_t count_of(const std::vector<Finding>& findings, Verdict verdict) {
    return static_cast<std::size_t>(std::ranges::count(findings, verdict, &Finding::verdict));
}

std::string figure_text(double figure, const std::string& unit) {
    const std::string number = measured_cell(figure, unit).shown;
    return unit.empty() ? number : number + ' ' + unit;
}

Table holding_table(const std::vector<Finding>& findings) {
    Table table;
    table.columns = {{"rule that holds", "", Align::left}, {"where", "", Align::left}, {"figure", "", Align::right},
                     {"limit", "", Align::right},          {"unit", "", Align::left},  {"source", "", Align::left}};
    for (const Finding& finding : findings)
        if (finding.verdict == Verdict::holds)
            table.rows.push_back({finding.rule, finding.where, measured_cell(finding.figure, finding.unit),
                                  measured_cell(finding.limit, finding.unit), finding.unit, finding.source});
    return table;
}

}  // namespace

std::string_view verdict_name(Verdict verdict) {
    switch (verdict) {
        case Verdict::holds:
            return "holds";
        case Verdict::fails:
            return "fails";
        case Verdict::caution:
            return "caution";
    }
    return "";
}

std::string finding_statement(const Finding& finding) {
    return fmt::format("{}: {} at {}: {}, limit {} ({}).", finding.verdict == Verdict::fails ? "FAILS" : "Caution",
                       finding.rule, finding.where, figure_text(finding.figure, finding.unit),
                       figure_text(finding.limit, finding.unit), finding.source);
}

std::string mend_text(const Finding& finding) {
    return finding.mend.empty() ? "" : "What would mend it: " + finding.mend + '.';
}

namespace {

std::string bullet_text(const Finding& finding) {
    const std::string mend = mend_text(finding);
    return finding_statement(finding) + (mend.empty() ? "" : ' ' + mend);
}

}  // namespace

std::vector<Finding> joined_findings(std::vector<Finding> first, const std::vector<Finding>& second) {
    const auto severity = [](Verdict verdict) {
        return verdict == Verdict::fails ? 2 : verdict == Verdict::caution ? 1 : 0;
    };
    std::map<std::pair<std::string, std::string>, std::size_t> of_first;
    for (std::size_t f = 0; f < first.size(); ++f) of_first.try_emplace({first[f].rule, first[f].where}, f);
    for (const Finding& finding : second) {
        const auto known = of_first.find({finding.rule, finding.where});
        if (known == of_first.end())
            first.push_back(finding);
        else if (severity(finding.verdict) > severity(first[known->second].verdict))
            first[known->second] = finding;
    }
    return first;
}

bool any_fails(const std::vector<Finding>& findings) {
    return count_of(findings, Verdict::fails) > 0;
}

std::string findings_summary(const std::vector<Finding>& findings) {
    const std::size_t fails = count_of(findings, Verdict::fails);
    return fmt::format("{} {}, {}, {} {}", fails == 0 ? "none" : std::to_string(fails), fails > 1 ? "fail" : "fails",
                       counted(count_of(findings, Verdict::caution), "caution"), count_of(findings, Verdict::holds),
                       count_of(findings, Verdict::holds) == 1 ? "holds" : "hold");
}

std::string verdict_sentence(const std::vector<Finding>& findings) {
    const std::size_t holds = count_of(findings, Verdict::holds);
    const std::size_t fails = count_of(findings, Verdict::fails);
    return fmt::format("{} {}, {}, {} {}.", counted(holds, "rule"), holds == 1 ? "holds" : "hold",
                       counted(count_of(findings, Verdict::caution), "caution"),
                       fails == 0 ? "none" : std::to_string(fails), fails > 1 ? "fail" : "fails");
}

Json finding_json(const Finding& finding) {
    return {{"rule", finding.rule},
            {"where", finding.where},
            {"figure", measured_json(finding.figure)},
            {"limit", measured_json(finding.limit)},
            {"unit", finding.unit},
            {"verdict", verdict_name(finding.verdict)},
            {"source", finding.source},
            {"mend", finding.mend}};
}

Json findings_json(const std::vector<Finding>& findings) {
    Json list = Json::array();
    for (const Finding& finding : findings) list.push_back(finding_json(finding));
    return list;
}

void add_findings(Page& page, const std::vector<Finding>& findings) {
    page.blocks.emplace_back(Heading{"Findings: " + findings_summary(findings)});
    add_statements(page, findings);
    add_holding(page, findings);
}

void add_statements(Page& page, const std::vector<Finding>& findings) {
    Bullets bullets;
    for (const Verdict verdict : {Verdict::fails, Verdict::caution})
        for (const Finding& finding : findings)
            if (finding.verdict == verdict) bullets.items.push_back(bullet_text(finding));
    if (!bullets.items.empty()) page.blocks.emplace_back(std::move(bullets));
}

void add_holding(Page& page, const std::vector<Finding>& findings) {
    if (Table table = holding_table(findings); !table.rows.empty()) page.blocks.emplace_back(std::move(table));
}

void add_findings(Table& quantities_list, const std::vector<Finding>& findings) {
    for (const Finding& finding : findings)
        quantities_list.rows.push_back({std::string(verdict_name(finding.verdict)), finding.where, finding.rule,
                                        measured_cell(finding.figure, finding.unit), finding.unit});
}

}  // namespace couplet
