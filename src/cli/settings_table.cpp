#include "cli/settings_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/output.hpp"
#include "motion/speeds.hpp"
#include "sheet/speeds_sheet.hpp"

namespace couplet {

int print_settings(const SceneInput& scene, const SheetOptions& options) {
    const Train& train = scene.train;
    const Format format = format_of(options);
    if (train.settings.empty())
        throw UsageError(fmt::format("{} has no setting; add a [[setting]] for each speed", scene.file));
    const std::optional<MemberIndex> output =
        options.out ? turning_member_of(train, *options.out) : common_output(train);
    if (!output) throw UsageError("no single member is the output of every setting; name one with --out NAME");
    const std::vector<SettingRow> rows = setting_rows(train, *output);
    deliver(settings_sheet(train, *output, rows, format), options);
    const bool fails = std::ranges::any_of(rows, [](const SettingRow& row) {
        return row.motion.outcome == Outcome::locked || row.motion.outcome == Outcome::conflicting;
    });
    return fails ? kDesignFails : kDone;
}

}  // namespace couplet
