// Options: what every verb that prints takes, and how names and numbers on the command line are read.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/format.hpp"
#include "train/train.hpp"

namespace CLI {
class App;
}

namespace couplet {

// The command line is wrong. what() is "what is wrong; what would be right", without the program's name.
struct UsageError : std::runtime_error {
    using std::runtime_error::runtime_error;
};

enum ExitStatus : int {
    kDone = 0,
    kDesignFails = 1,  // done, and the train is locked, or an audit found a wrong coupling
    kBadInput = 2      // nothing was written
};

struct SheetOptions {
    std::string scene;  // empty: the built-in one
    std::string format = "text";
    std::optional<std::string> output;
    std::optional<std::string> setting;
    std::optional<std::string> settings;  // "all"
    std::optional<std::string> out;       // with --settings all: the output member
};

// The options must outlive the parsing. `what_setting_does` is the help on --setting.
//
// The scene, the format, the output and one setting, for verbs to which a table of all settings means nothing.
void add_output_options(CLI::App& verb, SheetOptions& options, const std::string& what_setting_does);
// All of them.
void add_sheet_options(CLI::App& verb, SheetOptions& options, const std::string& what_setting_does);

// All of the following throw UsageError where the text is not what they ask for.
[[nodiscard]] Format format_of(const SheetOptions& options);
[[nodiscard]] bool wants_all_settings(const SheetOptions& options);
// A decimal means the decimal written; `example` shows what would be right.
[[nodiscard]] Ratio number_of(std::string_view option, const std::string& text, std::string_view example);
[[nodiscard]] MemberIndex member_of(const Train& train, const std::string& name);
// Never the frame.
[[nodiscard]] MemberIndex turning_member_of(const Train& train, const std::string& name);

// "did you mean 'drum'?", or the names where they are few, or where_none.
[[nodiscard]] std::string name_suggestion(const std::string& name, const std::vector<std::string>& names,
                                          std::string_view what_they_are, std::string_view where_none);

// An option takes one of a few words, and this is none of them.
[[noreturn]] void refuse_word(std::string_view option, const std::string& word, const std::vector<std::string>& words);

}  // namespace couplet
