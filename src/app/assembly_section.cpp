#include <fmt/format.h>

#include <algorithm>

#include "app/panel_parts.hpp"
#include "app/place_parts.hpp"
#include "app/size_edits.hpp"
#include "exact/decimal.hpp"
#include "sheet/place_words.hpp"

namespace couplet {

namespace {

void take_moves(const Session& session, Edits& edits, const TrainPlaces& places, std::string what,
                std::span<const CopyMove> moves) {
    Draft draft = session.draft();
    draft.train = with_copies_moved(session.train(), places.placement, moves);
    edits.change(std::move(what), std::move(draft));
}

void draw_moves(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places,
                const MisplacedCopy& copy) {
    const std::string name = place_name(places.train, places.placement, copy.place);
    for (const std::optional<ShownAngle>* to : {&copy.below, &copy.above}) {
        if (!*to || !(*to)->exact_deg) continue;
        const std::string angle = decimal_text(*(*to)->exact_deg, 4);
        if (to == &copy.above) flow(screen, 110);
        if (!button(screen, fmt::format("to {} deg## {}", angle, name))) continue;
        const CopyMove move{copy.place, *(*to)->exact_deg};
        take_moves(session, edits, places, fmt::format("{} to {} deg", name, angle), {&move, 1});
    }
}

void draw_misplaced(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places) {
    const std::vector<MisplacedCopy>& misplaced = places.assembly.misplaced;
    if (misplaced.empty()) return;
    heading(screen, "Copies that do not fit where they stand");
    std::vector<CopyMove> moves;
    for (const MisplacedCopy& copy : misplaced)
        if (const std::optional<CopyMove> move = nearest_move(copy)) moves.push_back(*move);
    if (!moves.empty() && button(screen, "move every copy to its nearest place", ButtonKind::main))
        take_moves(session, edits, places, "copies moved to where they fit", moves);
    for (std::size_t i = 0; i < std::min(misplaced.size(), kMostShown); ++i) {
        verdict(screen, Verdict::fails, place_name(places.train, places.placement, misplaced[i].place),
                misplaced_text(places.train, places.placement, misplaced[i]));
        draw_moves(screen, session, edits, places, misplaced[i]);
    }
    if (misplaced.size() > kMostShown) faint_words(screen, fmt::format("and {} more", misplaced.size() - kMostShown));
}

// What the copies' own lines do not say already.
std::vector<const Finding*> other_findings(const TrainPlaces& places) {
    std::vector<const Finding*> others;
    for (const Finding& finding : places.assembly.findings)
        if (finding.verdict != Verdict::holds && finding.rule != "teeth meet gaps all round" &&
            finding.rule != "assembly condition")
            others.push_back(&finding);
    return others;
}

}  // namespace

void draw_assembly(Screen& screen, const Session& session, Edits& edits, const TrainPlaces& places) {
    const Assembly& assembly = places.assembly;
    verdict(screen, assembly.outcome == AssemblyOutcome::assembles ? Verdict::holds : Verdict::fails, "assembly",
            std::string(outcome_name(assembly.outcome)));
    for (std::size_t i = 0; i < std::min(assembly.conditions.size(), kMostShown); ++i)
        verdict(screen, assembly.conditions[i].holds ? Verdict::holds : Verdict::fails,
                fmt::format("condition {}", i + 1), condition_text(places.train, assembly.conditions[i]));
    draw_misplaced(screen, session, edits, places);
    const std::vector<const Finding*> others = other_findings(places);
    for (std::size_t i = 0; i < std::min(others.size(), kMostShown); ++i)
        finding_line(screen, *others[i], fmt::format("{} at {}", others[i]->rule, others[i]->where));
    if (others.size() > kMostShown) faint_words(screen, fmt::format("and {} more", others.size() - kMostShown));
}

}  // namespace couplet
