#include "app/setting_edits.hpp"

#include <gtest/gtest.h>

#include "support/train_notation.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

// Members in order of their names here; one setting "first".
Draft planetary() {
    Train train = train_from("sun 20 x planet 20; planet 20 in ring 60 (planet on carrier)");
    Setting setting = setting_from(train, "hold ring; drive sun 30");
    setting.name = "first";
    train.settings = {setting};
    return draft_of(std::move(train));
}

MemberIndex named(const Draft& draft, const std::string& name) {
    return member_named(draft.train, name);
}

TEST(SettingEdits, SayASettingInASentence) {
    const Draft draft = planetary();
    EXPECT_EQ(setting_sentence(draft.train, draft.train.settings[0]), "first: ring held, sun drives at 30 rpm");
    EXPECT_EQ(setting_sentence(draft.train, {}), "nothing held, nothing driven");
    Setting tied = setting_from(draft.train, "tie sun=ring; drive carrier -3/2");
    EXPECT_EQ(setting_sentence(draft.train, tied), "sun = ring tied, carrier drives at -1.5 rpm");
}

TEST(SettingEdits, ChangeTheChosenSettingOfTheTrain) {
    const Draft draft = planetary();
    Setting changed = running_setting(draft);
    changed.hold = {named(draft, "carrier")};
    changed.name = "ignored";
    const Draft result = with_running_setting(draft, changed);
    EXPECT_FALSE(result.trial);
    EXPECT_EQ(result.train.settings[0].name, "first");
    EXPECT_EQ(result.train.settings[0].hold, changed.hold);
}

TEST(SettingEdits, ChangeATrialAndDropItWhenItIsLikeTheSetting) {
    const Draft draft = planetary();
    Draft trying = draft;
    trying.trial = draft.train.settings[0];
    trying.trial->hold.clear();
    Setting changed = *trying.trial;
    changed.drive.clear();
    const Draft result = with_running_setting(trying, changed);
    ASSERT_TRUE(result.trial);
    EXPECT_TRUE(result.trial->drive.empty());
    EXPECT_EQ(result.train, draft.train);
    EXPECT_FALSE(with_running_setting(trying, draft.train.settings[0]).trial);
}

TEST(SettingEdits, MakeAFirstSettingWhereThereIsNone) {
    Draft draft = planetary();
    draft.train.settings.clear();
    draft.chosen = {};
    Setting changed;
    changed.hold = {named(draft, "ring")};
    const Draft result = with_running_setting(draft, changed);
    ASSERT_EQ(result.train.settings.size(), 1U);
    EXPECT_EQ(result.train.settings[0].name, "setting 1");
    EXPECT_EQ(result.chosen, SettingIndex{0});
}

TEST(SettingEdits, AddRenameAndRemove) {
    Draft draft = with_setting_added(planetary());
    EXPECT_EQ(draft.train.settings[1].name, "first 2");
    EXPECT_EQ(draft.train.settings[1].hold, draft.train.settings[0].hold);
    EXPECT_EQ(draft.chosen, SettingIndex{1});
    EXPECT_EQ(setting_name_fault(draft, "first"), "there is another setting of that name");
    EXPECT_EQ(setting_name_fault(draft, "first 2"), "");  // its own
    draft = with_chosen_setting_named(draft, "second");
    EXPECT_EQ(draft.train.settings[1].name, "second");
    draft = without_chosen_setting(draft);
    EXPECT_EQ(draft.chosen, SettingIndex{0});
    draft = without_chosen_setting(draft);
    EXPECT_EQ(draft.chosen.value, -1);
    EXPECT_TRUE(draft.train.settings.empty());
    EXPECT_TRUE(faults(draft.train).empty());
}

TEST(SettingEdits, OfferOnlyWhatIsLegal) {
    const Draft draft = planetary();
    const Setting& setting = draft.train.settings[0];
    EXPECT_EQ(free_members(draft.train, setting),
              (std::vector<MemberIndex>{named(draft, "planet"), named(draft, "carrier")}));
    Setting tied = setting;
    tied.tie = {{named(draft, "sun"), named(draft, "ring")}};
    const std::vector<MemberIndex> with_ring = could_be_tied(draft.train, tied, named(draft, "ring"));
    EXPECT_EQ(with_ring, (std::vector<MemberIndex>{named(draft, "planet"), named(draft, "carrier")}));
}

}  // namespace
}  // namespace couplet
