#include "cli/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "exact/decimal.hpp"
#include "scene/error.hpp"
#include "scene/names.hpp"

namespace couplet {

void add_output_options(CLI::App& verb, SheetOptions& options, const std::string& what_setting_does) {
    verb.add_option("SCENE", options.scene, "scene file (TOML); without one, the harbour capstan that is built in");
    verb.add_option("--format", options.format, "text (default), json, csv or md")->type_name("FORMAT");
    verb.add_option("-o,--output", options.output, "write to FILE instead of the terminal")->type_name("FILE");
    verb.add_option("--setting", options.setting, what_setting_does)->type_name("NAME");
}

void add_sheet_options(CLI::App& verb, SheetOptions& options, const std::string& what_setting_does) {
    add_output_options(verb, options, what_setting_does);
    verb.add_option("--settings", options.settings,
                    "'all': one row per setting, with its ratio and the step to the next")
        ->type_name("all")
        ->excludes(verb.get_option("--setting"));
    verb.add_option("--out", options.out, "with --settings all: the output member; default: the one that all share")
        ->type_name("NAME");
}

Format format_of(const SheetOptions& options) {
    if (options.format == "text") return Format::text;
    if (options.format == "json") return Format::json;
    if (options.format == "csv") return Format::csv;
    if (options.format == "md") return Format::md;
    throw UsageError(
        fmt::format("unknown format {}; {}", in_quotes(options.format),
                    name_suggestion(options.format, {"text", "json", "csv", "md"}, "the formats are", "")));
}

bool wants_all_settings(const SheetOptions& options) {
    if (options.out && !options.settings) throw UsageError("--out needs --settings all");
    if (!options.settings) return false;
    if (*options.settings == "all") return true;
    throw UsageError(fmt::format("--settings takes 'all', not {}; --setting takes the name of one setting",
                                 in_quotes(*options.settings)));
}

Ratio number_of(std::string_view option, const std::string& text, std::string_view example) {
    if (std::optional<Ratio> number = parse_ratio(text)) return *std::move(number);
    throw UsageError(fmt::format("{} {} is not a number; write it like {}", option, in_quotes(text), example));
}

MemberIndex member_of(const Train& train, const std::string& name) {
    if (const std::optional<MemberIndex> member = find_member(train, name)) return *member;
    std::vector<std::string> names;
    for (const Member& member : train.members) names.push_back(member.name);
    throw UsageError(fmt::format("unknown member {}; {}", in_quotes(name),
                                 name_suggestion(name, names, "the members are", "the scene has no members")));
}

MemberIndex turning_member_of(const Train& train, const std::string& name) {
    const MemberIndex member = member_of(train, name);
    if (member == kFrame) throw UsageError("the frame never turns; name a member of the train");
    return member;
}

std::string name_suggestion(const std::string& name, const std::vector<std::string>& names,
                            std::string_view what_they_are, std::string_view where_none) {
    const std::vector<std::string_view> views(names.begin(), names.end());
    return suggestion(name, views, what_they_are, where_none);
}

void refuse_word(std::string_view option, const std::string& word, const std::vector<std::string>& words) {
    throw UsageError(
        fmt::format("{} has no {}; {}", option, in_quotes(word), name_suggestion(word, words, "it takes one of", "")));
}

}  // namespace couplet
