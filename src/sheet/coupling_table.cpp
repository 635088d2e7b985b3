#include "sheet/coupling_table.hpp"

#include "sheet/audit_words.hpp"
#include "sheet/numbers.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

using Row = std::vector<Cell>;

void add_pair(Row& row, const DegreePair& degrees) {
    row.push_back(decimal_cell(degrees[0]));
    row.push_back(decimal_cell(degrees[1]));
}

void add_ratio(Row& row, const Coupling& coupling) {
    row.push_back(fraction_cell(*coupling.second_per_first));
    row.push_back(rough_cell(*coupling.second_per_first));
    add_pair(row, coupling.degrees);
    add_pair(row, coupling.to_type.degrees);
    row.emplace_back(coupling.to_type.exact ? "yes" : "no");
    row.push_back(rough_cell(coupling.to_type.drift_deg_per_1000_turns));
    add_pair(row, coupling.whole_degrees);
    row.emplace_back(std::string(sense_text(*coupling.second_per_first)));
    row.emplace_back(coupling.expression);
    row.emplace_back(coupling.correction ? fraction_cell(coupling.correction->bare_second_per_first) : Cell(""));
    row.emplace_back(coupling.correction ? rough_cell(coupling.correction->difference_deg_per_turn) : Cell(""));
}

void add_audit(Row& row, const Train& train, const Coupling& coupling) {
    if (coupling.typed)
        add_pair(row, *coupling.typed);
    else
        row.insert(row.end(), {"", ""});
    row.emplace_back(coupling.audit ? std::string(verdict_name(*coupling.audit)) : "");
    row.emplace_back(coupling.audit ? audit_explanation(train, coupling) : "");
}

}  // namespace

Table coupling_table(const Train& train, const CouplingSheet& sheet) {
    constexpr std::size_t kFirstColumnBehindRatio = 18;
    Table table;
    for (const auto& [heading, unit] :
         std::initializer_list<std::pair<const char*, const char*>>{{"setting", ""},
                                                                    {"outcome", ""},
                                                                    {"first joint", ""},
                                                                    {"second joint", ""},
                                                                    {"second per first", "exact turns"},
                                                                    {"second per first", "turns"},
                                                                    {"first angle", "deg"},
                                                                    {"second angle", "deg"},
                                                                    {"type first", "deg"},
                                                                    {"type second", "deg"},
                                                                    {"typed pair is exact", ""},
                                                                    {"drift", "deg per 1000 turns of first"},
                                                                    {"whole first", "deg"},
                                                                    {"whole second", "deg"},
                                                                    {"sense", ""},
                                                                    {"formula of second angle", "deg"},
                                                                    {"bare tooth ratio", "exact turns"},
                                                                    {"carrier correction", "deg per turn of first"},
                                                                    {"typed first", "deg"},
                                                                    {"typed second", "deg"},
                                                                    {"verdict", ""},
                                                                    {"explanation", ""},
                                                                    {"obstacle", ""}})
        table.columns.push_back({heading, unit, Align::left});
    for (const Coupling& coupling : sheet.couplings) {
        Row row = {sheet.setting.name, std::string(outcome_name(sheet.motion.outcome)),
                   joint_name(train, coupling.first), joint_name(train, coupling.second)};
        if (coupling.second_per_first) add_ratio(row, coupling);
        row.resize(kFirstColumnBehindRatio, "");
        add_audit(row, train, coupling);
        row.emplace_back(obstacle_text(train, coupling));
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace couplet
