#include "sheet/check_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "couple/coupling_rules.hpp"
#include "place/running_rules.hpp"
#include "sheet/audit_words.hpp"
#include "sheet/cautions.hpp"
#include "sheet/findings.hpp"
#include "sheet/matched_shifts.hpp"
#include "sheet/numbers.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/page.hpp"
#include "sheet/place_sheet.hpp"
#include "sheet/quantity.hpp"
#include "sheet/size_sheet.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

// Sentences as a mend: what stands behind it ends them.
std::string mend_of(std::string sentences) {
    if (sentences.ends_with('.')) sentences.pop_back();
    return sentences;
}

class Checker {
  public:
    Checker(Train train, const CheckOptions& options) : options_(options) {
        checks_.train = std::move(train);
        checks_.settings = options.setting ? std::vector{*options.setting} : checks_.train.settings;
    }

    TrainChecks run() {
        if (const std::optional<TrainSizes> sizes = sizes_that_exist()) {
            checks_.train = sizes->train;
            checks_.shifts = sizes->shifts;
            const std::vector<Finding> both = joined_findings(sizes->findings, place_findings());
            for (std::size_t f = 0; f < both.size(); ++f)
                add(f < sizes->findings.size() ? CheckStep::size : CheckStep::place, both[f]);
        }
        for (const Setting& setting : checks_.settings) check_mobility(setting);
        check_couplings();
        add_all(CheckStep::find, hunting_findings(checks_.train));
        add_all(CheckStep::find, balance_findings(checks_.train));
        return std::move(checks_);
    }

  private:
    void add(CheckStep step, Finding finding) { checks_.rules.push_back({step, std::move(finding)}); }
    void add_all(CheckStep step, const std::vector<Finding>& findings) {
        for (const Finding& finding : findings) add(step, finding);
    }

    std::optional<TrainSizes> sizes_that_exist() {
        std::optional<TrainSizes> sizes = try_sizes(options_.match_shifts);
        // Where only the matching is impossible, the train as it is has sizes.
        if (!sizes && options_.match_shifts && is_possible()) sizes = train_sizes(checks_.train, false);
        return sizes;
    }
    std::optional<TrainSizes> try_sizes(bool match) {
        try {
            return train_sizes(checks_.train, match);
        } catch (const TeethError& error) {
            add(CheckStep::size, error.broken);
            return std::nullopt;
        }
    }
    [[nodiscard]] bool is_possible() const {
        try {
            (void)teeth_of(checks_.train);
            return true;
        } catch (const TeethError&) {
            return false;
        }
    }

    [[nodiscard]] std::vector<Finding> place_findings() const {
        StartOptions start;
        start.copies = options_.copies;
        return findings_of(train_places(checks_.train, false, start, std::nullopt));
    }

    void check_mobility(const Setting& setting) {
        const CouplingSheet sheet = motion_alone(setting);
        Finding mobility = mobility_finding(sheet);
        if (mobility.verdict != Verdict::holds) {
            std::vector<std::string> advice = outcome_advice(checks_.train, sheet);
            // The first sentence says what the verdict says.
            if (advice.size() > 1) advice.erase(advice.begin());
            mobility.mend = mend_of(fmt::format("{}", fmt::join(advice, " ")));
        }
        add(CheckStep::couple, std::move(mobility));
    }

    [[nodiscard]] CouplingSheet motion_alone(const Setting& setting) const {
        CouplingSheet sheet;
        sheet.setting = setting;
        sheet.motion = solve(checks_.train, setting);
        if (sheet.motion.outcome != Outcome::moves) sheet.explanation = explain(checks_.train, setting, sheet.motion);
        return sheet;
    }

    // A train without settings may have couplings all the same: with nothing held, fixed axes have their ratios.
    void check_couplings() {
        if (checks_.train.couplings.empty()) return;
        const Setting setting = checks_.settings.empty() ? Setting{} : checks_.settings.front();
        for (const Coupling& coupling : couple(checks_.train, setting, {}).couplings) check_coupling(coupling);
    }

    // A typed pair for joints that have a ratio says of itself that there is one.
    void check_coupling(const Coupling& coupling) {
        if (!coupling.audit) {
            Finding existence = existence_finding(checks_.train, coupling);
            existence.mend = mend_of(obstacle_text(checks_.train, coupling));
            return add(CheckStep::couple, std::move(existence));
        }
        Finding typed = audit_finding(checks_.train, coupling);
        typed.where += ", typed " + pair_text((*coupling.typed)[0], (*coupling.typed)[1]);
        typed.mend = mend_of(audit_mend(checks_.train, coupling));
        add(CheckStep::couple, std::move(typed));
    }

    const CheckOptions& options_;
    TrainChecks checks_;
};

std::vector<Finding> findings_of(const TrainChecks& checks) {
    std::vector<Finding> findings;
    for (const CheckedRule& rule : checks.rules) findings.push_back(rule.finding);
    return findings;
}

std::string_view outcome_of(const TrainChecks& checks) {
    return passes(checks) ? "holds" : "fails";
}

std::vector<std::string> names_of_settings(const TrainChecks& checks) {
    std::vector<std::string> names;
    for (const Setting& setting : checks.settings) names.push_back(setting.name);
    return names;
}

std::string check_json(const TrainChecks& checks) {
    Json rows = Json::array();
    for (const CheckedRule& rule : checks.rules) {
        rows.push_back(finding_json(rule.finding));
        rows.back()["step"] = step_name(rule.step);
    }
    return json_text({{"couplet", 1},
                      {"scene", checks.train.title},
                      {"outcome", outcome_of(checks)},
                      {"settings", names_of_settings(checks)},
                      {"rows", std::move(rows)},
                      {"matched_shifts", checks.shifts ? shifts_json(checks.train, *checks.shifts) : Json(nullptr)},
                      {"cautions", cautions_json()}});
}

std::string check_csv(const TrainChecks& checks) {
    Table table;
    table.columns = {{"step", "", Align::left},    {"rule", "", Align::left},   {"where", "", Align::left},
                     {"figure", "", Align::right}, {"limit", "", Align::right}, {"unit", "", Align::left},
                     {"verdict", "", Align::left}, {"source", "", Align::left}, {"mend", "", Align::left}};
    for (const auto& [step, finding] : checks.rules)
        table.rows.push_back({std::string(step_name(step)), finding.rule, finding.where,
                              measured_cell(finding.figure, finding.unit), measured_cell(finding.limit, finding.unit),
                              finding.unit, std::string(verdict_name(finding.verdict)), finding.source, finding.mend});
    return csv_table(table);
}

Page check_page(const TrainChecks& checks) {
    Page page;
    page.title = checks.train.title;
    add_checks(page, checks);
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return page;
}

}  // namespace

void add_checks(Page& page, const TrainChecks& checks) {
    const std::vector<Finding> findings = findings_of(checks);
    page.blocks.emplace_back(Paragraph{verdict_sentence(findings)});
    if (checks.shifts) add_shifts(page, checks.train, *checks.shifts);
    const auto is_holding = [](const Finding& finding) { return finding.verdict == Verdict::holds; };
    if (!std::ranges::all_of(findings, is_holding)) page.blocks.emplace_back(Heading{"What fails and what to watch"});
    add_statements(page, findings);
    if (std::ranges::any_of(findings, is_holding)) page.blocks.emplace_back(Heading{"What holds"});
    add_holding(page, findings);
}

std::string_view step_name(CheckStep step) {
    switch (step) {
        case CheckStep::size:
            return "size";
        case CheckStep::place:
            return "place";
        case CheckStep::couple:
            return "couple";
        case CheckStep::find:
            return "find";
    }
    return "";
}

TrainChecks check_train(Train train, const CheckOptions& options) {
    return Checker(std::move(train), options).run();
}

bool passes(const TrainChecks& checks) {
    return !any_fails(findings_of(checks));
}

std::string check_sheet(const TrainChecks& checks, Format format) {
    switch (format) {
        case Format::json:
            return check_json(checks);
        case Format::csv:
            return check_csv(checks);
        case Format::md:
            return markdown_page(check_page(checks));
        case Format::text:
            break;
    }
    return text_page(check_page(checks));
}

}  // namespace couplet
