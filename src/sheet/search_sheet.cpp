#include "sheet/search_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "exact/approximation.hpp"
#include "exact/decimal.hpp"
#include "sheet/cautions.hpp"
#include "sheet/numbers.hpp"
#include "sheet/page.hpp"
#include "sheet/quantity.hpp"
#include "sheet/search_json.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

bool any_row(const SearchReport& report, bool (*has)(const SearchRow&)) {
    return std::ranges::any_of(report.result.rows, has);
}

// One column of the table: its heading, and what a row says in it.
struct RowColumn {
    Column column;
    std::function<Cell(const SearchRow&, bool is_unbeaten)> cell;
};

class RowsTable {
  public:
    // For eyes, columns in which no row says anything are left out.
    RowsTable(const SearchReport& report, bool for_eyes) : report_(report), for_eyes_(for_eyes) {
        add_counts();
        add_ratio();
        add_qualities();
        add_details();
    }

    Table run() const {
        Table table;
        for (const RowColumn& column : columns_) table.columns.push_back(column.column);
        const std::vector<bool> marks = unbeaten(report_.result.rows);
        for (const std::size_t position : shown_rows(report_)) {
            std::vector<Cell>& cells = table.rows.emplace_back();
            for (const RowColumn& column : columns_)
                cells.push_back(column.cell(report_.result.rows[position], marks[position]));
        }
        return table;
    }

  private:
    void add(std::string heading, std::string unit, Align align, std::function<Cell(const SearchRow&, bool)> cell) {
        columns_.push_back({{std::move(heading), std::move(unit), align}, std::move(cell)});
    }

    void add_counts() {
        add("unbeaten", "", Align::left,
            [](const SearchRow&, bool is_unbeaten) { return is_unbeaten ? Cell("yes", "*") : Cell("no", ""); });
        const std::vector<std::string> names = count_names(report_.wish);
        for (std::size_t count = 0; count < names.size(); ++count)
            add(names[count], "teeth", Align::right,
                [count](const SearchRow& row, bool) { return std::to_string(row.teeth[count]); });
        if (form_of(report_.wish.arrangement).has_copies)
            add("copies", "", Align::right, [](const SearchRow& row, bool) { return std::to_string(row.copies); });
    }

    void add_ratio() {
        add("ratio", "exact turns", Align::right, [](const SearchRow& row, bool) { return fraction_cell(row.ratio); });
        add("error", "ppm", Align::right, [](const SearchRow& row, bool) { return rough_cell(row.error_ppm); });
        if (report_.rpm)
            add("drift", "turns a year", Align::right,
                [this](const SearchRow& row, bool) { return rough_cell(drift_turns_a_year(report_, row)); });
    }

    void add_qualities() {
        const bool has_ring = !count_places(report_.wish).rings.empty();
        add(has_ring ? "largest ring" : "largest gear", "mm", Align::right,
            [](const SearchRow& row, bool) { return measured_cell(row.ring_diameter_mm, "mm"); });
        add("contact ratio", "least", Align::right,
            [](const SearchRow& row, bool) { return measured_cell(row.contact_ratio, ""); });
        add("hunting", "", Align::left, [](const SearchRow& row, bool) { return row.hunting ? "yes" : "no"; });
        if (!form_of(report_.wish.arrangement).has_copies) return;
        add("in step", "copies", Align::right,
            [](const SearchRow& row, bool) { return std::to_string(row.balance.in_step); });
        if (!for_eyes_ || any_row(report_, [](const SearchRow& row) { return row.balance.residual > 0.0; }))
            add("load residual", "", Align::right,
                [](const SearchRow& row, bool) { return measured_cell(row.balance.residual, ""); });
    }

    void add_details() {
        const SearchWish& wish = report_.wish;
        if (!for_eyes_ || wish.shift == ShiftUse::allowed)
            add("shifts", "x module", Align::left,
                [&wish](const SearchRow& row, bool) { return shifts_text(wish, row); });
        if (!for_eyes_ || wish.spacing == SpacingUse::free)
            add("places of copies", "deg", Align::left, [](const SearchRow& row, bool) {
                return row.places_deg.empty() ? Cell("", "equal") : Cell(places_text(row));
            });
        if (!for_eyes_ || any_row(report_, [](const SearchRow& row) { return !row.cautions.empty(); }))
            add("caution", "", Align::left,
                [](const SearchRow& row, bool) { return Cell(fmt::format("{}", fmt::join(row.cautions, ", "))); });
    }

    const SearchReport& report_;
    bool for_eyes_;
    std::vector<RowColumn> columns_;
};

std::string tolerance_text(const SearchWish& wish) {
    std::string text =
        wish.tolerance ? (wish.tolerance->is_zero() ? std::string("exact")
                                                    : "within " + rough_text(*wish.tolerance * Ratio(1000000)) + " ppm")
                       : fmt::format("the {} nearest", wish.most_nearest);
    if (wish.rows == RowsUse::each_ratio) text += ", one train for each ratio";
    return text;
}

// The best fractions of an awkward ratio, each nearer than any with smaller numbers.
std::string convergents_text(const Ratio& target) {
    constexpr std::size_t kMost = 8;
    std::vector<std::string> texts;
    for (const Ratio& convergent : convergents(target)) {
        texts.push_back(fraction_cell(convergent).shown);
        if (texts.size() == kMost) break;
    }
    return fmt::format("{}", fmt::join(texts, ", "));
}

Facts facts_of(const SearchReport& report) {
    const SearchWish& wish = report.wish;
    const ArrangementForm& form = form_of(wish.arrangement);
    Facts facts;
    facts.facts.push_back({"Wanted", wanted_text(wish, wish.target)});
    facts.facts.push_back({"Ratios", tolerance_text(wish)});
    facts.facts.push_back({"Arrangement", std::string(form.name)});
    facts.facts.push_back({"Teeth", ranges_text(wish)});
    facts.facts.push_back({"Limits", limits_text(wish)});
    if (wish.arrangement == Arrangement::pairs) facts.facts.push_back({"Convergents", convergents_text(wish.target)});
    if (report.slice.count > 1)
        facts.facts.push_back({"Slice", fmt::format("{} of {}", report.slice.index + 1, report.slice.count)});
    facts.facts.push_back({"Trains", rejected_text(report.result)});
    if (report.rpm) facts.facts.push_back({"Speed", fmt::format("driver at {} rpm", exact_text(*report.rpm))});
    return facts;
}

void add_rows(Page& page, const SearchReport& report) {
    const std::size_t found = report.result.rows.size();
    const std::size_t shown = std::min(found, report.top);
    page.blocks.emplace_back(
        Heading{shown < found ? fmt::format("Found: {}, the first {} by {}", found, shown, name_of(report.sort))
                              : fmt::format("Found: {}, by {}", found, name_of(report.sort))});
    page.blocks.emplace_back(RowsTable(report, true).run());
    page.blocks.emplace_back(Paragraph{
        "* unbeaten: no other train found is at least as good in error, size, contact ratio, hunting and balance, and "
        "better in one of them. In step: copies that come into mesh at the same instant; 1 evens the drive out best."});
}

void add_nothing_found(Page& page, const SearchReport& report) {
    const bool is_partial = report.result.extent == SearchExtent::partial;
    page.blocks.emplace_back(Heading{is_partial ? "Nothing found yet" : "Nothing found"});
    if (report.loosenings.empty()) {
        if (is_partial) return;
        page.blocks.emplace_back(
            Paragraph{"No single limit, loosened by up to a half, gives a train: loosen several, or "
                      "choose another arrangement."});
        return;
    }
    page.blocks.emplace_back(Paragraph{"What would give a train, the least change first:"});
    Bullets bullets;
    for (const Loosening& loosening : report.loosenings)
        bullets.items.push_back(loosening_text(report.wish, loosening));
    page.blocks.emplace_back(std::move(bullets));
}

Page search_page(const SearchReport& report) {
    Page page;
    page.title = fmt::format("Tooth counts for {} to 1", decimal_cell(report.wish.target).shown);
    if (report.result.extent == SearchExtent::partial)
        page.blocks.emplace_back(Paragraph{"PARTIAL: the search was stopped before its end; trains may be missing."});
    page.blocks.emplace_back(facts_of(report));
    if (report.result.rows.empty())
        add_nothing_found(page, report);
    else
        add_rows(page, report);
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return page;
}

}  // namespace

std::string search_sheet(const SearchReport& report, Format format) {
    switch (format) {
        case Format::json:
            return json_text(search_json(report));
        case Format::csv:
            return csv_table(RowsTable(report, false).run());
        case Format::md:
            return markdown_page(search_page(report));
        case Format::text:
            break;
    }
    return text_page(search_page(report));
}

}  // namespace couplet
