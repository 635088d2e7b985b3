#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "exact/decimal.hpp"
#include "sheet/numbers.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

constexpr float kNames_u = 78;
constexpr std::size_t kMostRows = 60;
constexpr double kLeastRatio = 0.1;
constexpr double kMostRatio = 1000;
constexpr double kLeastRing_mm = 40;
constexpr double kMostRing_mm = 1000;
constexpr NumberLimits kRatioLimits{-1000000, 1000000, true, true, "turns to 1, not 0"};
constexpr NumberLimits kErrorLimits{0, 1000000, true, true, "ppm"};
constexpr NumberLimits kRingLimits{0, 100000, false, true, "mm"};
const NumberLimits& kModuleLimits = kToothKeys[0].limits;

// The more teeth there are to tell, the less there is room for beside them; the stage tells the rest.
constexpr std::array<PanelColumn, 4> kColumns = {
    PanelColumn{"teeth", 0}, {"error ppm", 66}, {"ratio", 66}, {"size mm", 54}};
std::span<const PanelColumn> columns_for(std::size_t counts) {
    return std::span(kColumns).first(counts <= 5 ? 4 : counts == 6 ? 3 : 2);
}

template <class Name>
std::vector<std::string> texts_of(std::size_t count, Name name) {
    std::vector<std::string> texts;
    for (std::size_t position = 0; position < count; ++position) texts.emplace_back(name(position));
    return texts;
}

std::size_t position_of(const std::vector<std::string>& names, const std::string& name) {
    return static_cast<std::size_t>(std::ranges::find(names, name) - names.begin());
}

// To three digits, as a slider sets it.
Ratio at_three_digits(double value) {
    const int decimals = std::max(0, 2 - static_cast<int>(std::floor(std::log10(std::abs(value)))));
    return rounded(*parse_ratio(fmt::format("{:.6f}", value)), decimals);
}

class FindPanel {
  public:
    FindPanel(Screen& screen, const Session& session, Edits& edits)
        : screen_(screen), session_(session), edits_(edits), find_(session.view.find), wish_(find_.wish) {}

    void draw() {
        edits_.view.find.shown.reset();
        draw_wish();
        draw_limits();
        draw_found();
    }

  private:
    SearchWish& changed() { return edits_.view.find.wish; }

    void draw_wish() {
        NamedRows rows(screen_, "wish", kNames_u);
        rows.row("arrangement");
        draw_arrangement();
        if (wish_.arrangement == Arrangement::pairs) {
            rows.row("pairs");
            static const std::vector<std::string> kPairs = {"1", "2", "3", "4"};
            if (const auto pairs = segments(screen_, "pairs", kPairs, static_cast<std::size_t>(wish_.pairs - 1))) {
                changed().pairs = static_cast<int>(*pairs) + 1;
                changed().teeth.clear();
            }
        }
        rows.row("ratio");
        draw_ratio();
        if (!central_members(wish_.arrangement).empty()) draw_choice(rows);
        rows.row("nearest");
        draw_tolerance();
    }

    void draw_arrangement() {
        const std::vector<Arrangement>& arrangements = searchable_arrangements();
        const auto name = [&](std::size_t position) { return std::string(form_of(arrangements[position]).name); };
        const auto now = std::ranges::find(arrangements, wish_.arrangement) - arrangements.begin();
        const auto chosen =
            choice(screen_, "arrangement", texts_of(arrangements.size(), name), static_cast<std::size_t>(now), 232);
        tip(screen_, form_of(wish_.arrangement).what_it_is);
        if (!chosen) return;
        changed().arrangement = arrangements[*chosen];
        changed().choice.reset();
        changed().teeth.clear();
    }

    void draw_ratio() {
        if (const auto ratio = number_field(screen_, "ratio", wish_.target, kRatioLimits, 96);
            ratio && !ratio->is_zero())
            changed().target = *ratio;
        tip(screen_, "turns of the driver per turn of the output; below 0 where the sense reverses");
        ImGui::SameLine();
        const double size = std::abs(wish_.target.to_double());
        if (const auto slid = slider(screen_, "size of the ratio", size, kLeastRatio, kMostRatio,
                                     decimal_cell(wish_.target).shown, 128))
            changed().target = wish_.target.sign() < 0 ? -at_three_digits(*slid) : at_three_digits(*slid);
        faint_words(screen_, wanted_text(wish_, wish_.target));
    }

    void draw_choice(NamedRows& rows) {
        const CentralChoice now = choice_of(wish_);
        const std::vector<std::string> members = central_members(wish_.arrangement);
        struct Part {
            const char* name;
            std::string CentralChoice::*member;
        };
        constexpr std::array<Part, 3> kParts = {
            Part{"held", &CentralChoice::held}, {"driven", &CentralChoice::driver}, {"output", &CentralChoice::output}};
        for (const Part& part : kParts) {
            rows.row(part.name);
            const auto clicked = segments(screen_, part.name, members, position_of(members, now.*part.member));
            if (!clicked) continue;
            // Whoever had this part takes the one that has become free.
            CentralChoice choice = now;
            for (const Part& other : kParts)
                if (choice.*other.member == members[*clicked]) choice.*other.member = now.*part.member;
            choice.*part.member = members[*clicked];
            changed().choice = choice;
        }
    }

    void draw_tolerance() {
        static const std::vector<std::string> kHow = {"100 best", "within"};
        const bool within = wish_.tolerance.has_value();
        if (const auto clicked = segments(screen_, "nearest", kHow, within ? 1 : 0))
            changed().tolerance = *clicked == 1 ? std::optional(Ratio(1, 1000)) : std::nullopt;
        if (!within) return;
        ImGui::SameLine();
        const Ratio million(1000000);
        if (const auto ppm = number_field(screen_, "largest error", *wish_.tolerance * million, kErrorLimits, 80))
            changed().tolerance = *ppm / million;
        words_beside("ppm");
    }

    void draw_limits() {
        heading(screen_, "Limits");
        if (button(screen_, find_.limits_open ? "fold##limits" : "change##limits", ButtonKind::quiet))
            edits_.view.find.limits_open = !find_.limits_open;
        if (!find_.limits_open) {
            faint_words(screen_, fmt::format("{}; {}", ranges_text(wish_), limits_text(wish_)));
            return;
        }
        NamedRows rows(screen_, "limits", kNames_u);
        const ArrangementForm& form = form_of(wish_.arrangement);
        if (form.has_copies) {
            rows.row("copies");
            draw_copies();
        }
        rows.row("teeth");
        draw_teeth();
        if (!count_places(wish_).rings.empty()) {
            rows.row("largest ring");
            draw_ring();
        }
        rows.row("module");
        if (const auto module = number_field(screen_, "module", wish_.module_mm, kModuleLimits, 64))
            changed().module_mm = *module;
        words_beside("mm");
        rows.row("allow");
        if (const auto on = on_off(screen_, "profile shift", wish_.shift == ShiftUse::allowed))
            changed().shift = *on ? ShiftUse::allowed : ShiftUse::none;
        if (form.has_copies) {
            ImGui::SameLine(0, screen_.px(14));
            if (const auto on = on_off(screen_, "free angles", wish_.spacing == SpacingUse::free))
                changed().spacing = *on ? SpacingUse::free : SpacingUse::equal;
            tip(screen_, "copies that do not fit at equal angles stand at the nearest angles that suit");
        }
        rows.row("only");
        if (const auto on = on_off(screen_, "hunting", wish_.hunting == HuntingUse::required))
            changed().hunting = *on ? HuntingUse::required : HuntingUse::any;
        tip(screen_, "in every mesh each tooth meets all of the other gear");
        ImGui::SameLine(0, screen_.px(14));
        if (const auto on = on_off(screen_, "one for each ratio", wish_.rows == RowsUse::each_ratio))
            changed().rows = *on ? RowsUse::each_ratio : RowsUse::each_train;
        tip(screen_, "of trains with the same ratio, the one with the fewest teeth");
    }

    void draw_copies() {
        if (const auto fewest = whole_field(screen_, "fewest copies", wish_.copies.fewest, 1, kMostSearchedCopies, 44))
            changed().copies = {*fewest, std::max(*fewest, wish_.copies.most)};
        words_beside("to");
        ImGui::SameLine();
        if (const auto most = whole_field(screen_, "most copies", wish_.copies.most, 1, kMostSearchedCopies, 44))
            changed().copies = {std::min(*most, wish_.copies.fewest), *most};
    }

    void draw_teeth() {
        const std::vector<std::string> names = count_names(wish_);
        const std::vector<ToothRange> ranges = ranges_of(wish_);
        for (std::size_t count = 0; count < names.size(); ++count) draw_range(names[count], ranges[count]);
    }

    void draw_range(const std::string& name, const ToothRange& range) {
        const int most_shown = std::min(range.most, kMostSearchedTeeth);
        const auto set = [&](int fewest, int most) {
            changed().teeth[name] = {std::min(fewest, most), std::max(fewest, most)};
        };
        if (const auto fewest =
                whole_field(screen_, "fewest teeth of " + name, range.fewest, kFewestTeeth, kMostSearchedTeeth, 50))
            set(*fewest, std::max(*fewest, most_shown));
        words_beside("to");
        ImGui::SameLine();
        if (const auto most =
                whole_field(screen_, "most teeth of " + name, most_shown, kFewestTeeth, kMostSearchedTeeth, 50))
            set(std::min(range.fewest, *most), *most);
        words_beside(name.c_str());
    }

    void draw_ring() {
        const bool limited = wish_.largest_ring_diameter_mm.has_value();
        const std::optional<Ratio> now =
            limited ? std::optional(at_three_digits(*wish_.largest_ring_diameter_mm)) : std::nullopt;
        if (const auto typed = optional_number_field(screen_, "largest ring", now, kRingLimits, "any", 64))
            changed().largest_ring_diameter_mm = *typed ? std::optional((*typed)->to_double()) : std::nullopt;
        words_beside("mm");
        ImGui::SameLine();
        const double shown_mm = wish_.largest_ring_diameter_mm.value_or(kMostRing_mm);
        if (const auto slid = slider(screen_, "size of the ring", shown_mm, kLeastRing_mm, kMostRing_mm,
                                     limited ? decimal_text(*now, 3) : "any", 128)) {
            if (*slid >= kMostRing_mm)
                changed().largest_ring_diameter_mm.reset();
            else
                changed().largest_ring_diameter_mm = std::round(*slid);
        }
    }

    void draw_found() {
        const FindJob* job = session_.find_job.get();
        if (job == nullptr) return;
        const FindProgress& progress = job->progress();
        heading(screen_, found_text(progress));
        if (!progress.why_not.empty()) {
            verdict(screen_, Verdict::fails, "fault of the wish", progress.why_not);
            return;
        }
        if (!progress.is_over && progress.all > 0)
            faint_words(screen_, fmt::format("looking: step {} of {}", progress.done, progress.all));
        if (!progress.result.rows.empty()) {
            draw_sort();
            draw_rows(*job);
        } else if (progress.is_over) {
            draw_nothing(*job);
        }
        if (progress.is_over) faint_words(screen_, rejected_text(progress.result));
    }

    static std::string found_text(const FindProgress& progress) {
        if (progress.result.rows.empty()) return progress.is_over ? "Nothing found" : "Found: none yet";
        return fmt::format("Found: {}{}", progress.result.rows.size(), progress.is_over ? "" : " so far");
    }

    void draw_nothing(const FindJob& job) {
        const std::vector<Loosening>& loosenings = job.progress().loosenings;
        words(screen_, loosenings.empty() ? "No single limit, loosened by up to a half, gives a train."
                                          : "What would give a train, the least change first:");
        for (const Loosening& loosening : loosenings)
            verdict(screen_, Verdict::caution, fmt::format("loosen {}", name_of(loosening.limit)),
                    loosening_text(job.wish(), loosening));
    }

    void draw_sort() {
        const auto name = [](std::size_t key) { return std::string(name_of(static_cast<RankKey>(key))); };
        if (const auto clicked =
                segments(screen_, "sort", texts_of(kRankKeys, name), static_cast<std::size_t>(find_.sort)))
            edits_.view.find.sort = static_cast<RankKey>(*clicked);
    }

    void draw_rows(const FindJob& job) {
        const std::vector<SearchRow>& rows = job.progress().result.rows;
        const std::vector<std::size_t>& order = job.ranked_by(find_.sort);
        const std::vector<bool>& marks = job.unbeaten_rows();
        if (!begin_rows(screen_, "trains found", columns_for(count_names(job.wish()).size()))) return;
        for (std::size_t place = 0; place < std::min(order.size(), kMostRows); ++place)
            draw_row(job, rows[order[place]], marks[order[place]]);
        ImGui::EndTable();
        if (order.size() > kMostRows) faint_words(screen_, fmt::format("and {} more", order.size() - kMostRows));
        faint_words(screen_,
                    "* no other is at least as good in error, size, contact ratio, hunting and balance of its "
                    "copies, and better in one of them.");
    }

    void draw_row(const FindJob& job, const SearchRow& row, bool is_unbeaten) {
        const std::string teeth = teeth_text(job.wish(), row);
        ImGui::TableNextRow();
        ImGui::TableNextColumn();
        if (ImGui::Selectable(fmt::format("##found {}", teeth).c_str(), false, ImGuiSelectableFlags_SpanAllColumns,
                              {0, ImGui::GetFrameHeight()}))
            edits_.ask(OpenFound{job.wish(), row});
        const bool pointed = ImGui::IsItemHovered() || (ImGui::IsItemFocused() && ImGui::GetIO().NavVisible);
        say(screen_, "row", teeth, is_unbeaten ? "unbeaten" : "");
        if (pointed) edits_.view.find.shown = row;
        ImGui::SameLine(0, 0);
        ImGui::AlignTextToFramePadding();
        ImGui::TextUnformatted(is_unbeaten ? (teeth + " *").c_str() : teeth.c_str());
        const std::array<std::pair<const char*, std::string>, 3> figures = {
            {{"error", fmt::format("{:.4g}", row.error_ppm.to_double())},
             {"ratio", fraction_cell(row.ratio).shown},
             {"size", fmt::format("{:.5g}", row.ring_diameter_mm)}}};
        for (std::size_t figure = 0; figure + 1 < columns_for(row.teeth.size()).size(); ++figure) {
            ImGui::TableNextColumn();
            right_text(screen_, fmt::format("{} of {}", figures[figure].first, teeth), figures[figure].second);
        }
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    const FindChoice& find_;
    const SearchWish& wish_;
};

}  // namespace

void draw_find_panel(Screen& screen, const Session& session, Edits& edits) {
    FindPanel(screen, session, edits).draw();
}

}  // namespace couplet
