// Export options: what `couplet export` takes, and what its kinds of files make of it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/teeth_input.hpp"
#include "export/flat_drawing.hpp"
#include "export/loop_animation.hpp"
#include "export/motion_table.hpp"

namespace couplet {

struct ExportArguments {
    std::string scene;
    std::optional<std::string> output;
    std::optional<std::string> setting;
    std::optional<std::string> tolerance;
    std::optional<std::string> clearance;
    std::optional<std::string> member;
    std::optional<std::string> loop;
    std::optional<std::string> at;
    std::optional<std::string> units;
    std::optional<std::string> step;
    std::optional<std::string> until;
    std::optional<std::string> angles;
    bool wrap = false;
    bool exact = false;
    bool force = false;
    TeethOptions teeth;
};

// The arguments must outlive the parsing. `kinds` are the endings and what they mean.
void add_export_options(CLI::App& verb, ExportArguments& arguments, const std::string& kinds);

// Those of the options that only some kinds take, as they were given: "--units".
[[nodiscard]] std::vector<std::string_view> particular_options(const ExportArguments& arguments);

// All of the following throw UsageError where the text is not what they ask for.
[[nodiscard]] double tolerance_of(const ExportArguments& arguments, double usual_mm);
[[nodiscard]] double clearance_of(const ExportArguments& arguments);
[[nodiscard]] LoopWish loop_wish_of(const ExportArguments& arguments);
[[nodiscard]] FlatOptions flat_options_of(const ExportArguments& arguments);
[[nodiscard]] MotionTableOptions table_options_of(const ExportArguments& arguments);

}  // namespace couplet
