#include "export/motion_table.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "couple/joints.hpp"
#include "exact/decimal.hpp"
#include "export/exported.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

using Rows = std::vector<std::vector<std::string>>;

std::string csv(const ExportModel& model, const MotionTableOptions& options) {
    std::string text;
    write_motion_table(motion_table_of(model, options), [&](std::string_view piece) { text += piece; });
    return text;
}

// Every line must end as RFC 4180 has it. Headings here need no quotes.
Rows rows_of(const std::string& text) {
    Rows rows;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        EXPECT_TRUE(line.ends_with('\r'));
        line.pop_back();
        std::vector<std::string>& row = rows.emplace_back();
        std::istringstream cells(line);
        for (std::string cell; std::getline(cells, cell, ',');) row.push_back(cell);
        if (line.ends_with(',')) row.emplace_back();
    }
    return rows;
}

MotionSpan seconds(const Ratio& amount) {
    return {amount, MotionSpan::Of::seconds};
}
MotionSpan degrees(const Ratio& amount) {
    return {amount / Ratio(360), MotionSpan::Of::driver_turns};
}

// The example of the design's section 5: per 360 degrees of the crank the drum makes 84, the planet on it -241.5; at 30
// rpm a turn takes 2 s.
TEST(MotionTable, HasTheAngleOfEveryJoint) {
    const Rows rows = rows_of(csv(exported("harbour_capstan"), {.step = degrees(180), .until = degrees(360)}));
    ASSERT_EQ(rows.size(), 4U);
    EXPECT_EQ(rows[0], (std::vector<std::string>{"time_s", "crank (deg)", "crank on frame (deg)", "drum on frame (deg)",
                                                 "planet on drum (deg)", "ring on frame (deg)"}));
    EXPECT_EQ(rows[1], (std::vector<std::string>{"0", "0", "0", "0", "0", "0"}));
    EXPECT_EQ(rows[2], (std::vector<std::string>{"1", "180", "180", "42", "-120.75", "0"}));
    EXPECT_EQ(rows[3], (std::vector<std::string>{"2", "360", "360", "84", "-241.5", "0"}));
}

TEST(MotionTable, StepsByTimeToo) {
    const Rows rows = rows_of(csv(exported("harbour_capstan"), {.step = seconds(Ratio(1, 10)), .until = seconds(10)}));
    ASSERT_EQ(rows.size(), 102U);
    EXPECT_EQ(rows[2][0], "0.1");
    EXPECT_EQ(rows[2][1], "18");  // 30 rpm for 0.1 s
    EXPECT_EQ(rows[101][0], "10");
    EXPECT_EQ(rows[101][3], "420");
}

TEST(MotionTable, TurnsTheWayTheDriverIsDriven) {
    const Rows rows = rows_of(csv(exported("harbour_capstan", 1), {.step = degrees(90), .until = degrees(90)}));
    EXPECT_EQ(rows[0][1], "drum (deg)");
    EXPECT_EQ(rows[2][1], "-90");
    EXPECT_EQ(rows[2][0], decimal_text(Ratio(1, 4) / Ratio(7, 2) * Ratio(60), 9));  // at -3.5 rpm
}

// Every cell of every scene, against the exact motion.
TEST(MotionTable, IsTheExactRoundingOfTheExactMotion) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        if (!model.moves()) continue;
        const Ratio step(1, 7);
        const Rows rows = rows_of(csv(model, {.step = MotionSpan{step}, .until = MotionSpan{100}, .exact = true}));
        ASSERT_EQ(rows.size(), 702U) << name;
        const std::vector<Joint> joints = joints_of(model.train);
        const Ratio sense = model.motion.drivers[*reference_driver(model.motion)].rpm.sign();
        for (std::size_t j = 0; j < joints.size(); ++j) {
            const Ratio rate = turns_per_driver_turn(
                                   model.motion, rate_on(model.train, model.motion, joints[j].turns, joints[j].against))
                                   .value() *
                               (joints[j].flipped ? -sense : sense);
            for (std::size_t row = 0; row < 701; row += 1) {
                const Ratio turns = rate * step * Ratio(static_cast<std::int64_t>(row));
                ASSERT_EQ(rows[row + 1][2 + 2 * j], decimal_text(turns * Ratio(360), 9)) << name << " row " << row;
                ASSERT_EQ(rows[row + 1][3 + 2 * j], turns.to_string()) << name << " row " << row;
            }
        }
    }
}

TEST(MotionTable, WrapsIntoOneTurn) {
    const ExportModel model = exported("harbour_capstan");
    const Rows rows = rows_of(csv(model, {.step = degrees(7), .until = MotionSpan{300}, .wrap = true, .exact = true}));
    for (std::size_t row = 1; row < rows.size(); ++row) {
        const Ratio turns = Ratio(-161, 240) * Ratio(7, 360) * Ratio(static_cast<std::int64_t>(row) - 1);
        ASSERT_EQ(rows[row][6], decimal_text(turns.fraction() * Ratio(360), 9)) << row;
        ASSERT_EQ(rows[row][7], turns.fraction().to_string()) << row;
    }
}

// Against long double, whose 64 bits tell 11 decimals of some turns rightly but where they are in doubt themselves.
TEST(MotionTable, IsInRadiansWhereThatIsAskedFor) {
    const ExportModel model = exported("harbour_capstan");
    for (const bool wrap : {false, true}) {
        const Rows rows = rows_of(
            csv(model, {.step = degrees(5), .until = MotionSpan{20}, .wrap = wrap, .unit = AngleUnit::radians}));
        EXPECT_EQ(rows[0][4], "planet on drum (rad)");
        for (std::size_t row = 1; row < rows.size(); ++row) {
            Ratio turns = Ratio(-161, 240) * Ratio(5, 360) * Ratio(static_cast<std::int64_t>(row) - 1);
            if (wrap) turns = turns.fraction();
            const long double exact = 2.0L * std::numbers::pi_v<long double> *
                                      static_cast<long double>(turns.small_numerator()) /
                                      static_cast<long double>(turns.small_denominator());
            ASSERT_NEAR(static_cast<double>(std::stold(rows[row][4]) - exact), 0.0, 0.5001e-11) << row;
        }
    }
}

// The capstan's loop takes 480 s: one turn of the crank instead. Two wheels of 20 teeth are back after one turn.
TEST(MotionTable, TellsALoopWhereItIsShort) {
    EXPECT_EQ(motion_table_of(exported("harbour_capstan"), {}).rows, 73);
    FamilyTrain wheels = idler_chain(2);
    for (Gear& gear : wheels.train.gears) gear.teeth = 20;
    wheels.train.gears.front().teeth = 10;
    wheels.setting.drive.front().rpm = 30;
    EXPECT_EQ(motion_table_of(moving_model_of(wheels.train, wheels.setting), {}).rows, 2 * 72 + 1);
}

TEST(MotionTable, NeedsNoSizes) {
    Train train = shipped_train("harbour_capstan");
    train.teeth.module_mm.reset();
    EXPECT_TRUE(csv(moving_model_of(train, train.settings.front()), {}) == csv(exported("harbour_capstan"), {}));
}

// Ratios of hundreds of digits.
TEST(MotionTable, IsExactHoweverLongTheRatios) {
    const FamilyTrain family = family_a(61);
    const ExportModel model = moving_model_of(family.train, family.setting);
    const MotionTable table = motion_table_of(model, {.step = degrees(5), .until = MotionSpan{2}, .exact = true});
    const Rows rows = rows_of(csv(model, {.step = degrees(5), .until = MotionSpan{2}, .exact = true}));
    std::size_t long_ones = 0;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        const MotionTable::Column& column = table.columns[c];
        if (!column.turns_per_row.is_small()) ++long_ones;
        for (std::size_t row = 1; row < rows.size(); row += 13) {
            const Ratio turns = column.turns_per_row * Ratio(static_cast<std::int64_t>(row) - 1);
            ASSERT_EQ(rows[row][c + 1], column.is_exact ? turns.to_string() : decimal_text(turns * Ratio(360), 9));
        }
    }
    EXPECT_GT(long_ones, 4U);
}

// RFC 4180, 2.6 and 2.7.
TEST(MotionTable, QuotesNamesThatNeedIt) {
    Train train = shipped_train("harbour_capstan");
    train.members[0].name = "crank, \"left\"";
    EXPECT_TRUE(csv(moving_model_of(train, train.settings.front()), {})
                    .starts_with("time_s,\"crank, \"\"left\"\" (deg)\",\"crank, \"\"left\"\" on frame (deg)\",drum"));
}

TEST(MotionTable, ComesInPieces) {
    const MotionTable table =
        motion_table_of(exported("harbour_capstan"), {.step = degrees(Ratio(1, 100)), .until = MotionSpan{5}});
    std::size_t pieces = 0;
    std::size_t largest = 0;
    write_motion_table(table, [&](std::string_view piece) {
        ++pieces;
        largest = std::max(largest, piece.size());
    });
    EXPECT_GT(pieces, 5U);
    EXPECT_LT(largest, std::size_t{2} << 20U);
}

std::string refusal(const ExportModel& model, const MotionTableOptions& options) {
    try {
        (void)motion_table_of(model, options);
    } catch (const ExportRefused& refused) {
        return refused.what();
    }
    return "not refused";
}

TEST(MotionTable, RefusesWhatDoesNotMove) {
    EXPECT_EQ(refusal(exported("stuck_sluice"), {}),
              "the setting 'both brakes on' is locked, and a table of motion needs one that moves; choose another one "
              "with --setting");
    EXPECT_EQ(refusal(moving_model_of(shipped_train("harbour_capstan"), std::nullopt), {}),
              "the scene has no setting, so that nothing moves; add a [[setting]] that drives a member");
}

TEST(MotionTable, RefusesATimeWhereTheDriverHasNoSpeed) {
    Train train = shipped_train("harbour_capstan");
    train.settings.front().drive.front().rpm = 0;
    const ExportModel model = moving_model_of(train, train.settings.front());
    EXPECT_EQ(
        refusal(model, {.step = seconds(1)}),
        "'crank' is driven at no speed, so that there is no time; give it a speed in the scene, or say how far it "
        "turns, like 360deg");
    const Rows rows = rows_of(csv(model, {.step = degrees(180)}));
    EXPECT_EQ(rows[3], (std::vector<std::string>{"", "360", "360", "84", "-241.5", "0"}));
}

TEST(MotionTable, RefusesMoreRowsThanAnybodyCanRead) {
    EXPECT_EQ(refusal(exported("harbour_capstan"), {.step = seconds(power_of_ten(-30))}),
              "the table would have more than 1000000000 rows; take a larger --step, or an earlier --until");
}

}  // namespace
}  // namespace couplet
