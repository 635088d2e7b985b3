#include "cli/given_setting.hpp"

#include <gtest/gtest.h>

#include "cli/options.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

std::string refusal(const Train& train, const GivenSetting& given) {
    try {
        (void)setting_of(train, given);
    } catch (const UsageError& error) {
        return error.what();
    }
    return "accepted";
}

TEST(GivenSettingOnTheCommandLine, HoldsTiesAndDrives) {
    const Train train = train_from("a 20 x b 30; b 40 x c 50");
    const Setting setting = setting_of(train, {{"c"}, {"a=b"}, {"a=1/3", "b"}});
    EXPECT_EQ(setting, setting_from(train, "hold c; tie a=b; drive a 1/3, b 1"));
    EXPECT_FALSE(GivenSetting().is_given());
    EXPECT_TRUE((GivenSetting{{}, {}, {"a"}}.is_given()));
}

TEST(GivenSettingOnTheCommandLine, TakesNamesThatHoldAnEqualsSign) {
    Train train = train_from("a 20 x b 30");
    train.members[0].name = "x=1";
    EXPECT_EQ(setting_of(train, {{}, {}, {"x=1"}}).drive.front(), (Drive{{0}, 1}));
    EXPECT_EQ(setting_of(train, {{}, {}, {"x=1=-2"}}).drive.front(), (Drive{{0}, -2}));
    EXPECT_EQ(setting_of(train, {{}, {"x=1=b"}, {}}).tie.front(), (std::pair<MemberIndex, MemberIndex>{{0}, {1}}));
}

TEST(GivenSettingOnTheCommandLine, RefusesWhatASceneWouldRefuse) {
    const Train train = train_from("a 20 x b 30");
    EXPECT_NE(refusal(train, {{"a", "a"}, {}, {}}), "accepted");
    EXPECT_NE(refusal(train, {{}, {"a=a"}, {}}), "accepted");
    EXPECT_NE(refusal(train, {{}, {}, {"a", "a=2"}}), "accepted");
    EXPECT_EQ(refusal(train, {{"frame"}, {}, {}}), "the frame never turns; name a member of the train");
    EXPECT_EQ(refusal(train, {{}, {"a"}, {}}), "--tie 'a' names one member; write two, A=B");
    EXPECT_EQ(refusal(train, {{}, {"a=bb"}, {}}), "unknown member 'bb'; did you mean 'b'?");
    EXPECT_EQ(refusal(train, {{}, {}, {"a=fast"}}),
              "--drive a= 'fast' is not a number; write it like 30 or -4.5 (rpm)");
}

}  // namespace
}  // namespace couplet
