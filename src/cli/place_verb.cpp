#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>

#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "scene/error.hpp"
#include "sheet/place_sheet.hpp"

namespace couplet {

namespace {

struct PlaceArguments {
    SheetOptions sheet;
    std::string drawn = "tooth";
    std::string first = "0";
    bool timed = false;
    TeethOptions teeth;
};

Drawn drawn_of(const std::string& text) {
    if (text == "tooth") return Drawn::tooth;
    if (text == "gap") return Drawn::gap;
    throw UsageError(
        fmt::format("--drawn takes 'tooth' or 'gap', what a gear has on +X as drawn, not {}", in_quotes(text)));
}

StartOptions start_options(const PlaceArguments& arguments) {
    StartOptions options;
    options.drawn = drawn_of(arguments.drawn);
    options.copies = arguments.timed ? Copies::timed_each : Copies::alike;
    options.first_gear_deg = number_of("--first", arguments.first, "7.5 or -30 (degrees)");
    return options;
}

// A scene without settings has places too: only the instants of its proof go without a driver.
std::optional<Setting> setting_of(const SceneInput& scene, const SheetOptions& options) {
    if (!options.setting && scene.train.settings.empty()) return std::nullopt;
    return chosen_setting(scene, options.setting);
}

int run_place(const PlaceArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const StartOptions options = start_options(arguments);
    const SceneInput scene = load_scene(arguments.sheet.scene);
    const std::optional<Setting> setting = setting_of(scene, arguments.sheet);
    const Train train = train_with_rack(scene, arguments.teeth);
    const TrainPlaces places =
        of_teeth(scene, [&] { return train_places(train, arguments.teeth.match_shifts, options, setting); });
    deliver(place_sheet(places, format), arguments.sheet);
    return meshes(places) ? kDone : kDesignFails;
}

}  // namespace

Verb add_place_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("place", "where each part goes, turned by how much, and proof of mesh");
    auto arguments = std::make_shared<PlaceArguments>();
    add_output_options(*verb, arguments->sheet, "the setting whose driver instants are counted by; default: the first");
    verb->add_option("--drawn", arguments->drawn, "what each gear has on +X as drawn: tooth (default) or gap")
        ->type_name("tooth|gap");
    verb->add_option("--first", arguments->first, "starting rotation of the scene's first gear, in degrees; default 0")
        ->type_name("DEG");
    add_timed_option(*verb, arguments->timed);
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_place(*arguments); }};
}

}  // namespace couplet
