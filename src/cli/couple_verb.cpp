#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "cli/given_setting.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/settings_table.hpp"
#include "cli/verb.hpp"
#include "couple/coupling.hpp"
#include "exact/decimal.hpp"
#include "scene/error.hpp"
#include "sheet/coupling_sheet.hpp"

namespace couplet {

namespace {

struct CoupleArguments {
    SheetOptions sheet;
    GivenSetting setting;
    std::string first = "360";
    std::string decimals = "3";
    std::string cap = "36000";
    std::optional<std::string> from;
};

constexpr int kMostDecimalsOfField = 12;

int decimals_of(const std::string& text) {
    const Ratio number = number_of("--decimals", text, "3");
    if (number.is_whole() && number >= Ratio(0) && number <= Ratio(kMostDecimalsOfField))
        return static_cast<int>(number.small_numerator());
    throw UsageError(fmt::format("--decimals {} is out of range; a field accepts 0 to {} decimals", in_quotes(text),
                                 kMostDecimalsOfField));
}

TypableLimits limits_of(const CoupleArguments& arguments) {
    const Ratio most_cap = power_of_ten(kMostDecimalsOfField);
    TypableLimits limits;
    limits.first_deg = number_of("--first", arguments.first, "360 or 45.5 (degrees)");
    limits.decimals = decimals_of(arguments.decimals);
    limits.cap_deg = number_of("--cap", arguments.cap, "36000 (degrees)");
    if (limits.first_deg.is_zero()) throw UsageError("--first 0 turns nothing; give an angle other than 0");
    if (limits.cap_deg < Ratio(1) || limits.cap_deg > most_cap)
        throw UsageError(fmt::format("--cap {} is out of range; it goes from 1 to {} degrees", in_quotes(arguments.cap),
                                     most_cap.to_string()));
    if (limits.first_deg.magnitude() > limits.cap_deg)
        throw UsageError(fmt::format("--first {} is beyond the largest angle, --cap {}; raise --cap or lower --first",
                                     arguments.first, arguments.cap));
    return limits;
}

Joint from_joint(const Train& train, const std::string& name) {
    const std::vector<Joint> joints = joints_of(train);
    if (const std::optional<Joint> joint = find_joint(train, joints, name)) return *joint;
    std::vector<std::string> names;
    names.reserve(joints.size());
    for (const Joint& joint : joints) names.push_back(joint.name);
    throw UsageError(fmt::format("unknown joint {}; {}", in_quotes(name),
                                 name_suggestion(name, names, "the joints are", "the scene has no joints")));
}

Setting setting_for(const SceneInput& scene, const CoupleArguments& arguments) {
    if (!arguments.setting.is_given()) return chosen_setting(scene, arguments.sheet.setting);
    if (arguments.sheet.setting)
        throw UsageError("--setting and --hold, --tie or --drive exclude each other; give one or the other");
    return setting_of(scene.train, arguments.setting);
}

bool design_fails(const CouplingSheet& sheet) {
    const bool stuck = sheet.motion.outcome == Outcome::locked || sheet.motion.outcome == Outcome::conflicting;
    return stuck || std::ranges::any_of(sheet.couplings, [](const Coupling& coupling) {
               return coupling.typed && !(coupling.audit && coupling.audit->is_right());
           });
}

int run_couple(const CoupleArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const bool all_settings = wants_all_settings(arguments.sheet);
    CoupleOptions options;
    options.limits = limits_of(arguments);
    const SceneInput scene = load_scene(arguments.sheet.scene);
    if (all_settings) return print_settings(scene, arguments.sheet);
    const Setting setting = setting_for(scene, arguments);
    if (arguments.from) options.from = from_joint(scene.train, *arguments.from);
    const CouplingSheet sheet = couple(scene.train, setting, options);
    deliver(coupling_sheet(scene.train, sheet, format), arguments.sheet);
    return design_fails(sheet) ? kDesignFails : kDone;
}

}  // namespace

Verb add_couple_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("couple", "the two angles to type for each joint coupling");
    auto arguments = std::make_shared<CoupleArguments>();
    add_sheet_options(*verb, arguments->sheet, "the setting of the scene to use; default: its first");
    verb->add_option("--first", arguments->first, "first angle to type, in degrees; default 360")->type_name("DEG");
    verb->add_option("--decimals", arguments->decimals, "decimals that the modeller's field accepts; default 3")
        ->type_name("COUNT");
    verb->add_option("--cap", arguments->cap, "largest angle of either field, in degrees; default 36000")
        ->type_name("DEG");
    verb->add_option("--from", arguments->from, "couple from this joint instead of the driver's")->type_name("JOINT");
    const auto add_repeatable = [verb](const char* name, std::vector<std::string>& values, const char* help) {
        return verb->add_option(name, values, help)->allow_extra_args(false);
    };
    add_repeatable("--hold", arguments->setting.hold, "hold a member (repeatable); replaces the scene's setting")
        ->type_name("NAME");
    add_repeatable("--tie", arguments->setting.tie, "tie two members (repeatable); replaces the scene's setting")
        ->type_name("A=B");
    add_repeatable("--drive", arguments->setting.drive,
                   "drive a member, at 1 rpm if no speed is given (repeatable); replaces the scene's setting")
        ->type_name("NAME[=RPM]");
    return {verb, [arguments] { return run_couple(*arguments); }};
}

}  // namespace couplet
