#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/scene_input.hpp"
#include "cli/settings_table.hpp"
#include "cli/verb.hpp"
#include "motion/speeds.hpp"
#include "sheet/speeds_sheet.hpp"

namespace couplet {

namespace {

struct SpeedsArguments {
    SheetOptions sheet;
    std::vector<std::string> members;
};

// A name may itself hold a comma, so a text that is one as it stands is taken whole.
void add_members(const Train& train, const std::string& text, std::vector<MemberIndex>& members) {
    const std::size_t comma = find_member(train, text) ? std::string::npos : text.find(',');
    const MemberIndex member = turning_member_of(train, text.substr(0, comma));
    if (std::ranges::find(members, member) == members.end()) members.push_back(member);
    if (comma != std::string::npos) add_members(train, text.substr(comma + 1), members);
}

std::vector<MemberIndex> members_of(const Train& train, const std::vector<std::string>& texts) {
    std::vector<MemberIndex> members;
    for (const std::string& text : texts) add_members(train, text, members);
    if (members.size() == 1) throw UsageError("--members names one member; a driver and an output make two");
    std::ranges::sort(members);
    return members;
}

int run_speeds(const SpeedsArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const bool all_settings = wants_all_settings(arguments.sheet);
    const SceneInput scene = load_scene(arguments.sheet.scene);
    if (all_settings) return print_settings(scene, arguments.sheet);
    SpeedChoices choices;
    if (arguments.sheet.setting) choices.ties = chosen_setting(scene, arguments.sheet.setting).tie;
    choices.members = members_of(scene.train, arguments.members);
    const std::vector<SpeedRow> rows = speed_rows(scene.train, choices);
    deliver(speeds_sheet(scene.train, choices.ties, rows, format), arguments.sheet);
    return rows.empty() ? kDesignFails : kDone;
}

}  // namespace

Verb add_speeds_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("speeds", "every ratio that the train offers");
    auto arguments = std::make_shared<SpeedsArguments>();
    add_sheet_options(*verb, arguments->sheet, "take the ties of this setting; default: no ties");
    verb->add_option("--members", arguments->members, "hold, drive and take off only these; default: all on the frame")
        ->type_name("A,B,...")
        ->allow_extra_args(false);
    return {verb, [arguments] { return run_speeds(*arguments); }};
}

}  // namespace couplet
