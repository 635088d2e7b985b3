#include "cli/export_options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>

#include "cli/options.hpp"
#include "cli/stage_options.hpp"
#include "exact/decimal.hpp"
#include "scene/error.hpp"

namespace couplet {

namespace {

// "0.1s", "5deg", "2turns".
MotionSpan span_of(std::string_view option, const std::string& text) {
    struct Unit {
        std::string_view name;
        Ratio size;
        MotionSpan::Of of;
    };
    const std::array units = {
        Unit{"turns", 1, MotionSpan::Of::driver_turns}, Unit{"turn", 1, MotionSpan::Of::driver_turns},
        Unit{"deg", Ratio(1, 360), MotionSpan::Of::driver_turns}, Unit{"s", 1, MotionSpan::Of::seconds}};
    for (const Unit& unit : units) {
        if (!text.ends_with(unit.name)) continue;
        std::string_view number = std::string_view(text).substr(0, text.size() - unit.name.size());
        while (number.ends_with(' ')) number.remove_suffix(1);
        const std::optional<Ratio> value = parse_ratio(number);
        if (value && value->sign() > 0) return {*value * unit.size, unit.of};
        break;
    }
    throw UsageError(fmt::format("{} {} is no time and no turning above 0; write it like 0.1s, 5deg or 2turns", option,
                                 in_quotes(text)));
}

}  // namespace

void add_export_options(CLI::App& verb, ExportArguments& arguments, const std::string& kinds) {
    const auto add = [&](const char* name, std::optional<std::string>& value, const char* type, std::string help) {
        verb.add_option(name, value, std::move(help))->type_name(type);
    };
    verb.add_option("SCENE", arguments.scene, "scene file (TOML); without one, the built-in harbour capstan");
    add("-o,--output", arguments.output, "FILE", "the file; its ending says what kind: " + kinds);
    verb.add_flag("--force", arguments.force, "replace what is there already");
    add("--setting", arguments.setting, "NAME", "the setting that moves the train; default: the first");
    add("--tolerance", arguments.tolerance, "MM",
        "how far the file may leave the exact shape, in mm; default 0.05 for models to look at, 0.01 for what is "
        "printed, 0.005 for .dxf and .svg");
    add("--clearance", arguments.clearance, "MM",
        ".stl, .3mf: flanks are moved in, and bores that turn widened, by so many mm; default 0");
    add("--member", arguments.member, "NAME", "the member, or frame, that a single .stl holds");
    add("--loop", arguments.loop, "LOOP",
        fmt::format(".glb: strict, every tooth comes back; alike, it looks the same, marks left off; default: strict "
                    "where that takes no more than {} s, else alike",
                    kLongestUsualLoop_s));
    add("--at", arguments.at, "WHERE",
        ".dxf, .svg: place (default), gears where they stand; origin, each round 0, 0 with a tooth on +X");
    add("--units", arguments.units, "UNIT", ".dxf, .svg: mm (default) or inch");
    add("--step", arguments.step, "SPAN", ".csv: from row to row, like 0.1s or, of the driver, 5deg; default 5deg");
    add("--until", arguments.until, "SPAN",
        fmt::format(
            ".csv: where it ends, like 10s, 720deg or 2turns; default: one loop of no more than {} s, else 1turn",
            kLongestUsualLoop_s));
    verb.add_flag("--wrap", arguments.wrap, ".csv: angles from 0 to one turn instead of going on");
    add("--angles", arguments.angles, "UNIT", ".csv: deg (default) or rad");
    verb.add_flag("--exact", arguments.exact, ".csv: beside each joint's angle its exact turns, a fraction");
    add_teeth_options(verb, arguments.teeth);
}

std::vector<std::string_view> particular_options(const ExportArguments& arguments) {
    std::vector<std::string_view> given;
    const auto add = [&](std::string_view name, bool is_given) {
        if (is_given) given.push_back(name);
    };
    add("--tolerance", arguments.tolerance.has_value());
    add("--clearance", arguments.clearance.has_value());
    add("--member", arguments.member.has_value());
    add("--loop", arguments.loop.has_value());
    add("--at", arguments.at.has_value());
    add("--units", arguments.units.has_value());
    add("--step", arguments.step.has_value());
    add("--until", arguments.until.has_value());
    add("--angles", arguments.angles.has_value());
    add("--wrap", arguments.wrap);
    add("--exact", arguments.exact);
    return given;
}

double tolerance_of(const ExportArguments& arguments, double usual_mm) {
    if (!arguments.tolerance) return usual_mm;
    return number_within("--tolerance", *arguments.tolerance, 1e-4, 10.0, "0.01 (mm)");
}

double clearance_of(const ExportArguments& arguments) {
    if (!arguments.clearance) return 0.0;
    return number_within("--clearance", *arguments.clearance, 0.0, 10.0, "0.15 (mm)");
}

LoopWish loop_wish_of(const ExportArguments& arguments) {
    if (!arguments.loop) return LoopWish::usual;
    if (*arguments.loop == "strict") return LoopWish::strict;
    if (*arguments.loop == "alike") return LoopWish::alike;
    refuse_word("--loop", *arguments.loop, {"strict", "alike"});
}

FlatOptions flat_options_of(const ExportArguments& arguments) {
    FlatOptions options;
    options.tolerance_mm = tolerance_of(arguments, options.tolerance_mm);
    const std::string at = arguments.at.value_or("place");
    if (at != "place" && at != "origin") refuse_word("--at", at, {"place", "origin"});
    if (at == "origin") options.at = DrawnAt::origin;
    const std::string unit = arguments.units.value_or("mm");
    if (unit != "mm" && unit != "inch") refuse_word("--units", unit, {"mm", "inch"});
    if (unit == "inch") options.unit = LengthUnit::inch;
    return options;
}

MotionTableOptions table_options_of(const ExportArguments& arguments) {
    MotionTableOptions options;
    if (arguments.step) options.step = span_of("--step", *arguments.step);
    if (arguments.until) options.until = span_of("--until", *arguments.until);
    const std::string unit = arguments.angles.value_or("deg");
    if (unit != "deg" && unit != "rad") refuse_word("--angles", unit, {"deg", "rad"});
    if (unit == "rad") options.unit = AngleUnit::radians;
    options.wrap = arguments.wrap;
    options.exact = arguments.exact;
    return options;
}

}  // namespace couplet
