#include <CLI/CLI.hpp>
#include <memory>

#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "sheet/drawing.hpp"
#include "sheet/findings.hpp"
#include "sheet/size_sheet.hpp"

namespace couplet {

namespace {

struct SizeArguments {
    SheetOptions sheet;
    TeethOptions teeth;
    std::optional<std::string> drawing;
};

void deliver_drawing(const TrainSizes& sizes, const SizeArguments& arguments) {
    if (arguments.sheet.output == arguments.drawing)
        throw UsageError("-o and --drawing name the same file; give each a file of its own");
    SheetOptions to_drawing = arguments.sheet;
    to_drawing.output = arguments.drawing;
    deliver(size_drawing(sizes.train, sizes.teeth), to_drawing);
}

int run_size(const SizeArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const SceneInput scene = load_scene(arguments.sheet.scene);
    if (arguments.sheet.setting) (void)chosen_setting(scene, arguments.sheet.setting);
    const Train train = train_with_rack(scene, arguments.teeth);
    const TrainSizes sizes = of_teeth(scene, [&] { return train_sizes(train, arguments.teeth.match_shifts); });
    if (arguments.drawing) deliver_drawing(sizes, arguments);
    deliver(size_sheet(sizes, format), arguments.sheet);
    return any_fails(sizes.findings) ? kDesignFails : kDone;
}

}  // namespace

Verb add_size_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("size", "how big each gear is, and whether it can be cut and meshed");
    auto arguments = std::make_shared<SizeArguments>();
    add_output_options(*verb, arguments->sheet, "a setting of the scene; sizes are the same in all of them");
    add_teeth_options(*verb, arguments->teeth);
    verb->add_option("--drawing", arguments->drawing, "also draw every gear and the train to scale, as SVG, to FILE")
        ->type_name("FILE");
    return {verb, [arguments] { return run_size(*arguments); }};
}

}  // namespace couplet
