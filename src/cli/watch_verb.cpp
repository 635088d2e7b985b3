#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <memory>
#include <numbers>

#include "cli/given_setting.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "cli/window.hpp"
#include "exact/decimal.hpp"
#include "scene/error.hpp"
#include "view/context.hpp"
#include "view/renderer.hpp"
#include "view/stage.hpp"

namespace couplet {

namespace {

struct WatchArguments {
    std::string scene;
    std::optional<std::string> setting;
    std::optional<std::string> still;
    std::string size = "1280x720";
    std::string turns = "0";
    std::string observer = "frame";
    std::string look = "metal";
    std::string view = "iso";
    std::string marks = "on";
    std::string spread = "0";
    std::string zoom = "1";
    std::optional<std::string> at;
    std::optional<std::string> azimuth;
    std::optional<std::string> elevation;
    std::string quality = "full";
    std::vector<std::string> finishes;
    std::vector<std::string> show;
    bool cutaway = false;
    bool transparent = false;
    TeethOptions teeth;
};

constexpr int kLargestSide_px = 16384;

[[noreturn]] void refuse_word(std::string_view option, const std::string& word, const std::vector<std::string>& words) {
    throw UsageError(
        fmt::format("{} has no {}; {}", option, in_quotes(word), name_suggestion(word, words, "it takes one of", "")));
}

glm::ivec2 size_of(const std::string& text) {
    const std::size_t cross = text.find('x');
    const auto side = [&](const std::string& part) {
        const std::optional<Ratio> number = parse_ratio(part);
        if (!number || !number->is_whole() || *number < Ratio(16) || *number > Ratio(kLargestSide_px))
            throw UsageError(
                fmt::format("--size {} is no size; write it like 1920x1080, each side from 16 to {} pixels",
                            in_quotes(text), kLargestSide_px));
        return static_cast<int>(number->small_numerator());
    };
    if (cross == std::string::npos) return {side(""), 0};
    return {side(text.substr(0, cross)), side(text.substr(cross + 1))};
}

Look look_of(const std::string& word) {
    if (word == "metal") return Look::metal;
    if (word == "clay") return Look::clay;
    if (word == "line") return Look::line;
    refuse_word("--look", word, {"metal", "clay", "line"});
}

NamedView view_of(const std::string& word) {
    if (const std::optional<NamedView> view = named_view(word)) return *view;
    refuse_word("--view", word, {std::begin(kNamedViews), std::end(kNamedViews)});
}

bool marks_of(const std::string& word) {
    if (word == "on" || word == "off") return word == "on";
    refuse_word("--marks", word, {"on", "off"});
}

Quality quality_of(const std::string& word) {
    if (word == "full") return kStillQuality;
    if (word == "light") return kLightQuality;
    refuse_word("--quality", word, {"full", "light"});
}

double within(std::string_view option, const std::string& text, double least, double most, std::string_view example) {
    const double value = number_of(option, text, example).to_double();
    if (value >= least && value <= most) return value;
    throw UsageError(fmt::format("{} {} is out of range; it goes from {} to {}", option, text, least, most));
}

void show_overlay(StageLook& look, const std::string& word) {
    if (word == "pitch")
        look.pitch_circles = true;
    else if (word == "centres")
        look.centre_lines = true;
    else if (word == "speeds")
        look.arrows = true;
    else if (word == "contacts")
        look.contacts = true;
    else if (word == "names")
        look.names = true;
    else
        refuse_word("--show", word, {"pitch", "centres", "speeds", "contacts", "names"});
}

float linear(int byte) {
    const double s = byte / 255.0;
    return static_cast<float>(s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4));
}

Material material_of(const std::string& word) {
    if (word == "brass") return {Finish::brass, {}};
    if (word == "steel") return {Finish::steel, {}};
    if (word == "bronze") return {Finish::bronze, {}};
    if (word == "black") return {Finish::oxide_black, {}};
    unsigned rgb = 0;
    const bool hex = word.size() == 7 && word[0] == '#' &&
                     word.find_first_not_of("0123456789abcdefABCDEF", 1) == std::string::npos &&
                     std::sscanf(word.c_str() + 1, "%x", &rgb) == 1;  // NOLINT(cert-err34-c): the digits were checked
    if (!hex) refuse_word("--finish", word, {"brass", "steel", "bronze", "black", "#rrggbb"});
    return {Finish::painted,
            {linear(static_cast<int>(rgb >> 16U & 255U)), linear(static_cast<int>(rgb >> 8U & 255U)),
             linear(static_cast<int>(rgb & 255U))}};
}

// "NAME=FINISH"
void set_finish(StageLook& look, const Train& train, const std::string& text) {
    const std::size_t sign = text.rfind('=');
    if (sign == std::string::npos)
        throw UsageError(
            fmt::format("--finish {} says no finish; write it like ring=brass or ring=#2a6f97", in_quotes(text)));
    look.materials.resize(train.members.size());
    look.materials[turning_member_of(train, text.substr(0, sign)).position()] = material_of(text.substr(sign + 1));
}

StageLook stage_look(const WatchArguments& arguments, const Train& train) {
    StageLook look;
    look.look = look_of(arguments.look);
    look.observer = member_of(train, arguments.observer);
    look.marks = marks_of(arguments.marks);
    look.spread = within("--spread", arguments.spread, 0, 1, "0.5");
    look.cutaway = arguments.cutaway;
    look.transparent = arguments.transparent;
    for (const std::string& word : arguments.show) show_overlay(look, word);
    for (const std::string& text : arguments.finishes) set_finish(look, train, text);
    return look;
}

constexpr double kDegree = std::numbers::pi / 180;

Camera camera_of(const WatchArguments& arguments, const Stage& stage, const Standing& standing, const StageLook& look,
                 double width_over_height) {
    const NamedView view = view_of(arguments.view);
    Camera camera = turned_to(Camera{}, view);
    if (arguments.azimuth) camera.azimuth_rad = within("--azimuth", *arguments.azimuth, -360, 360, "30") * kDegree;
    if (arguments.elevation)
        camera.elevation_rad = within("--elevation", *arguments.elevation, -90, 90, "35") * kDegree;
    camera = fitted(camera, reaches_of(stage, look), width_over_height);
    camera.distance_mm /= within("--zoom", arguments.zoom, 0.01, 1000, "2");
    if (!arguments.at) return camera;
    const MemberIndex member = turning_member_of(stage.train, *arguments.at);
    const auto place = static_cast<std::size_t>(stage.placement.first_place[member.position()]);
    const glm::dmat4 observed = observer_from_frame(stage, standing, look.observer) * standing.frame_from_place[place];
    camera.target_mm.x = observed[3].x;
    camera.target_mm.y = observed[3].y;
    return camera;
}

// The window takes what a still takes of scene, setting, observer, look and view.
[[noreturn]] void watch_in_the_window(const WatchArguments& arguments) {
    std::vector<std::string> passed = {"--panel", "watch",        "--run",  "--observer",  arguments.observer,
                                       "--look",  arguments.look, "--view", arguments.view};
    if (arguments.setting) passed.insert(passed.end(), {"--setting", *arguments.setting});
    if (!arguments.scene.empty()) passed.push_back(arguments.scene);
    become_the_window(passed);
}

int run_watch(const WatchArguments& arguments) {
    if (!arguments.still) watch_in_the_window(arguments);
    const glm::ivec2 size_px = size_of(arguments.size);
    const Ratio turns = number_of("--turns", arguments.turns, "0.25 or 1/3");
    const Quality quality = quality_of(arguments.quality);
    const SceneInput scene = load_scene(arguments.scene);
    const Train train = train_with_rack(scene, arguments.teeth);
    const StageLook look = stage_look(arguments, train);
    const Motion motion = train.settings.empty() ? Motion{Outcome::free, 0, 0, {}, {}, 0, {}, {}, 0}
                                                 : solve(train, chosen_setting(scene, arguments.setting));
    const Stage stage =
        of_teeth(scene, [&] { return stage_of(arguments.teeth.match_shifts ? match_shifts(train).train : train); });
    const Standing standing = standing_at(stage, motion, turns);
    const Camera camera = camera_of(arguments, stage, standing, look, static_cast<double>(size_px.x) / size_px.y);
    const OffscreenContext context;
    Renderer renderer;
    const Image image = renderer.image_of(picture_of(stage, standing, look, camera), quality, size_px);
    deliver_file(png_bytes(image), *arguments.still, arguments.scene);
    return kDone;
}

}  // namespace

Verb add_watch_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("watch", "the train as a picture, at any instant of its motion");
    auto arguments = std::make_shared<WatchArguments>();
    verb->add_option("SCENE", arguments->scene, "scene file (TOML); without one, the built-in harbour capstan");
    verb->add_option("--still", arguments->still,
                     "draw one picture into FILE, a PNG, instead of opening the window; no display is needed")
        ->type_name("FILE");
    verb->add_option("--size", arguments->size, "pixels of the picture; default 1280x720")->type_name("WxH");
    verb->add_option("--turns", arguments->turns,
                     "turns of the driver since the start, counter-clockwise where positive; default 0")
        ->type_name("TURNS");
    verb->add_option("--setting", arguments->setting, "the setting that moves the train; default: the first")
        ->type_name("NAME");
    verb->add_option("--observer", arguments->observer, "the member that the view rides on; default: the frame")
        ->type_name("NAME");
    verb->add_option("--look", arguments->look, "metal (default), clay, or line for a technical drawing")
        ->type_name("LOOK");
    verb->add_option("--view", arguments->view, "iso (default), top, bottom, front, back, left or right")
        ->type_name("VIEW");
    verb->add_option("--azimuth", arguments->azimuth, "turn the view round the upright, in degrees; 0 is the front")
        ->type_name("DEG");
    verb->add_option("--elevation", arguments->elevation, "look down by so many degrees")->type_name("DEG");
    verb->add_option("--zoom", arguments->zoom, "come closer, 2 shows everything twice as large; default 1")
        ->type_name("FACTOR");
    verb->add_option("--at", arguments->at, "look at this member instead of the middle")->type_name("NAME");
    verb->add_option("--marks", arguments->marks, "tooth marks on (default) or off")->type_name("on|off");
    verb->add_option("--spread", arguments->spread, "pull the parts apart along their axes, 0 (default) to 1")
        ->type_name("PART");
    verb->add_flag("--cutaway", arguments->cutaway, "cut open what hides the meshes");
    verb->add_option("--show", arguments->show,
                     "draw over the picture (repeatable): pitch circles, centres, speeds, contacts, names")
        ->delimiter(',')
        ->allow_extra_args(false)
        ->type_name("WHAT");
    verb->add_option("--finish", arguments->finishes,
                     "what a member is made of (repeatable): brass, steel, bronze, black or a colour as #rrggbb")
        ->allow_extra_args(false)
        ->type_name("NAME=FINISH");
    verb->add_flag("--transparent", arguments->transparent, "no bench and no background: alpha, with the shadow in it");
    verb->add_option("--quality", arguments->quality, "full (default) or light: fewer samples, less shade")
        ->type_name("QUALITY");
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_watch(*arguments); }};
}

}  // namespace couplet
