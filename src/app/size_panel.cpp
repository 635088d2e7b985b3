#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "app/size_parts.hpp"
#include "sheet/findings.hpp"

namespace couplet {

namespace {

// Those of the teeth, then those of the assembly.
std::vector<Finding> all_findings(const Study& study) {
    std::vector<Finding> findings;
    if (study.sizes().part) findings = study.sizes().part->findings;
    if (const auto& assembly = study.assembly().part) return joined_findings(std::move(findings), assembly->findings);
    return findings;
}

Verdict worst_of(const std::vector<Finding>& findings) {
    if (any_fails(findings)) return Verdict::fails;
    const bool caution = std::ranges::any_of(findings, [](const Finding& f) { return f.verdict == Verdict::caution; });
    return caution ? Verdict::caution : Verdict::holds;
}

}  // namespace

void draw_findings(Screen& screen, const std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < std::min(findings.size(), kMostShown); ++i)
        finding_line(screen, findings[i], fmt::format("{} at {}", findings[i].rule, findings[i].where));
    if (findings.size() > kMostShown) faint_words(screen, fmt::format("and {} more", findings.size() - kMostShown));
}

void draw_size_panel(Screen& screen, const Session& session, Edits& edits) {
    const Study& study = *session.study;
    const std::vector<Finding> findings = all_findings(study);
    if (study.sizes().part)
        verdict(screen, worst_of(findings), "design rules", "of the design rules " + findings_summary(findings));
    else
        verdict(screen, Verdict::fails, "design rules", study.sizes().why_not);
    const FindingPlaces places = finding_places(session.train(), findings);
    draw_gear_rows(screen, session, edits, places);
    draw_copies_section(screen, session, edits, places);
    draw_teeth_section(screen, session, edits, places);
    if (places.elsewhere.empty()) return;
    heading(screen, "Other rules that do not hold");
    draw_findings(screen, places.elsewhere);
}

}  // namespace couplet
