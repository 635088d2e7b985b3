#include "record/captions.hpp"

#include <map>

#include "support/shipped_scenes.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

struct CaptionedTrain {
    Train train = shipped_train("harbour_capstan");

    [[nodiscard]] Motion motion(std::size_t setting) const { return solve(train, train.settings.at(setting)); }
};

// What each counter shows, by the name behind it.
std::map<std::string, std::string> counters(const Train& train, const Schedule& schedule, const Ratio& frame) {
    CaptionChoice choice;
    choice.turns = true;
    const std::vector<Caption> captions = captions_at(train, schedule, instant_at(schedule, frame), choice);
    std::map<std::string, std::string> shown;
    const std::string before = "turns  ";
    for (std::size_t i = 0; i + 1 < captions.size(); i += 2) {
        EXPECT_EQ(captions[i].at.y, captions[i + 1].at.y) << "on one line";
        EXPECT_LT(captions[i].at.x, captions[i + 1].at.x);
        EXPECT_EQ(captions[i + 1].text.substr(0, before.size()), before);
        shown[captions[i + 1].text.substr(before.size())] = captions[i].text;
    }
    EXPECT_EQ(captions.size(), 2 * shown.size());
    return shown;
}

using Shown = std::map<std::string, std::string>;

// 40/7 turns of the crank in 300 frames; per turn of it the drum makes 7/30 and a planet -7/16 (pacing_test.cpp).
TEST(Captions, CountTheTurnsOfTheExactPose) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 300, {{capstan.motion(0), Ratio(40, 7)}}};
    EXPECT_EQ(counters(capstan.train, schedule, 0), (Shown{{"crank", "0.00"}, {"drum", "0.00"}, {"planet", "0.00"}}));
    // 20/7, 2/3, -5/4.
    EXPECT_EQ(counters(capstan.train, schedule, 150),
              (Shown{{"crank", "2.86"}, {"drum", "0.67"}, {"planet", "-1.25"}}));
    // 40/7, 4/3, -5/2: they count on, though the parts are back.
    EXPECT_EQ(counters(capstan.train, schedule, 300),
              (Shown{{"crank", "5.71"}, {"drum", "1.33"}, {"planet", "-2.50"}}));
}

// The second leg has the drum held: a planet -21/24, the ring -21/69 per turn of the crank.
TEST(Captions, CountOnFromLegToLeg) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 40, {{capstan.motion(0), Ratio(10, 7)}, {capstan.motion(2), 1}}};
    // The first leg is done: 10/7, 1/3, -5/8; the ring still stands, and is there.
    EXPECT_EQ(counters(capstan.train, schedule, 20),
              (Shown{{"crank", "1.43"}, {"drum", "0.33"}, {"planet", "-0.62"}, {"ring", "0.00"}}));
    // In the middle of the second: 10/7 + 1/2, 1/3, -5/8 - 7/16, -7/46.
    EXPECT_EQ(counters(capstan.train, schedule, 30),
              (Shown{{"crank", "1.93"}, {"drum", "0.33"}, {"planet", "-1.06"}, {"ring", "-0.15"}}));
    // 17/7, 1/3, -5/8 - 7/8, -7/23.
    EXPECT_EQ(counters(capstan.train, schedule, 40),
              (Shown{{"crank", "2.43"}, {"drum", "0.33"}, {"planet", "-1.50"}, {"ring", "-0.30"}}));
}

TEST(Captions, CountThroughALegThatStands) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 20, {{capstan.motion(0), 3}, {resting_motion(), 0}}};
    EXPECT_EQ(counters(capstan.train, schedule, 20).at("crank"), "3.00");
}

TEST(Captions, NeverShowMinusZero) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 10, {{capstan.motion(0), Ratio(-1, 50)}}};
    // -1/500 of a turn.
    EXPECT_EQ(counters(capstan.train, schedule, 1).at("crank"), "0.00");
    EXPECT_EQ(counters(capstan.train, schedule, 10).at("crank"), "-0.02");
}

TEST(Captions, CountTheDriverFirst) {
    const CaptionedTrain capstan;
    CaptionChoice choice;
    choice.turns = true;
    // "crank held" drives the ring, the last of the members.
    const Schedule schedule{30, 10, {{capstan.motion(3), 1}}};
    EXPECT_EQ(captions_at(capstan.train, schedule, instant_at(schedule, 0), choice).at(1).text, "turns  ring");
}

TEST(Captions, SayTitleAndRatio) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 10, {{capstan.motion(0), 1}}};
    CaptionChoice choice;
    choice.title = choice.ratio = true;
    const std::vector<Caption> captions = captions_at(capstan.train, schedule, instant_at(schedule, 3), choice);
    ASSERT_EQ(captions.size(), 2U);
    EXPECT_EQ(captions[0].text, "Harbour capstan");
    EXPECT_EQ(captions[1].text, "drum: 7/30 turn per turn of crank");
    EXPECT_GT(captions[1].at.y, captions[0].at.y + captions[0].height) << "below, not on it";
}

TEST(Captions, SayTheRatioOfTheLegThatIsShown) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 10, {{capstan.motion(0), 1}, {capstan.motion(2), 1}}};
    CaptionChoice choice;
    choice.ratio = true;
    EXPECT_EQ(captions_at(capstan.train, schedule, instant_at(schedule, 2), choice).at(0).text,
              "drum: 7/30 turn per turn of crank");
    EXPECT_EQ(captions_at(capstan.train, schedule, instant_at(schedule, 7), choice).at(0).text,
              "ring: -7/23 turn per turn of crank");
}

TEST(Captions, SayNothingUnasked) {
    const CaptionedTrain capstan;
    const Schedule schedule{30, 10, {{capstan.motion(0), 1}}};
    EXPECT_TRUE(captions_at(capstan.train, schedule, instant_at(schedule, 5), {}).empty());
}

TEST(Captions, StandWithinThePicture) {
    for (const std::string& name : shipped_names()) {
        const Train train = shipped_train(name);
        if (train.settings.empty()) continue;
        const Schedule schedule{30, 10, {{solve(train, train.settings[0]), 1}}};
        CaptionChoice choice;
        choice.title = choice.ratio = choice.turns = true;
        for (const Caption& caption : captions_at(train, schedule, instant_at(schedule, 5), choice)) {
            EXPECT_GE(caption.at.x, 0.0F) << name;
            EXPECT_GE(caption.at.y, 0.0F) << name;
            EXPECT_LE(caption.at.y + caption.height, 1.0F) << name;
        }
    }
}

std::string output_in(const Train& train, std::size_t setting) {
    const MemberIndex output = output_of(train, solve(train, train.settings.at(setting)));
    return output == kFrame ? "frame" : train[output].name;
}

TEST(Output, IsWhatTheTrainIsThereToTurn) {
    const Train capstan = shipped_train("harbour_capstan");
    EXPECT_EQ(output_in(capstan, 0), "drum");
    EXPECT_EQ(output_in(capstan, 1), "crank") << "the drum drives";
    EXPECT_EQ(output_in(capstan, 2), "ring") << "the drum is held";
    EXPECT_EQ(output_in(capstan, 3), "drum");
    EXPECT_EQ(output_in(shipped_train("tide_dial"), 0), "tide hand");
    EXPECT_EQ(output_in(shipped_train("signal_arm"), 0), "arm");
    // All speeds of the gearbox are the drum's, as its notes say, though the rear spider carries planets too.
    for (std::size_t setting = 0; setting < 4; ++setting)
        EXPECT_EQ(output_in(shipped_train("slipway_gearbox"), setting), "drum") << setting;
}

TEST(Output, IsTheLastWheelOfAChain) {
    const SolvedTrain chain = solved("a 10 x b 20; b 20 x c 30", "drive a 1");
    EXPECT_EQ(output_of(chain.train, chain.motion), member_named(chain.train, "c"));
}

TEST(Output, IsNothingWhereNothingElseTurns) {
    const Train train = shipped_train("stuck_sluice");
    EXPECT_EQ(output_of(train, resting_motion()), kFrame);
}

}  // namespace
}  // namespace couplet
