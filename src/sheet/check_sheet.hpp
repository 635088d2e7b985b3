// Check sheet: every design rule of a train in one table: figure, limit, verdict, source, what would mend it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "place/starting_rotation.hpp"
#include "sheet/format.hpp"
#include "sheet/page.hpp"
#include "tooth/train_teeth.hpp"
#include "train/finding.hpp"

namespace couplet {

// The steps of the job that rules belong to.
enum class CheckStep { size, place, couple, find };

// "size", as the verb of that step is called.
[[nodiscard]] std::string_view step_name(CheckStep step);

struct CheckedRule {
    CheckStep step;
    Finding finding;
};

struct CheckOptions {
    bool match_shifts = false;
    Copies copies = Copies::alike;
    // Nothing: all settings of the train; couplings are then judged in the first, or with nothing held.
    std::optional<Setting> setting;
};

struct TrainChecks {
    Train train;                                      // with the shifts that were matched
    std::optional<std::vector<MatchedShift>> shifts;  // nothing: not asked for, or not possible
    std::vector<Setting> settings;                    // those that were looked at
    std::vector<CheckedRule> rules;                   // by step, each in the order of its own sheet
};

// The train must have no faults. Teeth that cannot be worked out at all are a rule that fails, and no others of size
// and place are looked at then. A rule that size and place both look at is told once, by its worse verdict. Throws as
// place_members and solve do, but no TeethError.
[[nodiscard]] TrainChecks check_train(Train train, const CheckOptions& options);

// False where a rule fails.
[[nodiscard]] bool passes(const TrainChecks& checks);

// All of it but title and cautions, as a part of another page.
void add_checks(Page& page, const TrainChecks& checks);

[[nodiscard]] std::string check_sheet(const TrainChecks& checks, Format format);

}  // namespace couplet
