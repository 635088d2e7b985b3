#include <fmt/format.h>

#include "app/couple_parts.hpp"
#include "app/panel_parts.hpp"
#include "app/setting_edits.hpp"
#include "sheet/words.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

// The section as it is drawn: what runs, and the door by which it changes.
class SettingSection {
  public:
    SettingSection(Screen& screen, const Session& session, Edits& edits)
        : screen_(screen),
          draft_(session.draft()),
          train_(session.train()),
          edits_(edits),
          now_(session.study->setting()) {}

    void draw() {
        heading(screen_, "Setting");
        draw_name();
        draw_trial();
        NamedRows rows(screen_, "setting parts", 64);
        rows.row("held");
        draw_held();
        rows.row("tied");
        draw_ties();
        rows.row("driven");
        draw_drivers();
    }

  private:
    void change(std::string what, const Setting& changed, std::string key = {}) {
        Draft draft = with_running_setting(draft_, changed);
        if (faults(draft.train).empty()) edits_.change(std::move(what), std::move(draft), std::move(key));
    }

    void draw_name() {
        if (draft_.chosen.value >= 0) {
            const std::string& name = train_[draft_.chosen].name;
            if (const auto renamed = checked_text_field(
                    screen_, "setting name", name, "name",
                    [&](const std::string& text) { return setting_name_fault(draft_, text); }, 160))
                edits_.change("setting " + *renamed, with_chosen_setting_named(draft_, *renamed));
            flow(screen_, 50);
        }
        if (button(screen_, "add## setting")) edits_.change("another setting", with_setting_added(draft_));
        tip(screen_, "another setting, a copy of this one");
        if (draft_.chosen.value < 0) return;
        flow(screen_, 80);
        if (button(screen_, "remove## setting", ButtonKind::quiet))
            edits_.change("setting " + train_[draft_.chosen].name + " removed", without_chosen_setting(draft_));
    }

    void draw_trial() {
        if (!draft_.trial) return;
        words(screen_, "You are trying this out; the scene's own setting is as it was.");
        if (draft_.chosen.value >= 0) {
            if (button(screen_, fmt::format("keep in {}##, the trial", train_[draft_.chosen].name)))
                edits_.change("trial kept", trial_kept_in_place(draft_));
            flow(screen_, 150);
        }
        if (button(screen_, "keep as a new setting##, the trial"))
            edits_.change("trial kept as a new setting", trial_kept_as_new(draft_));
        flow(screen_, 60);
        if (button(screen_, "drop## the trial", ButtonKind::quiet))
            edits_.change("trial dropped", without_trial(draft_));
    }

    void draw_held() {
        for (std::size_t i = 0; i < now_.hold.size(); ++i) {
            const std::string& name = name_of(train_, now_.hold[i]);
            if (i > 0) flow(screen_, 40 + 8.0F * static_cast<float>(name.size()));
            if (!chip(screen_, name, "let go of " + name)) continue;
            Setting changed = now_;
            changed.hold.erase(changed.hold.begin() + static_cast<std::ptrdiff_t>(i));
            change("let go of " + name, changed);
        }
        if (!now_.hold.empty()) flow(screen_, kAdd_u);
        if (const auto member =
                member_choice(screen_, "hold one more", train_, free_members(train_, now_), "+ hold", kAdd_u)) {
            Setting changed = now_;
            changed.hold.push_back(*member);
            change("hold " + name_of(train_, *member), changed);
        }
    }

    void draw_ties() {
        for (std::size_t i = 0; i < now_.tie.size(); ++i) {
            const std::string text = tie_text(train_, now_.tie[i]);
            if (i > 0) flow(screen_, 40 + 8.0F * static_cast<float>(text.size()));
            if (!chip(screen_, text, "untie " + text)) continue;
            Setting changed = now_;
            changed.tie.erase(changed.tie.begin() + static_cast<std::ptrdiff_t>(i));
            change("untie " + text, changed);
        }
        if (!now_.tie.empty()) flow(screen_, kAdd_u);
        draw_new_tie();
    }

    // The first member is remembered by ImGui until the second one is chosen.
    void draw_new_tie() {
        int& first = *ImGui::GetStateStorage()->GetIntRef(ImGui::GetID("first of a tie"), -1);
        if (first >= static_cast<int>(train_.members.size())) first = -1;
        if (first < 0) {
            std::vector<MemberIndex> all;
            for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.members.size()); ++m) all.push_back({m});
            if (const auto member = member_choice(screen_, "tie a member", train_, all, "+ tie", kAdd_u))
                first = member->value;
            return;
        }
        const MemberIndex member{first};
        const std::string with = name_of(train_, member) + " with ...";
        if (const auto other =
                member_choice(screen_, "tie it with", train_, could_be_tied(train_, now_, member), with, kAdd_u)) {
            Setting changed = now_;
            changed.tie.emplace_back(member, *other);
            change("tie " + tie_text(train_, changed.tie.back()), changed);
            first = -1;
        }
        ImGui::SameLine();
        if (button(screen_, "cancel## the tie", ButtonKind::quiet)) first = -1;
    }

    void draw_drivers() {
        for (std::size_t i = 0; i < now_.drive.size(); ++i) {
            const std::string& name = name_of(train_, now_.drive[i].member);
            Setting changed = now_;
            if (chip(screen_, name, "stop driving " + name)) {
                changed.drive.erase(changed.drive.begin() + static_cast<std::ptrdiff_t>(i));
                change("stop driving " + name, changed);
            }
            ImGui::SameLine();
            if (const auto rpm = number_field(screen_, "speed of " + name, now_.drive[i].rpm, kRpm, 80)) {
                changed.drive[i].rpm = *rpm;
                change("speed of " + name, changed, "speed of " + name);
            }
            ImGui::SameLine();
            ImGui::TextUnformatted("rpm");
        }
        if (const auto member =
                member_choice(screen_, "drive one more", train_, free_members(train_, now_), "+ drive", kAdd_u)) {
            Setting changed = now_;
            changed.drive.push_back({*member, now_.drive.empty() ? Ratio(kUsual_rpm) : now_.drive.front().rpm});
            change("drive " + name_of(train_, *member), changed);
        }
    }

    static constexpr float kAdd_u = 120;
    static constexpr int kUsual_rpm = 30;

    Screen& screen_;
    const Draft& draft_;
    const Train& train_;
    Edits& edits_;
    const Setting& now_;
};

}  // namespace

void draw_setting_section(Screen& screen, const Session& session, Edits& edits) {
    SettingSection(screen, session, edits).draw();
}

}  // namespace couplet
