#include "sheet/coupling_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "sheet/audit_words.hpp"
#include "sheet/cautions.hpp"
#include "sheet/coupling_words.hpp"
#include "sheet/numbers.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::vector<std::string> other_settings(const Train& train, const Setting& setting) {
    std::vector<std::string> names;
    for (const Setting& other : train.settings)
        if (other.name != setting.name) names.push_back(other.name);
    return names;
}

Facts setting_facts(const Train& train, const CouplingSheet& sheet) {
    const Setting& setting = sheet.setting;
    std::vector<std::string> ties;
    std::vector<std::string> drivers;
    for (const auto& tie : setting.tie) ties.push_back(tie_text(train, tie));
    for (const Drive& drive : setting.drive) drivers.push_back(drive_text(train, drive));
    Facts facts;
    facts.facts.push_back({"Setting", setting.name.empty() ? "as given on the command line" : setting.name});
    facts.facts.push_back({"Held", setting.hold.empty() ? "nothing" : list_text(names_of(train, setting.hold))});
    if (!ties.empty()) facts.facts.push_back({"Tied", list_text(ties)});
    facts.facts.push_back({drivers.size() > 1 ? "Drivers" : "Driver", drivers.empty() ? "none" : list_text(drivers)});
    facts.facts.push_back({"Outcome", outcome_line(sheet.motion)});
    if (const std::vector<std::string> others = other_settings(train, setting); !others.empty())
        facts.facts.push_back({"Other settings", list_text(others)});
    return facts;
}

bool has_rates(const Motion& motion) {
    return motion.outcome == Outcome::moves || motion.outcome == Outcome::free;
}

bool stands_still(const Combination& rate) {
    return !rate.empty() && std::ranges::all_of(rate, [](const Ratio& r) { return r.is_zero(); });
}

// What stands still does so with or without a driver.
std::optional<Ratio> turns_of(const MemberRate& rate) {
    return stands_still(rate.combination) ? Ratio(0) : rate.turns_per_driver_turn;
}

// True where turns per turn of the driver do not tell the whole motion.
bool tells_combinations(const Motion& motion) {
    return motion.parameter_count() > 1 || !motion.free_joints.empty();
}

std::vector<Cell> member_row(const Train& train, const CouplingSheet& sheet, const MemberRate& rate) {
    const MemberIndex on = rides_on(train, rate.member);
    std::vector<Cell> row = {member_label(train, rate.member), name_of(train, on)};
    if (const std::optional<Ratio> turns = turns_of(rate)) {
        row.push_back(fraction_cell(*turns));
        row.push_back(rough_cell(*turns));
        row.emplace_back(rate.rpm ? rough_cell(*rate.rpm) : Cell(""));
        row.emplace_back(std::string(sense_text(*turns)));
    } else {
        row.insert(row.end(), {"?", "?", "?", rate.combination.empty() ? "undetermined" : ""});
    }
    if (tells_combinations(sheet.motion))
        row.emplace_back(combination_text(rate.combination, parameter_names(train, sheet.motion)));
    return row;
}

Table members_table(const Train& train, const CouplingSheet& sheet) {
    const std::string driver =
        sheet.reference_driver ? name_of(train, sheet.reference_driver->member) : std::string("driver");
    Table table;
    table.columns = {{"member", "", Align::left},
                     {"rides on", "", Align::left},
                     {"turns", "per turn of " + driver, Align::right},
                     {"decimal", "turns", Align::right},
                     {"speed", "rpm", Align::right},
                     {"sense", "", Align::left}};
    if (tells_combinations(sheet.motion)) table.columns.push_back({"made up of", "turns", Align::left});
    for (const MemberRate& rate : sheet.members) table.rows.push_back(member_row(train, sheet, rate));
    return table;
}

bool is_typed_in(const Coupling& coupling) {
    return coupling.second_per_first && !coupling.second_per_first->is_zero();
}

// Each pair of joints once, however often the scene judges typed angles of it.
std::vector<const Coupling*> couplings_to_type(const CouplingSheet& sheet) {
    std::vector<const Coupling*> couplings;
    std::set<std::pair<std::string, std::string>> met;
    for (const Coupling& coupling : sheet.couplings)
        if (is_typed_in(coupling) && met.emplace(coupling.first.name, coupling.second.name).second)
            couplings.push_back(&coupling);
    return couplings;
}

bool any_rounded(const CouplingSheet& sheet) {
    return std::ranges::any_of(couplings_to_type(sheet), [](const Coupling* c) { return !c->to_type.exact; });
}

std::vector<Cell> coupling_row(const Train& train, const Coupling& coupling, bool tell_exactness) {
    std::vector<Cell> row = {joint_label(train, coupling.first),
                             joint_label(train, coupling.second),
                             fraction_cell(*coupling.second_per_first),
                             rough_cell(*coupling.second_per_first),
                             decimal_cell(coupling.to_type.degrees[0]),
                             decimal_cell(coupling.to_type.degrees[1]),
                             decimal_cell(coupling.whole_degrees[0]),
                             decimal_cell(coupling.whole_degrees[1]),
                             std::string(sense_text(*coupling.second_per_first))};
    if (tell_exactness) row.emplace_back(coupling.to_type.exact ? "exact" : "rounded");
    return row;
}

Table couplings_table(const Train& train, const CouplingSheet& sheet) {
    Table table;
    table.columns = {
        {"1st joint", "", Align::left},     {"2nd joint", "", Align::left},     {"2nd per 1st", "turns", Align::right},
        {"decimal", "turns", Align::right}, {"TYPE 1st", "deg", Align::right},  {"TYPE 2nd", "deg", Align::right},
        {"whole 1st", "deg", Align::right}, {"whole 2nd", "deg", Align::right}, {"sense", "", Align::left}};
    const bool tell_exactness = any_rounded(sheet);
    if (tell_exactness) table.columns.push_back({"typed pair is", "", Align::left});
    for (const Coupling* coupling : couplings_to_type(sheet))
        table.rows.push_back(coupling_row(train, *coupling, tell_exactness));
    return table;
}

std::string would_type(const Coupling& coupling, const Ratio& second_per_first) {
    const Ratio& first_deg = coupling.degrees[0];
    return fmt::format("{} per turn, that is {} : {}", fraction_cell(second_per_first).shown,
                       decimal_cell(first_deg).shown, rough_text(first_deg * second_per_first));
}

Facts::Fact formula_fact(const Coupling& coupling) {
    if (coupling.expression.size() <= kLongestFormula) return {"formula (deg)", coupling.expression, true};
    return {"formula (deg)", fmt::format("{} characters long; --format json prints it", coupling.expression.size())};
}

Facts derivation(const Train& train, const CouplingSheet& sheet, const Coupling& coupling) {
    Facts facts;
    facts.title = fmt::format("{}, while {} turns {} deg", joint_label(train, coupling.second),
                              joint_label(train, coupling.first), decimal_cell(coupling.degrees[0]).shown);
    facts.facts.push_back(formula_fact(coupling));
    if (!coupling.correction) return facts;
    const CarrierCorrection& correction = *coupling.correction;
    facts.facts.push_back({"tooth counts say", would_type(coupling, correction.bare_second_per_first)});
    facts.facts.push_back({"the joint needs", would_type(coupling, correction.second_per_first)});
    facts.facts.push_back(
        {"carrier correction",
         fmt::format("typed without it, the joint is off by {} deg per turn of {}",
                     rough_text(correction.difference_deg_per_turn), joint_name(train, coupling.first))});
    facts.facts.push_back({"why", why_corrected(train, sheet, coupling)});
    return facts;
}

// Adds a heading with bullets, one for each coupling that has something new to say.
template <class Text>
void add_remarks(Page& page, const std::string& heading, const CouplingSheet& sheet, Text text_of) {
    Bullets bullets;
    std::set<std::string> said;
    for (const Coupling& coupling : sheet.couplings)
        if (std::string text = text_of(coupling); !text.empty() && said.insert(text).second)
            bullets.items.push_back(std::move(text));
    if (bullets.items.empty()) return;
    page.blocks.emplace_back(Heading{heading});
    page.blocks.emplace_back(std::move(bullets));
}

bool any_abbreviated(const Table& table) {
    return std::ranges::any_of(table.rows, [](const auto& row) { return std::ranges::any_of(row, is_abbreviated); });
}

void add_table(Page& page, std::string heading, Table table) {
    page.blocks.emplace_back(Heading{std::move(heading)});
    const bool abbreviated = any_abbreviated(table);
    page.blocks.emplace_back(std::move(table));
    if (abbreviated)
        page.blocks.emplace_back(
            Paragraph{"Where digits are counted, the exact number is too long to read: "
                      "--format json prints it."});
}

std::string typing_hint(const Train& train, const CouplingSheet& sheet) {
    std::string hint =
        "The whole-degree pair turns the same as the pair to type; so does the formula below for the second "
        "angle, in any field that takes one.";
    const auto has_copies = [&](MemberIndex member) { return member != kFrame && train[member].copies > 1; };
    const bool copies = std::ranges::any_of(couplings_to_type(sheet), [&](const Coupling* c) {
        return has_copies(c->second.turns) || has_copies(c->second.against);
    });
    return copies ? hint + " Couple every copy of a joint alike." : hint;
}

void add_couplings(Page& page, const Train& train, const CouplingSheet& sheet) {
    Table table = couplings_table(train, sheet);
    if (!table.rows.empty()) {
        add_table(page, "Couplings: the two angles to type", std::move(table));
        page.blocks.emplace_back(Paragraph{typing_hint(train, sheet)});
        page.blocks.emplace_back(Heading{"Where the numbers come from"});
        for (const Coupling* coupling : couplings_to_type(sheet))
            page.blocks.emplace_back(derivation(train, sheet, *coupling));
    }
    add_remarks(page, "Stands still: fix this joint instead of coupling it", sheet, [&](const Coupling& c) {
        return c.second_per_first && c.second_per_first->is_zero() ? joint_label(train, c.second) : "";
    });
    add_remarks(page, "Rounded to fit the modeller's fields", sheet,
                [&](const Coupling& c) { return is_typed_in(c) && !c.to_type.exact ? drift_text(train, c) : ""; });
}

}  // namespace

void add_coupling_blocks(Page& page, const Train& train, const CouplingSheet& sheet) {
    page.blocks.emplace_back(setting_facts(train, sheet));
    if (std::vector<std::string> advice = outcome_advice(train, sheet); !advice.empty())
        page.blocks.emplace_back(Bullets{std::move(advice)});
    if (has_rates(sheet.motion)) {
        add_table(page, "Members: turns against the frame", members_table(train, sheet));
        add_couplings(page, train, sheet);
        add_remarks(page, "Cannot be coupled", sheet,
                    [&](const Coupling& c) { return c.second_per_first ? "" : obstacle_text(train, c); });
        add_remarks(page, "Audit of what was typed", sheet,
                    [&](const Coupling& c) { return c.audit ? audit_text(train, c) : ""; });
    }
}

Page coupling_page(const Train& train, const CouplingSheet& sheet) {
    Page page;
    page.title = train.title;
    if (!train.notes.empty()) page.blocks.emplace_back(Paragraph{train.notes});
    add_coupling_blocks(page, train, sheet);
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return page;
}

}  // namespace couplet
