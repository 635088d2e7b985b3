#include <CLI/CLI.hpp>
#include <memory>

#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/teeth_input.hpp"
#include "cli/verb.hpp"
#include "sheet/check_sheet.hpp"

namespace couplet {

namespace {

struct CheckArguments {
    SheetOptions sheet;
    TeethOptions teeth;
    bool timed = false;
};

int run_check(const CheckArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const SceneInput scene = load_scene(arguments.sheet.scene);
    CheckOptions options;
    options.match_shifts = arguments.teeth.match_shifts;
    options.copies = arguments.timed ? Copies::timed_each : Copies::alike;
    if (arguments.sheet.setting) options.setting = chosen_setting(scene, arguments.sheet.setting);
    const TrainChecks checks = check_train(train_with_rack(scene, arguments.teeth), options);
    deliver(check_sheet(checks, format), arguments.sheet);
    return passes(checks) ? kDone : kDesignFails;
}

}  // namespace

Verb add_check_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("check", "every design rule, and what would mend what fails");
    auto arguments = std::make_shared<CheckArguments>();
    add_output_options(*verb, arguments->sheet,
                       "the setting to look at; default: all, with the couplings typed judged in the first");
    add_timed_option(*verb, arguments->timed);
    add_teeth_options(*verb, arguments->teeth);
    return {verb, [arguments] { return run_check(*arguments); }};
}

}  // namespace couplet
