#include "app/clip_wish.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/folder_view.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace fs = std::filesystem;

namespace {

constexpr double kDegree = std::numbers::pi / 180;

std::string ending_of(ClipKind kind) {
    if (kind == ClipKind::picture_folder) return "/";
    return "." + std::string(std::ranges::find(kClipKinds, kind, &NamedClipKind::kind)->name);
}

bool is_offered(ClipKind kind) {
    return std::ranges::find(kClipKinds, kind, &NamedClipKind::kind) != kClipKinds.end();
}

// "clips/capstan.mp4" and "clips/capstan/" both give "clips/capstan".
std::string without_ending(std::string name) {
    while (name.size() > 1 && name.ends_with('/')) name.pop_back();
    const fs::path path(name);
    if (path.has_extension() && clip_kind_of("a" + path.extension().string()))
        name.resize(name.size() - path.extension().string().size());
    return name;
}

// Where targets are meant that do not say their folder.
FolderView clip_folder(const Session& session) {
    return choosing_file(FileTask::save_as, session.file.path, {});
}

std::string scene_stem(const Session& session) {
    const fs::path named =
        session.file.path.empty() ? fs::path(file_name_for(session.train().title)) : session.file.path;
    return named.stem().string();
}

std::vector<Setting> clip_settings(const Draft& draft, ClipChoice::Settings settings) {
    const Draft with_trial = clip_draft(draft);
    if (settings == ClipChoice::Settings::all) return with_trial.train.settings;
    return {with_trial.train[with_trial.chosen]};
}

ClipWish wish_of(const Session& session, const ClipChoice& choice) {
    ClipWish wish;
    wish.settings = clip_settings(session.draft(), choice.settings);
    wish.seconds = choice.seconds;
    wish.fps = choice.fps.value_or(usual_fps(choice.kind));
    wish.loop = choice.loop;
    wish.observer = session.view.look.observer;
    return wish;
}

std::string_view word_of(PathKind path) {
    constexpr std::string_view kWords[] = {"turntable", "fixed", "rocking", "shots"};
    return kWords[static_cast<int>(path)];
}

std::string_view word_of(LoopKind loop) {
    constexpr std::string_view kWords[] = {"strict", "alike", "none"};
    return kWords[static_cast<int>(loop)];
}

// "--name=value": a value may begin with a dash.
class Arguments {
  public:
    explicit Arguments(std::vector<std::string> words) : words_(std::move(words)) {}
    void add(std::string_view name, std::string_view value) { words_.push_back(fmt::format("--{}={}", name, value)); }
    void add(std::string_view name, int value) { add(name, std::to_string(value)); }
    void add(std::string_view name, const std::optional<Ratio>& value) {
        if (value) add(name, value->to_string());
    }
    void flag(std::string_view name, bool on) {
        if (on) words_.push_back(fmt::format("--{}", name));
    }
    [[nodiscard]] std::vector<std::string> words() && { return std::move(words_); }

  private:
    std::vector<std::string> words_;
};

void add_look(Arguments& arguments, const Train& train, const StageLook& look) {
    constexpr std::string_view kLooks[] = {"metal", "clay", "line"};
    arguments.add("look", kLooks[static_cast<int>(look.look)]);
    arguments.add("observer", name_of(train, look.observer));
    arguments.add("marks", look.marks ? "on" : "off");
    if (look.spread > 0) arguments.add("spread", fmt::format("{:.4f}", look.spread));
    arguments.flag("cutaway", look.cutaway);
    const std::pair<std::string_view, bool> overlays[] = {{"pitch", look.pitch_circles},
                                                          {"centres", look.centre_lines},
                                                          {"speeds", look.arrows},
                                                          {"contacts", look.contacts},
                                                          {"names", look.names}};
    for (const auto& [name, is_shown] : overlays)
        if (is_shown) arguments.add("show", name);
}

void add_camera(Arguments& arguments, const Camera& camera, const ClipChoice& choice, double zoom) {
    arguments.add("path", word_of(choice.path));
    // The plane views are the ones without perspective; the angles below turn away from them.
    arguments.add("view", camera.projection == Projection::orthographic ? "top" : "iso");
    const double azimuth_rad = std::remainder(camera.azimuth_rad, 2 * std::numbers::pi);
    arguments.add("azimuth", fmt::format("{:.4f}", azimuth_rad / kDegree));
    arguments.add("elevation", fmt::format("{:.4f}", std::clamp(camera.elevation_rad / kDegree, -90.0, 90.0)));
    if (choice.closeness == ClipChoice::Closeness::as_shown)
        arguments.add("zoom", fmt::format("{:.4f}", std::clamp(zoom, 0.01, 1000.0)));
}

void add_captions(Arguments& arguments, const CaptionChoice& captions) {
    if (captions.title) arguments.add("captions", "title");
    if (captions.ratio) arguments.add("captions", "ratio");
    if (captions.turns) arguments.add("captions", "turns");
}

}  // namespace

ClipChoice with_kind(ClipChoice choice, ClipKind kind) {
    choice.kind = kind;
    if (!choice.target.empty()) choice.target = without_ending(choice.target) + ending_of(kind);
    return choice;
}

ClipChoice with_target(const Session& session, ClipChoice choice, const std::string& typed) {
    if (typed.find_first_not_of(' ') == std::string::npos) {
        choice.target.clear();
        return choice;
    }
    choice.target = typed;
    const std::optional<ClipKind> kind = clip_kind_of(typed_path(clip_folder(session), typed));
    return with_kind(choice, kind && is_offered(*kind) ? *kind : choice.kind);
}

std::string clip_name(const Session& session, const ClipChoice& choice) {
    return choice.target.empty() ? scene_stem(session) + ending_of(choice.kind) : choice.target;
}

fs::path beside_scene(const Session& session, std::string_view ending) {
    return typed_path(clip_folder(session), scene_stem(session) + std::string(ending));
}

fs::path clip_target(const Session& session, const ClipChoice& choice) {
    return typed_path(clip_folder(session), clip_name(session, choice));
}

std::string last_name(const fs::path& target) {
    return target.has_filename() ? target.filename().string() : target.parent_path().filename().string() + "/";
}

std::string size_fault(const ClipChoice& choice) {
    const glm::ivec2 size = choice.size_px;
    if (!needs_even_sides(choice.kind) || (size.x % 2 == 0 && size.y % 2 == 0)) return {};
    return fmt::format("{}x{} has an odd side, which this kind of clip cannot have; {}x{} would do", size.x, size.y,
                       size.x + size.x % 2, size.y + size.y % 2);
}

std::string background_fault(const ClipChoice& choice) {
    if (!choice.transparent || keeps_alpha(choice.kind)) return {};
    return "transparent needs a kind that keeps it: .webm, .gif, .apng, .webp or a folder of pictures";
}

Draft clip_draft(const Draft& draft) {
    Draft tried = draft;
    if (!tried.trial && tried.chosen.value < 0) {
        tried.trial = running_setting(draft);
        tried.trial->name = new_setting_name(draft.train, "");
    }
    return trial_kept_as_new(tried);
}

const OrWhyNot<ClipPlan>& clip_plan_of(const Session& session, const ClipChoice& choice) {
    return session.study->clip_plan(wish_of(session, choice));
}

ClipEstimate clip_estimate(const ClipChoice& choice, const ClipPlan& plan) {
    const int frames = plan.schedule.frames;
    const double pixels = static_cast<double>(choice.size_px.x) * choice.size_px.y;
    return {frames, frames / plan.schedule.fps.to_double(), bytes_per_pixel(choice.kind) * pixels * frames / 1e6};
}

std::vector<std::string> clip_arguments(const Session& session, const ClipChoice& choice, double zoom,
                                        const fs::path& scene) {
    Arguments arguments({"record", scene.string(), "--quiet", "--progress=lines"});
    arguments.add("output", clip_target(session, choice).string());
    arguments.add("size", fmt::format("{}x{}", choice.size_px.x, choice.size_px.y));
    arguments.add("fps", choice.fps);
    arguments.add("seconds", choice.seconds);
    if (choice.loop) arguments.add("loop", word_of(*choice.loop));
    for (const Setting& setting : clip_settings(session.draft(), choice.settings))
        arguments.add("setting", setting.name);
    add_look(arguments, session.train(), session.view.look);
    add_camera(arguments, session.view.camera, choice, zoom);
    add_captions(arguments, choice.captions);
    arguments.flag("transparent", choice.transparent);
    arguments.add("supersample", choice.supersample);
    arguments.add("blur", choice.blur);
    return std::move(arguments).words();
}

}  // namespace couplet
