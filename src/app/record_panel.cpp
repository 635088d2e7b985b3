#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "app/clip_wish.hpp"
#include "app/panel_parts.hpp"
#include "app/panels.hpp"
#include "app/stage_moment.hpp"

namespace couplet {

namespace {

constexpr float kNames_u = 70;
constexpr NumberLimits kSeconds{0, 86400, false, true, "seconds"};
constexpr NumberLimits kFps{0, 1000, false, true, "frames a second"};

// Sizes that people ask for, as they are called.
struct NamedSize {
    const char* name;
    glm::ivec2 px;
};
constexpr std::array kSizes = {NamedSize{"720p", {1280, 720}}, NamedSize{"1080p", {1920, 1080}},
                               NamedSize{"4K", {3840, 2160}}, NamedSize{"square", {1080, 1080}}};

template <class Options, class Name>
std::vector<std::string> names_of(const Options& options, Name name) {
    std::vector<std::string> names;
    for (const auto& option : options) names.emplace_back(option.*name);
    return names;
}

void fault_line(Screen& screen, std::string_view name, const std::string& fault) {
    if (!fault.empty()) verdict(screen, Verdict::fails, name, fault);
}

std::string megabytes_text(double megabytes) {
    if (megabytes >= 1000) return fmt::format("{:.2g} GB", megabytes / 1000);
    if (megabytes < 0.95) return fmt::format("{:.0f} kB", std::max(1.0, megabytes * 1000));
    return megabytes >= 10 ? fmt::format("{:.0f} MB", megabytes) : fmt::format("{:.1f} MB", megabytes);
}

class RecordPanel {
  public:
    RecordPanel(Screen& screen, const Session& session, Edits& edits)
        : screen_(screen),
          session_(session),
          edits_(edits),
          choice_(session.view.clip),
          plan_(clip_plan_of(session, session.view.clip)),
          places_(places_px(screen, session.view, ImGui::GetIO().DisplaySize)) {}

    void draw() {
        draw_target();
        draw_record();
        draw_length();
        draw_camera();
        draw_picture();
        draw_captions();
    }

  private:
    ClipChoice& changed() { return edits_.view.clip; }

    void draw_target() {
        heading(screen_, "Clip");
        const std::vector<std::string> names = names_of(kClipKinds, &NamedClipKind::name);
        const auto now = std::ranges::find(kClipKinds, choice_.kind, &NamedClipKind::kind);
        if (const auto clicked = segments(screen_, "kind", names, static_cast<std::size_t>(now - kClipKinds.begin())))
            changed() = with_kind(choice_, kClipKinds[*clicked].kind);
        if (const auto typed =
                text_field(screen_, "file", clip_name(session_, choice_), "file or folder to record into", 340))
            changed() = with_target(session_, choice_, *typed);
        const std::filesystem::path target = clip_target(session_, choice_);
        faint_words(
            screen_,
            fmt::format("in {}", (target.has_filename() ? target : target.parent_path()).parent_path().string()));
    }

    void draw_record() {
        ImGui::Dummy({0, screen_.px(2)});
        if (session_.job) {
            draw_progress(*session_.job);
            return;
        }
        const bool good = plan_.part && size_fault(choice_).empty() && background_fault(choice_).empty();
        ImGui::PushFont(screen_.fonts.large);
        const bool clicked = button(screen_, "Record", ButtonKind::main, good);
        ImGui::PopFont();
        if (clicked) edits_.ask(RecordClip{choice_, stage_zoom(session_, places_)});
        if (!plan_.part) {
            fault_line(screen_, "plan", plan_.why_not);
            return;
        }
        ImGui::SameLine(0, screen_.px(12));
        const ClipEstimate estimate = clip_estimate(choice_, *plan_.part);
        ImGui::BeginGroup();
        words(screen_, fmt::format("{:.4g} s, {} frames", estimate.seconds, estimate.frames));
        screen_.said.back().name = "record/estimate";
        faint_words(screen_, fmt::format("{} x {}, about {}", choice_.size_px.x, choice_.size_px.y,
                                         megabytes_text(estimate.megabytes)));
        ImGui::EndGroup();
    }

    void draw_progress(const ProgramJob& job) {
        const ProgramProgress& progress = job.progress();
        const bool stopping = progress.state == ProgramProgress::State::stopping;
        words(screen_, fmt::format("{} {}",
                                   stopping                         ? "cancelling"
                                   : job.order().done == "recorded" ? "recording"
                                                                    : "writing",
                                   last_name(job.order().target)));
        draw_bar(progress);
        std::string text = progress.frames == 0 ? "getting ready"
                                                : fmt::format("frame {} of {}", progress.frames_done, progress.frames);
        if (progress.fps) text += fmt::format(", {:.1f} frames a second", *progress.fps);
        if (progress.seconds_left && progress.frames_done < progress.frames)
            text += fmt::format(", {} left", time_text(*progress.seconds_left));
        else if (progress.frames > 0 && progress.frames_done == progress.frames)
            text += ", finishing";
        faint_words(screen_, text);
        if (button(screen_, "Cancel", ButtonKind::plain, !stopping)) edits_.ask(CancelJob{});
    }

    void draw_bar(const ProgramProgress& progress) {
        const ImVec2 from = ImGui::GetCursorScreenPos();
        const float width = ImGui::GetContentRegionAvail().x;
        const ImVec2 to(from.x + width, from.y + screen_.px(12));
        const float part = progress.frames == 0
                               ? 0.0F
                               : static_cast<float>(progress.frames_done) / static_cast<float>(progress.frames);
        ImDrawList& list = *ImGui::GetWindowDrawList();
        const float round = screen_.px(4);
        list.AddRectFilled(from, to, colour(screen_.theme->field), round);
        if (part > 0) list.AddRectFilled(from, {from.x + part * width, to.y}, colour(screen_.theme->accent), round);
        list.AddRect(from, to, colour(screen_.theme->panel_edge), round, 0, screen_.scale);
        ImGui::Dummy({width, to.y - from.y});
        say(screen_, "progress", "progress", fmt::format("{} of {}", progress.frames_done, progress.frames));
    }

    void draw_length() {
        heading(screen_, "Length and loop");
        {
            NamedRows rows(screen_, "length", kNames_u);
            rows.row("length");
            if (const auto entered =
                    optional_number_field(screen_, "seconds", choice_.seconds, kSeconds, "as the loop needs", 140))
                changed().seconds = *entered;
            words_beside("s");
            rows.row("rate");
            const std::string usual = usual_fps(choice_.kind).to_string();
            if (const auto entered = optional_number_field(screen_, "fps", choice_.fps, kFps, usual, 64))
                changed().fps = *entered;
            words_beside("frames a second");
            rows.row("loop");
            draw_loop();
            if (clip_draft(session_.draft()).train.settings.size() > 1) {
                rows.row("settings");
                draw_settings();
            }
        }
        if (!plan_.part) return;
        for (const std::string& line : plan_words(session_.train(), *plan_.part, PlanReader::window))
            faint_words(screen_, line);
    }

    void draw_loop() {
        static const std::vector<std::string> kLoops = {"best", "strict", "alike", "none"};
        const std::size_t now = choice_.loop ? static_cast<std::size_t>(*choice_.loop) + 1 : 0;
        if (const auto clicked = segments(screen_, "loop", kLoops, now))
            changed().loop = *clicked == 0 ? std::nullopt : std::optional(static_cast<LoopKind>(*clicked - 1));
    }

    void draw_settings() {
        static const std::vector<std::string> kSettings = {"this one", "all, in turn"};
        if (const auto clicked = segments(screen_, "settings", kSettings, static_cast<std::size_t>(choice_.settings)))
            changed().settings = static_cast<ClipChoice::Settings>(*clicked);
    }

    void draw_camera() {
        heading(screen_, "Camera");
        std::vector<std::string> paths = {"turntable", "fixed", "rocking"};
        if (!session_.train().shots.empty()) paths.emplace_back("shots");
        if (const auto clicked = segments(screen_, "path", paths, static_cast<std::size_t>(choice_.path)))
            changed().path = static_cast<PathKind>(*clicked);
        const bool previews = session_.view.preview_since_s.has_value();
        flow(screen_, 140);
        if (button(screen_, previews ? "Stop the preview" : "Preview the path",
                   previews ? ButtonKind::main : ButtonKind::plain, plan_.part.has_value()))
            edits_.view.preview_since_s = previews ? std::nullopt : std::optional(session_.now_s);
        const bool close = choice_.closeness == ClipChoice::Closeness::as_shown;
        if (const auto on = on_off(screen_, "as close as the stage shows it", close))
            changed().closeness = *on ? ClipChoice::Closeness::as_shown : ClipChoice::Closeness::whole;
        faint_words(screen_, previews ? "The stage shows the clip; drag it to stop."
                                      : "From the side and with the look that the stage shows now.");
        if (previews) draw_clip_edges();
    }

    // Beside the clip the stage is veiled.
    void draw_clip_edges() {
        const ClipEdges edges = clip_edges(places_, choice_.size_px);
        ImDrawList& list = *ImGui::GetBackgroundDrawList();
        const ImU32 veil = colour(screen_.theme->panel, 0.7F);
        list.AddRectFilled(places_.stage_from, {edges.from.x, places_.stage_to.y}, veil);
        list.AddRectFilled({edges.to.x, places_.stage_from.y}, places_.stage_to, veil);
        list.AddRectFilled({edges.from.x, places_.stage_from.y}, {edges.to.x, edges.from.y}, veil);
        list.AddRectFilled({edges.from.x, edges.to.y}, {edges.to.x, places_.stage_to.y}, veil);
        list.AddRect(edges.from, edges.to, colour(screen_.theme->accent), 0, 0, screen_.px(1.5F));
        say(screen_, "text", "clip edges", "", edges.from, edges.to);
    }

    void draw_picture() {
        heading(screen_, "Picture");
        {
            NamedRows rows(screen_, "picture", kNames_u);
            rows.row("size");
            draw_size();
            rows.row("grain");
            static const std::vector<std::string> kGrains = {"usual", "finer"};
            if (const auto clicked =
                    segments(screen_, "grain", kGrains, static_cast<std::size_t>(choice_.supersample - 1)))
                changed().supersample = static_cast<int>(*clicked) + 1;
            rows.row("blur");
            draw_blur();
            rows.row("backdrop");
            if (const auto on = on_off(screen_, "transparent", choice_.transparent)) changed().transparent = *on;
        }
        fault_line(screen_, "fault of background", background_fault(choice_));
    }

    void draw_size() {
        const auto now = std::ranges::find(kSizes, choice_.size_px, &NamedSize::px);
        if (const auto clicked = segments(screen_, "size", names_of(kSizes, &NamedSize::name),
                                          static_cast<std::size_t>(now - kSizes.begin())))
            changed().size_px = kSizes[*clicked].px;
        const auto side = [&](const char* name, int value) {
            return whole_field(screen_, name, value, kLeastClipSide_px, kMostClipSide_px, 64);
        };
        if (const auto width = side("width", choice_.size_px.x)) changed().size_px.x = *width;
        words_beside("x");
        ImGui::SameLine();
        if (const auto height = side("height", choice_.size_px.y)) changed().size_px.y = *height;
        words_beside("pixels");
        fault_line(screen_, "fault of size", size_fault(choice_));
    }

    void draw_blur() {
        static const std::vector<std::string> kBlurs = {"off", "4 drawings", "8 drawings"};
        constexpr std::array kDrawings = {1, 4, 8};
        const auto now = std::ranges::find(kDrawings, choice_.blur);
        if (const auto clicked = segments(screen_, "blur", kBlurs, static_cast<std::size_t>(now - kDrawings.begin())))
            changed().blur = kDrawings[*clicked];
    }

    void draw_captions() {
        heading(screen_, "Captions");
        struct Named {
            const char* name;
            bool CaptionChoice::*shown;
        };
        constexpr Named kCaptions[] = {
            {"title", &CaptionChoice::title}, {"ratio", &CaptionChoice::ratio}, {"turns", &CaptionChoice::turns}};
        for (const Named& one : kCaptions) {
            if (&one != std::begin(kCaptions)) ImGui::SameLine(0, screen_.px(18));
            if (const auto on = on_off(screen_, one.name, choice_.captions.*one.shown))
                changed().captions.*one.shown = *on;
        }
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    const ClipChoice& choice_;
    const OrWhyNot<ClipPlan>& plan_;
    Places_px places_;
};

}  // namespace

void draw_record_panel(Screen& screen, const Session& session, Edits& edits) {
    RecordPanel(screen, session, edits).draw();
}

}  // namespace couplet
