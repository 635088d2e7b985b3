#include "app/couple_parts.hpp"
#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "app/setting_edits.hpp"
#include "sheet/outcome_words.hpp"

namespace couplet {

void draw_setting_line(Screen& screen, const Session& session, Edits& edits) {
    const Train& train = session.train();
    const Study& study = *session.study;
    if (train.settings.size() > 1) {
        std::vector<std::string> names;
        for (const Setting& setting : train.settings) names.push_back(setting.name);
        const std::size_t chosen = session.draft().chosen.value < 0 ? names.size() : session.draft().chosen.position();
        if (const std::optional<std::size_t> other = choice(screen, "setting", names, chosen, 240))
            edits.ask(ChooseSetting{{static_cast<std::int32_t>(*other)}});
    }
    words(screen, setting_sentence(train, study.setting()));
    const Motion& motion = study.motion();
    verdict(screen, motion.outcome == Outcome::moves ? Verdict::holds : Verdict::fails, "outcome",
            outcome_line(motion));
    for (const std::string& advice : outcome_advice(train, study.sheet())) words(screen, advice);
}

void draw_modeller_section(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Fields of your modeller");
    const TypableLimits& now = session.view.couple_options.limits;
    TypableLimits& limits = edits.view.couple_options.limits;
    constexpr NumberLimits kFirst{0, 1000000, false, true, "degrees"};
    constexpr NumberLimits kCap{1, 1000000000, true, true, "degrees"};
    NamedRows fields(screen, "modeller", 170);
    fields.row("first angle wished (deg)");
    if (const std::optional<Ratio> first = number_field(screen, "first angle wished", now.first_deg, kFirst))
        limits.first_deg = *first;
    fields.row("decimals it takes");
    if (const std::optional<int> decimals = whole_field(screen, "decimals", now.decimals, 0, 12))
        limits.decimals = *decimals;
    fields.row("largest angle it takes (deg)");
    if (const std::optional<Ratio> cap = number_field(screen, "largest angle", now.cap_deg, kCap))
        limits.cap_deg = *cap;
}

void take_train(const Session& session, Edits& edits, std::string what, Train train, std::string key) {
    Draft draft = session.draft();
    draft.train = std::move(train);
    edits.change(std::move(what), std::move(draft), std::move(key));
}

void draw_couple_panel(Screen& screen, const Session& session, Edits& edits) {
    draw_setting_line(screen, session, edits);
    draw_coupling_cards(screen, session, edits);
    draw_setting_section(screen, session, edits);
    draw_joint_section(screen, session, edits);
    draw_modeller_section(screen, session, edits);
}

}  // namespace couplet
