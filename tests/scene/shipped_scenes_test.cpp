// The scenes that come with the program: they read, teach the format, and are sound to build where geometry matters.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "scene/scene.hpp"
#include "scene_folder.hpp"
#include "support/ratio_printer.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

class ShippedScene : public testing::TestWithParam<std::filesystem::path> {
  protected:
    std::string text_ = load_scene_text(GetParam());
    Train train_ = read_scene(text_, GetParam().string());
};

TEST_P(ShippedScene, HasTitleNotesSettingsAndComments) {
    EXPECT_FALSE(train_.title.empty());
    EXPECT_FALSE(train_.notes.empty());
    EXPECT_FALSE(train_.settings.empty());
    EXPECT_TRUE(text_.starts_with("# "));
}

TEST_P(ShippedScene, SurvivesWritingAndRewriting) {
    EXPECT_EQ(read_scene(write_scene(train_), "written"), train_);
    EXPECT_EQ(rewrite_scene(text_, train_), text_);
    Train changed = train_;
    changed.title += "!";
    const std::string rewritten = rewrite_scene(text_, changed);
    EXPECT_EQ(rewritten.size(), text_.size() + 1);
    EXPECT_EQ(read_scene(rewritten, "rewritten"), changed);
}

// A planet meets all the wheels beside its carrier at one distance from the carrier's axis. Where profiles are shifted,
// tooth counts do not tell: the tests of `size` look at those.
TEST_P(ShippedScene, PutsEachPlanetAtOneDistanceFromTheCentre) {
    std::map<MemberIndex, std::set<Ratio>> distances;
    for (const Mesh& mesh : train_.meshes) {
        for (const auto& [planet, other] :
             {std::pair(train_[mesh.first], train_[mesh.second]), std::pair(train_[mesh.second], train_[mesh.first])}) {
            const MemberIndex carrier = rides_on(train_, planet.member);
            if (carrier == kFrame || rides_on(train_, other.member) != rides_on(train_, carrier)) continue;
            if (planet.shift || other.shift) continue;
            const int teeth = other.internal ? other.teeth - planet.teeth : other.teeth + planet.teeth;
            distances[planet.member].insert(Ratio(teeth, 2) * train_.teeth.module_mm.value_or(1));
        }
    }
    for (const auto& [planet, found] : distances) EXPECT_EQ(found.size(), 1U) << name_of(train_, planet);
}

INSTANTIATE_TEST_SUITE_P(Each, ShippedScene, testing::ValuesIn(shipped_scenes()),
                         [](const auto& scene) { return scene.param.stem().string(); });

TEST(ShippedScenes, AreAtLeastTenWithTitlesOfTheirOwn) {
    std::set<std::string> titles;
    for (const auto& path : shipped_scenes()) titles.insert(read_scene(load_scene_text(path), path.string()).title);
    EXPECT_GE(titles.size(), 10U);
    EXPECT_EQ(titles.size(), shipped_scenes().size());
}

}  // namespace
}  // namespace couplet
