#include "app/draft.hpp"

#include <gtest/gtest.h>

#include <array>
#include <stdexcept>
#include <string>

#include "motion/motion.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

// A simple set with the settings given, each "hold ...; drive ...".
Draft simple_draft(const std::vector<std::string>& settings = {"hold ring; drive sun 30"}) {
    Train train = train_from("sun 24 x planet 18; planet 18 in ring 60 (planet on carrier)");
    for (const std::string& text : settings) {
        train.settings.push_back(setting_from(train, text));
        train.settings.back().name = "hauling";
        if (train.settings.size() > 1) train.settings.back().name += " " + std::to_string(train.settings.size());
    }
    return draft_of(std::move(train));
}

MemberIndex of(const Draft& draft, const std::string& member) {
    return member_named(draft.train, member);
}

// "hold ring; tie a=b; drive sun 30": what the draft runs by, as train_notation.hpp writes it.
std::string running(const Draft& draft) {
    const Setting setting = running_setting(draft);
    std::string text;
    const auto add = [&](const std::string& part) { text += (text.empty() ? "" : "; ") + part; };
    std::string list;
    for (const MemberIndex held : setting.hold) list += (list.empty() ? "" : ", ") + name_of(draft.train, held);
    if (!list.empty()) add("hold " + list);
    for (const auto& [first, second] : setting.tie)
        add("tie " + name_of(draft.train, first) + "=" + name_of(draft.train, second));
    list.clear();
    for (const Drive& drive : setting.drive)
        list += (list.empty() ? "" : ", ") + name_of(draft.train, drive.member) + " " + drive.rpm.to_string();
    if (!list.empty()) add("drive " + list);
    return text;
}

Outcome outcome_of(const Draft& draft) {
    return solve(draft.train, running_setting(draft)).outcome;
}

TEST(Draft, BeginsInTheFirstSettingOfTheTrain) {
    const Draft draft = simple_draft({"hold ring; drive sun 30", "hold sun; drive ring 12"});
    EXPECT_EQ(draft.chosen, SettingIndex{0});
    EXPECT_FALSE(draft.trial);
    EXPECT_EQ(running(draft), "hold ring; drive sun 30");
    EXPECT_EQ(running_setting(draft).name, "hauling");
}

TEST(Draft, RunsByNothingWhereTheTrainHasNoSetting) {
    const Draft draft = simple_draft({});
    EXPECT_EQ(draft.chosen, SettingIndex{-1});
    EXPECT_EQ(running(draft), "");
}

TEST(DraftPins, MakeATrialAndLeaveTheTrainAlone) {
    const Draft draft = simple_draft();
    const Draft tried = pinned(draft, of(draft, "planet"));
    EXPECT_EQ(running(tried), "hold ring, planet; drive sun 30");
    EXPECT_EQ(tried.train, draft.train);
    EXPECT_EQ(tried.chosen, draft.chosen);
    EXPECT_EQ(tried.trial->name, "hauling");
    // Two holds beside a driver: more than the one freedom of a simple set with its ring held.
    EXPECT_EQ(outcome_of(tried), Outcome::locked);
}

TEST(DraftPins, AreNoTrialOnceTakenBackInWhateverOrder) {
    const Draft draft = simple_draft({"hold ring, planet; drive sun 30"});
    Draft tried = unpinned(draft, of(draft, "ring"));
    EXPECT_EQ(running(tried), "hold planet; drive sun 30");
    tried = pinned(tried, of(draft, "ring"));
    EXPECT_FALSE(tried.trial);
    EXPECT_EQ(tried, draft);
}

TEST(DraftPins, PutTheOnlyDriverElsewhere) {
    // The sun held instead, the carrier is the first member on the frame that could drive: in the order of the
    // notation, members are sun, planet, ring, carrier.
    const Draft draft = simple_draft({"hold carrier; drive sun 30"});
    const Draft loose = unpinned(draft, of(draft, "carrier"));
    const Draft tried = pinned(loose, of(draft, "sun"));
    EXPECT_EQ(running(tried), "hold sun; drive ring 30");
    EXPECT_EQ(outcome_of(tried), Outcome::moves);
    // With both central members held nothing is left to drive.
    EXPECT_EQ(running(pinned(draft, of(draft, "sun"))), "hold carrier, sun");
}

TEST(DraftPins, LetAPlanetDriveWhereNothingOnTheFrameCould) {
    // With sun and carrier held just the pair that rides beside the planet is free.
    Train train =
        train_from("sun 24 x planet 18; roller 12 x wheel 20 (planet on carrier, roller on carrier, wheel on carrier)");
    train.settings.push_back(setting_from(train, "hold carrier; drive sun 6"));
    const Draft draft = draft_of(std::move(train));
    EXPECT_EQ(running(pinned(draft, of(draft, "sun"))), "hold carrier, sun; drive roller 6");
}

TEST(DraftPins, LeaveTheOtherDriversWhereOneIsPinned) {
    const Draft draft = simple_draft({"drive sun 30, ring 10"});
    const Draft tried = pinned(draft, of(draft, "sun"));
    EXPECT_EQ(running(tried), "hold sun; drive ring 10");
    EXPECT_EQ(outcome_of(tried), Outcome::moves);
}

TEST(DraftPins, DoNothingTwice) {
    const Draft draft = simple_draft();
    EXPECT_EQ(pinned(draft, of(draft, "ring")), draft);
    EXPECT_EQ(unpinned(draft, of(draft, "sun")), draft);
}

TEST(DraftDrivers, ChangePlacesWhereTheTrainStillMoves) {
    const Draft draft = simple_draft();
    const Draft tried = driven_by(draft, of(draft, "carrier"));
    EXPECT_EQ(running(tried), "hold ring; drive carrier 30");
    EXPECT_EQ(driven_by(tried, of(draft, "sun")), draft);
    EXPECT_EQ(driven_by(draft, of(draft, "sun")), draft);
}

TEST(DraftDrivers, StandBesideEachOtherWhereOneIsTooFew) {
    // The ring let go of, a simple set has two freedoms.
    const Draft draft = simple_draft();
    const Draft tried = driven_by(draft, of(draft, "ring"));
    EXPECT_EQ(running(tried), "drive sun 30, ring 30");
    EXPECT_EQ(outcome_of(tried), Outcome::moves);
}

TEST(DraftDrivers, TakeTheSpeedOfTheChosenSettingWhereNoneDrives) {
    const Draft draft = simple_draft();
    const Draft idle = not_driven_by(draft, of(draft, "sun"));
    EXPECT_EQ(running(idle), "hold ring");
    EXPECT_EQ(running(driven_by(idle, of(draft, "carrier"))), "hold ring; drive carrier 30");
    const Draft second = simple_draft({"hold ring", "hold sun; drive ring 12"});
    EXPECT_EQ(running(driven_by(second, of(draft, "carrier"))), "hold ring; drive carrier 12");
    // The usual 10 rpm where no setting says any.
    const Draft without = simple_draft({});
    EXPECT_EQ(running(driven_by(without, of(draft, "sun"))), "drive sun 10");
}

TEST(DraftDrivers, TurnAtTheSpeedGiven) {
    const Draft draft = simple_draft({"drive sun 30, ring 10"});
    EXPECT_EQ(running(driven_at(draft, of(draft, "ring"), Ratio(-5, 2))), "drive sun 30, ring -5/2");
    EXPECT_EQ(driven_at(draft, of(draft, "ring"), Ratio(10)), draft);
    const Draft single = simple_draft();
    EXPECT_EQ(running(driven_at(single, of(single, "carrier"), Ratio(7))), "hold ring; drive carrier 7");
}

TEST(DraftTies, AreTakenAwayOneByOne) {
    const Draft draft = simple_draft({"hold ring; tie sun=carrier; drive sun 30"});
    const Draft tried = without_tie(draft, 0);
    EXPECT_EQ(running(tried), "hold ring; drive sun 30");
    EXPECT_TRUE(tried.trial);
}

TEST(Draft, ChangesAlsoWhatCannotBeSolved) {
    // Crossing axes are kept but not solved (motion.hpp): nothing stands in the driver's place, and nothing is thrown.
    Draft draft = simple_draft();
    draft.train.members[1].axis = std::array<Ratio, 3>{Ratio(1), Ratio(0), Ratio(0)};
    EXPECT_THROW((void)solve(draft.train, running_setting(draft)), std::invalid_argument);
    EXPECT_EQ(running(pinned(draft, of(draft, "sun"))), "hold ring, sun");
    EXPECT_EQ(running(driven_by(draft, of(draft, "carrier"))), "hold ring; drive sun 30, carrier 30");
}

TEST(DraftKeeping, MakesATrialANewSetting) {
    const Draft draft = simple_draft();
    const Draft tried = driven_by(draft, of(draft, "carrier"));
    const Draft kept = trial_kept_as_new(tried);
    ASSERT_EQ(kept.train.settings.size(), 2U);
    EXPECT_EQ(kept.train.settings[0], draft.train.settings[0]);
    EXPECT_EQ(kept.train.settings[1].name, "hauling 2");
    EXPECT_EQ(kept.chosen, SettingIndex{1});
    EXPECT_FALSE(kept.trial);
    EXPECT_EQ(running(kept), running(tried));
}

TEST(DraftKeeping, NumbersOnWhereANameIsTaken) {
    Draft draft = simple_draft();
    const auto keep = [&](SettingIndex began_as, int rpm) {
        draft.chosen = began_as;
        draft = trial_kept_as_new(driven_at(draft, of(draft, "sun"), rpm));
        return draft.train.settings.back().name;
    };
    EXPECT_EQ(keep({0}, 40), "hauling 2");
    EXPECT_EQ(keep({0}, 50), "hauling 3");
    // From a numbered one, on from its number; a number without a name before it is a name.
    EXPECT_EQ(keep({1}, 60), "hauling 4");
    draft.train.settings[0].name = "17";
    EXPECT_EQ(keep({0}, 70), "17 2");
}

TEST(DraftKeeping, NamesASettingThatBeganAsNone) {
    const Draft draft = simple_draft({});
    const Draft first = trial_kept_as_new(driven_by(draft, of(draft, "sun")));
    EXPECT_EQ(first.train.settings.at(0).name, "setting 1");
    EXPECT_EQ(first.chosen, SettingIndex{0});
    EXPECT_EQ(trial_kept_in_place(driven_by(draft, of(draft, "sun"))), first);
}

TEST(DraftKeeping, KeepsNamesWithinTheLimitOfAScene) {
    Draft draft = simple_draft();
    std::string name;
    while (name.size() < 198) name += "\u00FC";  // 2 bytes each, 200 at most in a scene
    draft.train.settings[0].name = "a" + name;
    const Draft kept = trial_kept_as_new(driven_at(draft, of(draft, "sun"), 1));
    const std::string& made = kept.train.settings.back().name;
    EXPECT_LE(made.size(), 200U);
    // A byte and whole letters of two.
    EXPECT_EQ(made.find(" 2") % 2, 1U);
    EXPECT_TRUE(made.ends_with("\u00FC 2"));
}

TEST(DraftKeeping, PutsATrialInThePlaceOfTheChosenSetting) {
    const Draft draft = simple_draft({"hold ring; drive sun 30", "hold sun; drive ring 12"});
    Draft second = draft;
    second.chosen = {1};
    const Draft kept = trial_kept_in_place(driven_by(second, of(draft, "carrier")));
    ASSERT_EQ(kept.train.settings.size(), 2U);
    EXPECT_EQ(kept.train.settings[0], draft.train.settings[0]);
    EXPECT_EQ(kept.train.settings[1].name, "hauling 2");
    EXPECT_EQ(running(kept), "hold sun; drive carrier 12");
    EXPECT_FALSE(kept.trial);
    EXPECT_EQ(kept.chosen, SettingIndex{1});
}

TEST(DraftKeeping, ChangesNothingWithoutATrial) {
    const Draft draft = simple_draft();
    EXPECT_EQ(trial_kept_as_new(draft), draft);
    EXPECT_EQ(trial_kept_in_place(draft), draft);
}

}  // namespace
}  // namespace couplet
