// What follows from a draft, worked out once.
#include "app/study.hpp"

#include <gtest/gtest.h>

#include "scene/default_scene.hpp"
#include "scene/scene.hpp"

namespace couplet {
namespace {

Draft capstan() {
    return draft_of(read_scene(default_scene(), "capstan"));
}

TEST(Study, SharesTheStageBetweenSettings) {
    const Study first(capstan(), {});
    const auto stage = first.stage().part;
    ASSERT_TRUE(stage);
    Draft other = capstan();
    other.chosen = {1};
    const Study second(other, {}, &first);
    EXPECT_EQ(second.stage().part, stage);
    EXPECT_NE(second.motion().joint_rates, first.motion().joint_rates);
}

TEST(Study, MakesAnotherStageForOtherTeeth) {
    const Study first(capstan(), {});
    const auto stage = first.stage().part;
    Draft other = capstan();
    other.train.gears[0].teeth = 24;
    EXPECT_NE(Study(other, {}, &first).stage().part, stage);
}

TEST(Study, SaysInWordsWhyThereAreNoTeeth) {
    Draft draft = capstan();
    draft.train.teeth.module_mm.reset();
    const Study study(draft, {});
    EXPECT_FALSE(study.sizes().part);
    EXPECT_NE(study.sizes().why_not.find("module"), std::string::npos);
    EXPECT_FALSE(study.stage().part);
    EXPECT_EQ(study.motion().outcome, Outcome::moves);
}

TEST(Study, ProvesTheMeshInTheRunningSetting) {
    const Study study(capstan(), {});
    ASSERT_TRUE(study.places().part) << study.places().why_not;
    EXPECT_TRUE(study.places().part->proof.all_mesh);
    EXPECT_EQ(study.places().part->setting->name, study.setting().name);
}

}  // namespace
}  // namespace couplet
