#include "cli/program.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <new>

#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/verb.hpp"
#include "cli/window.hpp"
#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

namespace {

const std::vector<std::string> kVerbs = {"find",  "size",   "place", "couple", "speeds",
                                         "watch", "record", "check", "export", "sheet"};

bool looks_like_a_file(const std::string& argument) {
    std::error_code ignored;
    return argument.find_first_of("./\\") != std::string::npos || std::filesystem::exists(argument, ignored);
}

// Without a verb the arguments are those of the window.
bool are_for_the_window(const std::vector<std::string>& arguments) {
    if (arguments.empty()) return true;
    const std::string& first = arguments.front();
    if (std::ranges::find(kVerbs, first) != kVerbs.end()) return false;
    if (first == "-h" || first == "--help" || first == "--version") return false;
    if (!first.starts_with('-') && !looks_like_a_file(first))
        throw UsageError(
            fmt::format("unknown verb {}; {}", in_quotes(first), name_suggestion(first, kVerbs, "the verbs are", "")));
    return true;
}

void refuse_leftovers(const CLI::App& verb) {
    const std::vector<std::string> left = verb.remaining();
    if (left.empty()) return;
    const auto option = std::ranges::find_if(left, [](const std::string& text) { return text.starts_with('-'); });
    if (option == left.end())
        throw UsageError(fmt::format("{} is one argument too many; a verb takes one scene", in_quotes(left.front())));
    std::vector<std::string> names;
    for (const CLI::Option* known : verb.get_options())
        if (!known->get_lnames().empty()) names.push_back("--" + known->get_lnames().front());
    throw UsageError(fmt::format("unknown option {}; {}", in_quotes(*option),
                                 name_suggestion(option->substr(0, option->find('=')), names, "the options are", "")));
}

int run_verb(std::vector<std::string> arguments) {
    if (are_for_the_window(arguments)) become_the_window(arguments);
    CLI::App program("Works out how a gear train moves, and what to type so that a model of it moves the same way.");
    program.name("couplet");
    program.set_version_flag("--version", "couplet " COUPLET_VERSION);
    program.footer(
        "Without a verb: the window, with SCENE; couplet-window --help tells its options.\n"
        "Without SCENE: the harbour capstan that is built in.\n"
        "Exit status: 0 done; 1 done, and the design fails; 2 wrong input, nothing written.");
    const Verb verbs[] = {add_find_verb(program),   add_size_verb(program),   add_place_verb(program),
                          add_couple_verb(program), add_speeds_verb(program), add_watch_verb(program),
                          add_record_verb(program), add_check_verb(program),  add_export_verb(program),
                          add_sheet_verb(program)};
    for (const Verb& verb : verbs) verb.command->allow_extras();
    std::ranges::reverse(arguments);
    try {
        program.parse(std::move(arguments));
    } catch (const CLI::CallForHelp&) {
        print(program.help());
        return kDone;
    } catch (const CLI::CallForVersion& version) {
        print(std::string(version.what()) + '\n');
        return kDone;
    } catch (const CLI::ParseError& error) {
        throw UsageError(fmt::format("{}; --help tells what each option takes", error.what()));
    }
    const auto chosen = std::ranges::find_if(verbs, [](const Verb& verb) { return verb.command->parsed(); });
    refuse_leftovers(*chosen->command);
    return chosen->run();
}

int refused(const char* prefix, const char* what) noexcept {
    std::fprintf(stderr, "%s%s\n", prefix, what);
    return kBadInput;
}

}  // namespace

int run_program(std::vector<std::string> arguments) noexcept {
    try {
        return run_verb(std::move(arguments));
    } catch (const SceneError& error) {
        return refused("", error.what());
    } catch (const std::bad_alloc&) {
        return refused("couplet: ", "out of memory; a smaller train would fit");
    } catch (const std::exception& error) {
        return refused("couplet: ", error.what());
    }
}

}  // namespace couplet
