#include <CLI/CLI.hpp>
#include <memory>

#include "cli/given_setting.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/stage_options.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "cli/window.hpp"
#include "view/context.hpp"
#include "view/renderer.hpp"
#include "view/stage.hpp"

namespace couplet {

namespace {

struct WatchArguments {
    std::string scene;
    std::optional<std::string> setting;
    std::optional<std::string> still;
    std::string turns = "0";
    StageOptions stage;
    TeethOptions teeth;
};

// The window takes what a still takes of scene, setting, observer, look and view.
[[noreturn]] void watch_in_the_window(const WatchArguments& arguments) {
    std::vector<std::string> passed = {"--panel",
                                       "watch",
                                       "--run",
                                       "--observer",
                                       arguments.stage.observer,
                                       "--look",
                                       arguments.stage.look,
                                       "--view",
                                       arguments.stage.view};
    if (arguments.setting) passed.insert(passed.end(), {"--setting", *arguments.setting});
    if (!arguments.scene.empty()) passed.push_back(arguments.scene);
    become_the_window(passed);
}

int run_watch(const WatchArguments& arguments) {
    if (!arguments.still) watch_in_the_window(arguments);
    const glm::ivec2 size_px = size_of(arguments.stage);
    const Ratio turns = number_of("--turns", arguments.turns, "0.25 or 1/3");
    const Quality quality = quality_of(arguments.stage);
    const SceneInput scene = load_scene(arguments.scene);
    const Train train = train_with_rack(scene, arguments.teeth);
    const StageLook look = stage_look(arguments.stage, train);
    const Motion motion =
        train.settings.empty() ? resting_motion() : solve(train, chosen_setting(scene, arguments.setting));
    const Stage stage =
        of_teeth(scene, [&] { return stage_of(arguments.teeth.match_shifts ? match_shifts(train).train : train); });
    const Standing standing = standing_at(stage, motion, turns);
    const Camera held =
        fitted(turned_camera(arguments.stage), reaches_of(stage, look), static_cast<double>(size_px.x) / size_px.y);
    const Camera camera = aimed(arguments.stage, held, stage, standing, look);
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
    verb->add_option("--turns", arguments->turns,
                     "turns of the driver since the start, counter-clockwise where positive; default 0")
        ->type_name("TURNS");
    verb->add_option("--setting", arguments->setting, "the setting that moves the train; default: the first")
        ->type_name("NAME");
    add_stage_options(*verb, arguments->stage, "1280x720");
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_watch(*arguments); }};
}

}  // namespace couplet
