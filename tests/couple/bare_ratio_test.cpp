#include "couple/bare_ratio.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

TEST(BareRatio, IsTheProductOfToothCountsAlongTheMeshes) {
    const Train train = train_from("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)");
    const auto turns = bare_turns_per_turn(train, member_named(train, "crank"));
    EXPECT_EQ(turns[member_named(train, "planet").position()], Ratio(-21, 24));
    EXPECT_EQ(turns[member_named(train, "ring").position()], Ratio(-21, 69));
    EXPECT_FALSE(turns[member_named(train, "drum").position()]);
}

TEST(BareRatio, StartsFromAnyMember) {
    const Train train = train_from("a 10 x b 20; b 30 x c 15");
    const auto turns = bare_turns_per_turn(train, member_named(train, "c"));
    EXPECT_EQ(turns[member_named(train, "a").position()], Ratio(1));
    const auto from_frame = bare_turns_per_turn(train, kFrame);
    EXPECT_FALSE(from_frame[0]);
}

}  // namespace
}  // namespace couplet
