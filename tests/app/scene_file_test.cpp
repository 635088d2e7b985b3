#include "app/scene_file.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <iterator>

#include "app/kept_folder.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

const std::string kPair = R"(# A pair from the winch.
couplet = 1

[[member]]
name = "pinion"   # the small one
[[member.gear]]
teeth = 20

[[member]]
name = "wheel"
[[member.gear]]
teeth = 45

[[mesh]]
gears = ["pinion", "wheel"]
)";

class OpenedScene : public KeptFolder {
  protected:
    [[nodiscard]] fs::path path() const { return folder() / "winch.toml"; }
    [[nodiscard]] SceneFile opened(const std::string& text = kPair) const {
        write(path(), text);
        return open_scene_file(path());
    }
    // Another stamp than before, whatever the clock of the file system is worth.
    static void touch(const fs::path& path) {
        fs::last_write_time(path, fs::last_write_time(path) + std::chrono::seconds(7));
    }
    [[nodiscard]] std::size_t files_in_folder() const {
        return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder()), fs::directory_iterator()));
    }
};

Train with_teeth(Train train, int pinion) {
    train.gears[0].teeth = pinion;
    return train;
}

using SceneFileOpening = OpenedScene;
using SceneFileOnDisk = OpenedScene;
using SceneFileSaving = OpenedScene;

TEST_F(SceneFileOpening, KeepsTheTextAndWhatItSays) {
    const SceneFile file = opened();
    EXPECT_EQ(file.path, path());
    EXPECT_EQ(file.name, "winch.toml");
    EXPECT_EQ(file.text, kPair);
    EXPECT_EQ(file.saved, read_scene(kPair, "winch.toml"));
    ASSERT_TRUE(file.stamp);
    EXPECT_EQ(file.stamp->bytes, kPair.size());
}

TEST_F(SceneFileOpening, LeavesATitleEmptyThatIsEmpty) {
    EXPECT_EQ(opened().saved.title, "");
}

TEST_F(SceneFileOpening, MakesThePathAbsolute) {
    (void)opened();
    const fs::path relative = fs::relative(path());
    ASSERT_TRUE(relative.is_relative());
    const SceneFile file = open_scene_file(relative);
    EXPECT_TRUE(file.path.is_absolute());
    EXPECT_TRUE(fs::equivalent(file.path, path()));
}

TEST_F(SceneFileOpening, RefusesWhatIsThereNotOrIsNoScene) {
    EXPECT_THROW((void)open_scene_file(path()), SceneError);
    EXPECT_THROW((void)open_scene_file(""), SceneError);
    EXPECT_THROW((void)open_scene_file(folder()), SceneError);
    try {
        (void)opened("couplet = 1\nteeth = 20\n");
        FAIL() << "a scene without members was opened";
    } catch (const SceneError& error) {
        EXPECT_EQ(error.line, 2);  // teeth is a table
        EXPECT_EQ(error.file, path().string());
    }
}

TEST(UnsavedScene, HasNoFileAndIsAsSaved) {
    const SceneFile file = unsaved_scene("a new pair", kPair);
    EXPECT_TRUE(file.path.empty());
    EXPECT_EQ(file.name, "a new pair");
    EXPECT_EQ(file.saved, read_scene(kPair, ""));
    EXPECT_FALSE(file.stamp);
    EXPECT_EQ(look_on_disk(file), OnDisk::same);
    EXPECT_THROW((void)unsaved_scene("broken", "couplet = 2"), SceneError);
}

TEST_F(SceneFileOnDisk, IsTheSameUntilAnotherProgramChangesIt) {
    const SceneFile file = opened();
    EXPECT_EQ(look_on_disk(file), OnDisk::same);
    write(path(), kPair + "# more\n");
    EXPECT_EQ(look_on_disk(file), OnDisk::changed);
}

TEST_F(SceneFileOnDisk, IsTheSameWhereItWasOnlyTouched) {
    const SceneFile file = opened();
    touch(path());
    ASSERT_NE(stamp_of(path()), file.stamp);
    EXPECT_EQ(look_on_disk(file), OnDisk::same);
}

TEST_F(SceneFileOnDisk, SeesAChangeOfTheSameLength) {
    const SceneFile file = opened();
    std::string other = kPair;
    other.replace(other.find("45"), 2, "46");
    write(path(), other);
    touch(path());
    EXPECT_EQ(look_on_disk(file), OnDisk::changed);
}

TEST_F(SceneFileOnDisk, SeesAFileThatTookItsPlace) {
    const SceneFile file = opened();
    write(folder() / "other.toml", "# quite another\n");
    fs::rename(folder() / "other.toml", path());
    EXPECT_EQ(look_on_disk(file), OnDisk::changed);
}

TEST_F(SceneFileOnDisk, SeesThatItIsGoneAndBack) {
    const SceneFile file = opened();
    fs::remove(path());
    EXPECT_EQ(look_on_disk(file), OnDisk::gone);
    fs::create_directory(path());
    EXPECT_EQ(look_on_disk(file), OnDisk::gone);
    fs::remove(path());
    write(path(), kPair);
    EXPECT_EQ(look_on_disk(file), OnDisk::same);
}

TEST_F(SceneFileSaving, KeepsCommentsAndOrder) {
    const SceneFile file = opened();
    const Train train = with_teeth(file.saved, 24);
    const SceneFile saved = saved_as(file, path(), train);
    std::string expected = kPair;
    expected.replace(expected.find("20"), 2, "24");
    EXPECT_EQ(read(path()), expected);
    EXPECT_EQ(saved.text, expected);
    EXPECT_EQ(saved.saved, train);
    EXPECT_EQ(saved.stamp, stamp_of(path()));
    EXPECT_EQ(look_on_disk(saved), OnDisk::same);
    EXPECT_EQ(look_on_disk(file), OnDisk::changed);
}

TEST_F(SceneFileSaving, GoesToAnotherPathAndLeavesTheFirstFile) {
    const SceneFile file = opened();
    const fs::path other = folder() / "other name.toml";
    const SceneFile saved = saved_as(file, other, with_teeth(file.saved, 24));
    EXPECT_EQ(saved.path, other);
    EXPECT_EQ(saved.name, "other name.toml");
    EXPECT_EQ(read(path()), kPair);
    EXPECT_NE(read(other).find("# the small one"), std::string::npos);
    EXPECT_EQ(look_on_disk(file), OnDisk::same);
}

TEST_F(SceneFileSaving, GivesASceneWithoutAFileItsFirstOne) {
    const SceneFile file = unsaved_scene("new", kPair);
    const SceneFile saved = saved_as(file, path(), file.saved);
    EXPECT_EQ(read(path()), kPair);
    EXPECT_EQ(open_scene_file(path()).saved, file.saved);
    EXPECT_EQ(saved.path, path());
    EXPECT_EQ(look_on_disk(saved), OnDisk::same);
}

TEST_F(SceneFileSaving, RefusesWhatCannotBeWrittenAndLeavesEverything) {
    const SceneFile file = opened();
    const Train train = with_teeth(file.saved, 24);
    EXPECT_THROW((void)saved_as(file, folder() / "no folder" / "a.toml", train), SceneError);
    EXPECT_THROW((void)saved_as(file, folder(), train), SceneError);
    EXPECT_THROW((void)saved_as(file, path() / "below a file.toml", train), SceneError);
    EXPECT_THROW((void)saved_as(file, folder() / std::string(300, 'n'), train), SceneError);  // 255 at most, NAME_MAX
    EXPECT_THROW((void)saved_as(file, "", train), SceneError);
    EXPECT_EQ(read(path()), kPair);
    EXPECT_EQ(files_in_folder(), 1U);
}

TEST_F(SceneFileSaving, RefusesATrainThatWouldNotOpenAgain) {
    const SceneFile file = opened();
    Train nameless = file.saved;
    nameless.members[0].name.clear();
    EXPECT_THROW((void)saved_as(file, path(), nameless), SceneError);
    Train third = file.saved;
    third.teeth.module_mm = Ratio(1, 3);  // no decimal
    EXPECT_THROW((void)saved_as(file, path(), third), SceneError);
    EXPECT_THROW((void)saved_as(file, path(), with_teeth(file.saved, 2)), SceneError);  // 3 at least
    EXPECT_EQ(read(path()), kPair);
    EXPECT_EQ(files_in_folder(), 1U);
}

}  // namespace
}  // namespace couplet
