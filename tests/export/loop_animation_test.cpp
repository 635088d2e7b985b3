#include "export/loop_animation.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "exact/decimal.hpp"
#include "export/exported.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

// 1/240, 7/30, 161/240 and 1: all whole after 240 turns, at 30 rpm 480 s.
TEST(LoopAnimation, TakesTheStrictLoopAtTheDriversSpeed) {
    const LoopAnimation animation = loop_animation_of(exported("harbour_capstan"), LoopWish::strict).value();
    EXPECT_EQ(animation.end, LoopEnd::every_tooth_back);
    EXPECT_EQ(animation.driver_turns, Ratio(240));
    EXPECT_EQ(animation.seconds, Ratio(480));
}

// Nobody waits 480 s: after a third of a drum's turn, 10/7 turns of the crank, the planets stand where others stood.
TEST(LoopAnimation, TakesTheLoopThatLooksAlikeWhereEveryToothTakesLong) {
    const ExportModel model = exported("harbour_capstan");
    for (const LoopWish wish : {LoopWish::usual, LoopWish::alike}) {
        const LoopAnimation animation = loop_animation_of(model, wish).value();
        EXPECT_EQ(animation.end, LoopEnd::looks_alike);
        EXPECT_EQ(animation.driver_turns, Ratio(10, 7));
    }
}

// The same train at 480 rpm: every tooth is back after 30 s.
TEST(LoopAnimation, TakesTheStrictLoopWhereItIsShort) {
    Train train = shipped_train("harbour_capstan");
    train.settings.front().drive.front().rpm = 480;
    EXPECT_EQ(loop_animation_of(export_model_of(train, train.settings.front())).value().driver_turns, Ratio(240));
    train.settings.front().drive.front().rpm = 479;
    const ExportModel slower = export_model_of(train, train.settings.front());
    EXPECT_EQ(loop_animation_of(slower).value().end, LoopEnd::looks_alike);
    EXPECT_EQ(loop_animation_of(slower, LoopWish::strict).value().end, LoopEnd::every_tooth_back);
}

// tide_dial's strict loop is beyond kMostKeys.
TEST(LoopAnimation, RefusesAStrictLoopThatCannotBeWritten) {
    EXPECT_THROW((void)loop_animation_of(exported("tide_dial"), LoopWish::strict), ExportRefused);
}

TEST(LoopAnimation, TurnsTheWayTheDriverIsDriven) {
    const ExportModel model = exported("harbour_capstan", 1);  // lowering: the drum at -3.5 rpm
    const LoopAnimation animation = loop_animation_of(model).value();
    EXPECT_LT(animation.driver_turns, Ratio(0));
    EXPECT_EQ(animation.seconds, animation.driver_turns / Ratio(-7, 2) * Ratio(60));
}

TEST(LoopAnimation, IsNoneWhereNothingTurns) {
    EXPECT_FALSE(loop_animation_of(exported("stuck_sluice")));
}

// So that the shorter way from key to key is the right one, with room to spare.
TEST(LoopAnimation, HasKeysNoMoreThanAnEighthOfATurnApart) {
    for (const std::string& name : shipped_names()) {
        const ExportModel model = exported(name);
        const std::optional<LoopAnimation> animation = loop_animation_of(model);
        if (!animation) continue;
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m) {
            if (animation->steps[static_cast<std::size_t>(m)] == 0) continue;
            const std::vector<JointKey> keys = keys_of(model, *animation, {m});
            for (std::size_t k = 1; k < keys.size(); ++k) {
                ASSERT_LT(keys[k - 1].seconds, keys[k].seconds) << name;
                const Ratio apart = (keys[k].phase_turns - keys[k - 1].phase_turns).fraction();
                // A key's time is a float, so that steps differ in their last bits.
                ASSERT_LT(std::min(apart, Ratio(1) - apart).to_double(), 0.125 + 1e-3) << name << " key " << k;
            }
        }
    }
}

TEST(LoopAnimation, EndsWhereItBegan) {
    const ExportModel model = exported("harbour_capstan");
    const LoopAnimation animation = loop_animation_of(model, LoopWish::strict).value();
    for (std::int32_t m = 0; m < 3; ++m) EXPECT_TRUE(keys_of(model, animation, {m}).back().phase_turns.is_whole());
}

// The phases are the exact ones at the keys' own floats.
TEST(LoopAnimation, HasTheExactPhaseAtEachKeysInstant) {
    const ExportModel model = exported("signal_arm");
    const LoopAnimation animation = loop_animation_of(model).value();
    const std::vector<JointKey> keys = keys_of(model, animation, {0});
    const std::size_t k = keys.size() / 3;
    // A float below 2^24 ms has its bits within 2^-30 s.
    const Ratio seconds(static_cast<std::int64_t>(std::ldexp(static_cast<double>(keys[k].seconds), 30)),
                        std::int64_t{1} << 30);
    const Ratio turns = animation.driver_turns * seconds / animation.seconds;
    EXPECT_EQ(keys[k].phase_turns.fraction(), joint_phases_turns(model.motion, turns)[0]);
}

// Ratios of hundreds of digits: no loop that can be written, but an animation all the same, with keys within bounds.
TEST(LoopAnimation, EndsOpenWhereNoLoopHasFewEnoughKeys) {
    FamilyTrain family = family_a(61);
    family.train.teeth.module_mm = Ratio(1);
    const ExportModel model = export_model_of(family.train, family.setting);
    const LoopAnimation animation = loop_animation_of(model).value();
    EXPECT_EQ(animation.end, LoopEnd::open);
    std::int64_t keys = 0;
    for (const int steps : animation.steps) keys += steps == 0 ? 0 : steps + 1;
    EXPECT_GT(keys, 0);
    EXPECT_LE(keys, kMostKeys);
}

void expect_rising_times(const ExportModel& model) {
    const LoopAnimation animation = loop_animation_of(model).value();
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m) {
        if (animation.steps[static_cast<std::size_t>(m)] == 0) continue;
        const std::vector<JointKey> keys = keys_of(model, animation, {m});
        for (std::size_t k = 1; k < keys.size(); ++k) ASSERT_LT(keys[k - 1].seconds, keys[k].seconds);
        ASSERT_TRUE(std::isfinite(keys.back().seconds));
    }
}

// A chain of five-digit counts: within the keys that there are, the driver hardly moves at all.
TEST(LoopAnimation, HasTimesThatFloatsCanTellWhereTheDriverHardlyMoves) {
    FamilyTrain family = compound_chain(30);
    family.train.teeth.module_mm = Ratio(1);
    for (Gear& gear : family.train.gears) gear.teeth = 10 + gear.teeth % 90;
    family.setting.drive.front().member = {static_cast<std::int32_t>(family.train.members.size()) - 1};
    expect_rising_times(export_model_of(family.train, family.setting));
}

TEST(LoopAnimation, HasTimesThatFloatsCanTellAtAnySpeed) {
    for (const int exponent : {-100, -4, 9, 60}) {
        Train train = shipped_train("harbour_capstan");
        train.settings.front().drive.front().rpm = -power_of_ten(exponent);
        const ExportModel model = export_model_of(train, train.settings.front());
        expect_rising_times(model);
        EXPECT_EQ(loop_animation_of(model, LoopWish::strict).value().driver_turns, Ratio(-240));
    }
}

}  // namespace
}  // namespace couplet
