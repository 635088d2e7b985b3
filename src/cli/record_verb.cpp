#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <memory>

#include "cli/interrupt.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/progress_bar.hpp"
#include "cli/scene_input.hpp"
#include "cli/stage_options.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "record/child.hpp"
#include "record/clip_plan.hpp"
#include "record/picture_files.hpp"
#include "record/recorder.hpp"
#include "scene/error.hpp"
#include "view/context.hpp"

namespace couplet {

namespace {

struct RecordArguments {
    std::string scene;
    std::optional<std::string> output;
    std::vector<std::string> settings;
    std::optional<std::string> fps;
    std::optional<std::string> seconds;
    std::string path = "turntable";
    std::optional<std::string> loop;
    std::optional<std::string> turns;
    std::vector<std::string> captions;
    std::string blur = "1";
    std::string supersample = "1";
    std::optional<std::string> frames;
    std::optional<std::string> join;
    std::string progress = "bar";
    bool quiet = false;
    bool plan = false;
    StageOptions stage;
    TeethOptions teeth;
};

Ratio positive(std::string_view option, const std::string& text, std::string_view example) {
    Ratio value = number_of(option, text, example);
    if (value.sign() <= 0)
        throw UsageError(fmt::format("{} {} must be above 0; write it like {}", option, text, example));
    return value;
}

int count_of(std::string_view option, const std::string& text, int most) {
    const Ratio value = number_of(option, text, "4");
    if (!value.is_whole() || value < Ratio(1) || value > Ratio(most))
        throw UsageError(fmt::format("{} {} is no count; it goes from 1 to {}", option, text, most));
    return static_cast<int>(value.small_numerator());
}

std::optional<LoopKind> loop_of(const RecordArguments& arguments) {
    if (!arguments.loop) return std::nullopt;
    if (*arguments.loop == "strict") return LoopKind::strict;
    if (*arguments.loop == "alike") return LoopKind::alike;
    if (*arguments.loop == "none") return LoopKind::none;
    refuse_word("--loop", *arguments.loop, {"strict", "alike", "none"});
}

PathKind path_of(const std::string& word) {
    if (word == "turntable") return PathKind::turntable;
    if (word == "fixed") return PathKind::fixed;
    if (word == "rocking") return PathKind::rocking;
    if (word == "shots") return PathKind::shots;
    refuse_word("--path", word, {"turntable", "fixed", "rocking", "shots"});
}

CaptionChoice captions_of(const std::vector<std::string>& words) {
    CaptionChoice choice;
    for (const std::string& word : words) {
        if (word == "title")
            choice.title = true;
        else if (word == "ratio")
            choice.ratio = true;
        else if (word == "turns")
            choice.turns = true;
        else
            refuse_word("--captions", word, {"title", "ratio", "turns"});
    }
    return choice;
}

// "A-B", counted from 1.
FrameRange range_of(const std::optional<std::string>& text, int frames) {
    if (!text) return {0, frames};
    int first = 0;
    int last = 0;
    char more = 0;
    const int found =
        std::sscanf(text->c_str(), "%d-%d%c", &first, &last, &more);  // NOLINT(cert-err34-c): checked here
    if (found != 2 || first < 1 || last < first || last > frames)
        throw UsageError(fmt::format("--frames {} are no frames of this clip; write them like 1-{}, it has {}",
                                     in_quotes(*text), std::min(frames, 100), frames));
    return {first - 1, last};
}

ClipKind kind_of(const RecordArguments& arguments) {
    if (!arguments.output) throw UsageError("there is no file to record into; name one with -o, like -o clip.mp4");
    const std::optional<ClipKind> kind = clip_kind_of(*arguments.output);
    if (!kind)
        throw UsageError(fmt::format("{} does not say what kind of clip it is to be; give it one of these endings: {}",
                                     in_quotes(*arguments.output), clip_endings()));
    return *kind;
}

void expect_fitting(ClipKind kind, const RecordArguments& arguments, glm::ivec2 size_px) {
    if (needs_even_sides(kind) && (size_px.x % 2 != 0 || size_px.y % 2 != 0))
        throw UsageError(fmt::format("--size {} has an odd side, which this kind of clip cannot have; {}x{} would do",
                                     arguments.stage.size, size_px.x + size_px.x % 2, size_px.y + size_px.y % 2));
    if (arguments.stage.transparent && !keeps_alpha(kind))
        throw UsageError(
            "--transparent needs a kind that keeps it: .webm, .gif, .apng, .webp, .png or a folder of pictures");
    if (arguments.frames && kind == ClipKind::picture && arguments.frames->find('-') == std::string::npos)
        throw UsageError(fmt::format("--frames {} is no range; one frame is written like 12-12", *arguments.frames));
}

std::vector<Setting> settings_of(const SceneInput& scene, const std::vector<std::string>& names) {
    std::vector<Setting> settings;
    for (const std::string& name : names) settings.push_back(chosen_setting(scene, name));
    if (settings.empty()) settings.push_back(chosen_setting(scene, std::nullopt));
    return settings;
}

CameraPath camera_path(const RecordArguments& arguments, const Stage& stage, const StageLook& look, double aspect) {
    PathWish wish{path_of(arguments.path), turned_camera(arguments.stage), zoom_of(arguments.stage)};
    if (arguments.stage.at) wish.look_at = turning_member_of(stage.train, *arguments.stage.at);
    if (wish.kind == PathKind::shots && stage.train.shots.empty())
        throw UsageError("--path shots needs views to go through; write them into the scene as [[shot]]");
    return path_of(wish, stage, look, aspect);
}

enum class ProgressKind { none, bar, lines };

ProgressKind progress_of(const RecordArguments& arguments) {
    if (arguments.progress == "lines") return ProgressKind::lines;
    if (arguments.progress != "bar") refuse_word("--progress", arguments.progress, {"bar", "lines"});
    return arguments.quiet ? ProgressKind::none : ProgressKind::bar;
}

// How far it is: for eyes on one line of the terminal, for programs a line on standard output for each frame.
class Progress {
  public:
    Progress(int frames, ProgressKind kind) : frames_(frames), kind_(kind), bar_(kind == ProgressKind::bar) {}

    void show(int done) {
        if (kind_ == ProgressKind::lines) {
            const std::string line = fmt::format("frame {} of {}\n", done, frames_);
            if (std::fputs(line.c_str(), stdout) < 0 || std::fflush(stdout) != 0) stop_work();
        } else {
            bar_.show(done, frames_, fmt::format("frame {} of {}, {:.1f} fps", done, frames_, done / bar_.seconds()));
        }
    }

  private:
    int frames_;
    ProgressKind kind_;
    ProgressBar bar_;
};

// Pictures that were recorded in slices, in the place of drawing.
Image joined_picture(const std::filesystem::path& folder, int frame, glm::ivec2 size_px) {
    const std::filesystem::path path = folder / picture_name(frame);
    std::error_code ignored;
    if (!std::filesystem::exists(path, ignored))
        throw UsageError(fmt::format("{} is missing; record it with --frames {}-{} -o {}/", path.string(), frame + 1,
                                     frame + 1, folder.string()));
    Image image = read_picture(path);
    if (image.width != size_px.x || image.height != size_px.y)
        throw UsageError(fmt::format("{} has {}x{} pixels; the clip has {}x{}", path.string(), image.width,
                                     image.height, size_px.x, size_px.y));
    return image;
}

std::unique_ptr<FrameSink> opened_sink(ClipKind kind, const RecordArguments& arguments, const EncoderInput& input) {
    try {
        return sink_for(kind, *arguments.output, input, arguments.frames ? Folder::shared : Folder::whole);
    } catch (const NoProgram& missing) {
        throw UsageError(fmt::format(
            "{}, which writes {} clips, is not on this machine; install it, or record a folder of pictures: "
            "-o {}/",
            missing.what(), std::filesystem::path(*arguments.output).extension().string(),
            std::filesystem::path(*arguments.output).stem().string()));
    }
}

void tell(const RecordArguments& arguments, const Train& train, const ClipPlan& plan) {
    if (arguments.quiet) return;
    for (const std::string& line : plan_words(train, plan, PlanReader::command_line)) fmt::print(stderr, "{}\n", line);
}

bool stands(const ClipPlan& plan) {
    return std::ranges::any_of(plan.schedule.legs, [](const Leg& leg) { return leg.motion.outcome != Outcome::moves; });
}

ClipPlan planned(const RecordArguments& arguments, const SceneInput& scene, const Stage& stage, const StageLook& look,
                 ClipKind kind) {
    ClipWish wish;
    wish.settings = settings_of(scene, arguments.settings);
    if (arguments.seconds) wish.seconds = positive("--seconds", *arguments.seconds, "10");
    wish.fps = arguments.fps ? positive("--fps", *arguments.fps, "30 or 30000/1001") : usual_fps(kind);
    wish.loop = loop_of(arguments);
    if (arguments.turns) wish.turns = number_of("--turns", *arguments.turns, "2 or 10/7");
    if (wish.turns && wish.loop && *wish.loop != LoopKind::none)
        throw UsageError("--turns and --loop contradict each other; leave one away");
    wish.observer = look.observer;
    try {
        return plan_clip(stage.train, stage.placement, stage.rotations, wish);
    } catch (const std::invalid_argument&) {
        throw UsageError(fmt::format("--seconds {} at {} frames a second is no clip; it has 1 to {} frames",
                                     arguments.seconds.value_or("10"), wish.fps.to_string(), kMostFrames));
    }
}

int run_record(const RecordArguments& arguments) {
    const ClipKind kind = kind_of(arguments);
    const ProgressKind progress_kind = progress_of(arguments);
    Clip clip;
    clip.size_px = size_of(arguments.stage);
    expect_fitting(kind, arguments, clip.size_px);
    clip.quality = quality_of(arguments.stage);
    clip.grain = {count_of("--blur", arguments.blur, 64), count_of("--supersample", arguments.supersample, 4)};
    clip.captions = captions_of(arguments.captions);
    const SceneInput scene = load_scene(arguments.scene);
    const Train train = train_with_rack(scene, arguments.teeth);
    clip.look = stage_look(arguments.stage, train);
    clip.stage =
        of_teeth(scene, [&] { return stage_of(arguments.teeth.match_shifts ? match_shifts(train).train : train); });
    const ClipPlan plan = planned(arguments, scene, clip.stage, clip.look, kind);
    clip.schedule = plan.schedule;
    clip.look.plain = plan.plain;
    const double aspect = static_cast<double>(clip.size_px.x) / clip.size_px.y;
    clip.path = camera_path(arguments, clip.stage, clip.look, aspect);
    const int frames = clip.schedule.frames;
    FrameRange range = range_of(arguments.frames, frames);
    if (kind == ClipKind::picture && !arguments.frames) range.end = 1;
    tell(arguments, train, plan);
    if (arguments.plan) return stands(plan) ? kDesignFails : kDone;

    listen_for_interrupt();
    std::signal(SIGXFSZ, SIG_IGN);  // a write beyond the limit on a file's size fails instead
    const std::unique_ptr<FrameSink> sink =
        opened_sink(kind, arguments, {clip.size_px, clip.schedule.fps, clip.look.transparent});
    Progress progress(range.end - range.first, progress_kind);
    const RecordingWatch watch{[&](int done) { progress.show(done); }, is_work_stopped};
    if (arguments.join) {
        record_pictures(
            frames, [&](int frame) { return joined_picture(*arguments.join, frame, clip.size_px); }, *sink, watch);
    } else {
        const OffscreenContext context;
        record(clip, range, *sink, watch);
    }
    return stands(plan) ? kDesignFails : kDone;
}

}  // namespace

Verb add_record_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("record", "a clip of the turning train that loops without a seam");
    auto arguments = std::make_shared<RecordArguments>();
    verb->add_option("SCENE", arguments->scene, "scene file (TOML); without one, the built-in harbour capstan");
    verb->add_option("-o,--output", arguments->output,
                     "the clip; its ending says what kind: .mp4, .webm, .gif, .apng, .webp, .png, or name/ for a "
                     "folder of numbered pictures")
        ->type_name("FILE");
    verb->add_option("--seconds", arguments->seconds,
                     "length of the clip; default 10, up to 30 where a loop needs that to be followed")
        ->type_name("S");
    verb->add_option("--fps", arguments->fps, "frames a second; default 30, 25 for .gif")->type_name("N");
    verb->add_option("--setting", arguments->settings,
                     "the setting that moves the train; given several times: one after the other; default: the first")
        ->allow_extra_args(false)
        ->type_name("NAME");
    verb->add_option("--path", arguments->path,
                     "the camera's: turntable (default), fixed, rocking, or shots, the scene's [[shot]] views")
        ->type_name("PATH");
    verb->add_option("--loop", arguments->loop,
                     "strict: every tooth comes back; alike: it looks the same, marks left off; none; default: strict "
                     "where the eye can follow it, else alike")
        ->type_name("LOOP");
    verb->add_option("--turns", arguments->turns, "exactly so many turns of the driver instead of loops")
        ->type_name("TURNS");
    verb->add_option("--captions", arguments->captions, "written over the clip (repeatable): title, ratio, turns")
        ->delimiter(',')
        ->allow_extra_args(false)
        ->type_name("WHAT");
    verb->add_option("--blur", arguments->blur, "drawings for each frame while the shutter is open, 1 (default) to 64")
        ->type_name("N");
    verb->add_option("--supersample", arguments->supersample, "points a side for each pixel, 1 (default) to 4")
        ->type_name("N");
    verb->add_option("--frames", arguments->frames,
                     "only these, counted from 1; into a folder that others record into too")
        ->type_name("A-B");
    verb->add_option("--join", arguments->join,
                     "write the pictures of this folder, recorded in slices with the same options, instead of drawing")
        ->type_name("FOLDER");
    verb->add_flag("--plan", arguments->plan, "only say what the clip would show");
    verb->add_option("--progress", arguments->progress,
                     "bar (default), where standard error is a terminal; or lines on standard output, for programs")
        ->type_name("KIND");
    verb->add_flag("--quiet", arguments->quiet, "say nothing but errors");
    add_stage_options(*verb, arguments->stage, "1920x1080");
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_record(*arguments); }};
}

}  // namespace couplet
