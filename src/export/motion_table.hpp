// Motion table: the angle of every joint, row by row, as CSV for spreadsheets and simulations.
//
// Columns: time_s; the angle of the driver against the frame; then the angle of each joint of couple/joints.hpp, and
// where it is asked for its exact turns, a fraction, beside it. All are 0 in the start pose, and the drivers run at the
// speeds of the setting. Angles have 9 decimals in degrees and 11 in radians, times 9, each right to the last digit
// (steady_decimals.hpp; in radians by a pi of 60 decimals). Where the drivers have no speed, time_s is empty.
//
// Source: RFC 4180, as csv_table of sheet/table.hpp writes it.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "export/export_model.hpp"

namespace couplet {

// How far the train moves: seconds, or turns of the driver, the way that it is driven.
struct MotionSpan {
    enum class Of { seconds, driver_turns };
    Ratio amount;  // above 0
    Of of = Of::driver_turns;
};

enum class AngleUnit { degrees, radians };

struct MotionTableOptions {
    std::optional<MotionSpan> step = std::nullopt;  // none: 5 degrees of the driver
    std::optional<MotionSpan> until =
        std::nullopt;   // none: a loop of kLongestUsualLoop_s at most, else a turn of the driver
    bool wrap = false;  // angles from 0 to one turn
    AngleUnit unit = AngleUnit::degrees;
    bool exact = false;
};

inline constexpr std::int64_t kMostTableRows = 1'000'000'000;

struct MotionTable {
    struct Column {
        std::string heading;
        Ratio turns_per_row;
        bool is_exact;  // in turns, as a fraction
    };
    std::optional<Ratio> seconds_per_row;
    std::vector<Column> columns;  // behind the time
    std::int64_t rows = 0;        // as many whole steps as there are until the end, and the start
    bool wrap = false;
    AngleUnit unit = AngleUnit::degrees;
};

// ExportRefused where the train does not move, where a time is asked for and the drivers have no speed, or where there
// would be more than kMostTableRows rows. Of the model it needs the train and its motion alone.
[[nodiscard]] MotionTable motion_table_of(const ExportModel& model, const MotionTableOptions& options);

// The table in pieces of about a mebibyte, one after the other.
void write_motion_table(const MotionTable& table, const std::function<void(std::string_view)>& take);

}  // namespace couplet
