#include "cli/scene_input.hpp"

#include <gtest/gtest.h>

#include "cli/options.hpp"
#include "cli/run_couplet.hpp"
#include "scene/default_scene.hpp"
#include "scene/scene.hpp"

namespace couplet {
namespace {

TEST(DefaultScene, IsTheFileInScenesToTheByte) {
    EXPECT_EQ(default_scene(), file_text(std::string(COUPLET_ROOT) + "/scenes/harbour_capstan.toml"));
    EXPECT_EQ(load_scene("").file, "harbour_capstan (built in)");
    EXPECT_EQ(load_scene("").train.title, "Harbour capstan");
}

TEST(LoadScene, RefusesAFileThatIsNotThere) {
    EXPECT_THROW((void)load_scene("no such file.toml"), SceneError);
}

TEST(ChosenSetting, IsTheFirstUnlessOneIsNamed) {
    const SceneInput scene{"set.toml", read_scene(std::string(kSet) + kSettings, "set.toml")};
    EXPECT_EQ(chosen_setting(scene, std::nullopt).name, "low");
    EXPECT_EQ(chosen_setting(scene, "high").name, "high");
    EXPECT_THROW((void)chosen_setting(scene, "middle"), UsageError);
    EXPECT_THROW((void)chosen_setting({"bare.toml", read_scene(kSet, "bare.toml")}, std::nullopt), UsageError);
}

}  // namespace
}  // namespace couplet
