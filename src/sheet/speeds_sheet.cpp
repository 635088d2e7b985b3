#include "sheet/speeds_sheet.hpp"

#include <fmt/format.h>

#include "sheet/cautions.hpp"
#include "sheet/json_values.hpp"
#include "sheet/numbers.hpp"
#include "sheet/page.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

using Ties = std::vector<std::pair<MemberIndex, MemberIndex>>;

// "nothing" for eyes only: a program finds an empty list empty.
Cell joined(const std::vector<std::string>& names) {
    return names.empty() ? Cell("", "nothing") : Cell(fmt::format("{}", fmt::join(names, ", ")));
}

Cell ties_cell(const Train& train, const Ties& ties) {
    std::vector<std::string> texts;
    for (const auto& tie : ties) texts.push_back(tie_text(train, tie));
    return joined(texts);
}

Page titled_page(const Train& train, Facts facts) {
    Page page;
    page.title = train.title;
    if (!train.notes.empty()) page.blocks.emplace_back(Paragraph{train.notes});
    page.blocks.emplace_back(std::move(facts));
    return page;
}

std::string page_with_cautions(Page page, Format format) {
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return format == Format::md ? markdown_page(page) : text_page(page);
}

Table speeds_table(const Train& train, const std::vector<SpeedRow>& rows) {
    Table table;
    table.columns = {{"held", "", Align::left},
                     {"driver", "", Align::left},
                     {"output", "", Align::left},
                     {"driver per output", "exact turns", Align::right},
                     {"driver per output", "turns", Align::right},
                     {"sense", "", Align::left}};
    for (const SpeedRow& row : rows)
        table.rows.push_back({joined(names_of(train, row.held)), name_of(train, row.driver), name_of(train, row.output),
                              fraction_cell(row.driver_per_output), rough_cell(row.driver_per_output),
                              std::string(sense_text(row.driver_per_output))});
    return table;
}

Page speeds_page(const Train& train, const Ties& ties, Table table) {
    Facts facts;
    facts.facts.push_back({"Speeds", "every choice of held members, driver and output that moves"});
    if (!ties.empty()) facts.facts.push_back({"Tied", ties_cell(train, ties).shown});
    Page page = titled_page(train, std::move(facts));
    if (table.rows.empty())
        page.blocks.emplace_back(Paragraph{"No choice of held members, driver and output moves."});
    else
        page.blocks.emplace_back(std::move(table));
    return page;
}

std::string speeds_json(const Train& train, const Ties& ties, const std::vector<SpeedRow>& rows) {
    Json list = Json::array();
    for (const SpeedRow& row : rows)
        list.push_back({{"held", names_json(train, row.held)},
                        {"driver", name_of(train, row.driver)},
                        {"output", name_of(train, row.output)},
                        {"driver_per_output", exact_json(row.driver_per_output)}});
    return json_text({{"couplet", 1},
                      {"scene", train.title},
                      {"outcome", outcome_name(rows.empty() ? Outcome::locked : Outcome::moves)},
                      {"tied", ties_json(train, ties)},
                      {"rows", std::move(list)},
                      {"cautions", cautions_json()}});
}

Cell drivers_cell(const Train& train, const Setting& setting) {
    std::vector<std::string> drivers;
    for (const Drive& drive : setting.drive) drivers.push_back(name_of(train, drive.member));
    return joined(drivers);
}

Table settings_table(const Train& train, const std::vector<SettingRow>& rows) {
    Table table;
    table.columns = {{"setting", "", Align::left},
                     {"held", "", Align::left},
                     {"tied", "", Align::left},
                     {"driver", "", Align::left},
                     {"outcome", "", Align::left},
                     {"driver per output", "exact turns", Align::right},
                     {"driver per output", "turns", Align::right},
                     {"step to next", "x", Align::right}};
    for (const SettingRow& row : rows) {
        const Setting& setting = train[row.setting];
        const auto ratio = row.driver_per_output;
        table.rows.push_back({setting.name, joined(names_of(train, setting.hold)), ties_cell(train, setting.tie),
                              drivers_cell(train, setting), std::string(outcome_name(row.motion.outcome)),
                              ratio ? fraction_cell(*ratio) : Cell("", "none"),
                              ratio ? rough_cell(*ratio) : Cell("", "none"),
                              row.step_to_next ? rough_cell(*row.step_to_next) : Cell("")});
    }
    return table;
}

std::string settings_json(const Train& train, MemberIndex output, const std::vector<SettingRow>& rows) {
    Json list = Json::array();
    for (const SettingRow& row : rows) {
        const Setting& setting = train[row.setting];
        list.push_back({{"setting", setting.name},
                        {"held", names_json(train, setting.hold)},
                        {"tied", ties_json(train, setting.tie)},
                        {"drivers", drivers_json(train, setting.drive)},
                        {"driver", row.driver ? Json(name_of(train, *row.driver)) : Json(nullptr)},
                        {"outcome", outcome_name(row.motion.outcome)},
                        {"freedom", row.motion.freedom},
                        {"driver_per_output", exact_json(row.driver_per_output)},
                        {"step_to_next", exact_json(row.step_to_next)}});
    }
    return json_text({{"couplet", 1},
                      {"scene", train.title},
                      {"output", name_of(train, output)},
                      {"settings", std::move(list)},
                      {"cautions", cautions_json()}});
}

}  // namespace

std::string speeds_sheet(const Train& train, const Ties& ties, const std::vector<SpeedRow>& rows, Format format) {
    if (format == Format::json) return speeds_json(train, ties, rows);
    Table table = speeds_table(train, rows);
    if (format == Format::csv) return csv_table(table);
    return page_with_cautions(speeds_page(train, ties, std::move(table)), format);
}

std::string settings_sheet(const Train& train, MemberIndex output, const std::vector<SettingRow>& rows, Format format) {
    if (format == Format::json) return settings_json(train, output, rows);
    Table table = settings_table(train, rows);
    if (format == Format::csv) return csv_table(table);
    Facts facts;
    facts.facts = {{"Settings", "one row each; driver turns per turn of the output"},
                   {"Output", member_label(train, output)}};
    Page page = titled_page(train, std::move(facts));
    page.blocks.emplace_back(std::move(table));
    return page_with_cautions(std::move(page), format);
}

}  // namespace couplet
