#include "app/folder_view.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

namespace couplet {
namespace {

namespace fs = std::filesystem;

class FolderOfScenes : public testing::Test {
  protected:
    FolderOfScenes() {
        fs::remove_all(folder_);
        fs::create_directories(folder_ / "old");
        fs::create_directories(folder_ / ".hidden");
        for (const char* name : {"winch.toml", "capstan.toml", "notes.txt", ".secret.toml"})
            std::ofstream(folder_ / name) << "\n";
    }
    ~FolderOfScenes() override { fs::remove_all(folder_); }

    [[nodiscard]] static std::string names(const FolderView& view) {
        std::string all;
        for (const FolderView::Entry& entry : *view.entries) all += entry.name + (entry.is_folder ? "/ " : " ");
        return all;
    }

    fs::path folder_ = fs::temp_directory_path() / ("couplet_folder_view_" + std::to_string(getpid()));
};

TEST_F(FolderOfScenes, AreListedBehindFoldersWithoutAnythingElse) {
    FolderView view = choosing_file(FileTask::open, folder_ / "winch.toml", "");
    look_again(view, 5);
    EXPECT_EQ(view.folder, folder_);
    EXPECT_EQ(names(view), "old/ capstan.toml winch.toml ");
    EXPECT_EQ(view.why_not, "");
}

TEST_F(FolderOfScenes, AreReadAnewOnlyAfterASecond) {
    FolderView view = choosing_file(FileTask::open, folder_ / "winch.toml", "");
    look_again(view, 5);
    std::ofstream(folder_ / "anchor.toml") << "\n";
    look_again(view, 5.9);
    EXPECT_EQ(names(view), "old/ capstan.toml winch.toml ");
    look_again(view, 6.0);
    EXPECT_EQ(names(view), "old/ anchor.toml capstan.toml winch.toml ");
}

TEST_F(FolderOfScenes, AreLeftAndEnteredAtOnce) {
    FolderView view = choosing_file(FileTask::open, folder_ / "winch.toml", "");
    look_again(view, 5);
    go_into(view, view.folder / "old");
    look_again(view, 5.1);
    EXPECT_EQ(names(view), "");
    go_into(view, view.folder / "..");
    EXPECT_EQ(view.folder, folder_);
    go_into(view, view.folder / "gone");
    look_again(view, 5.2);
    EXPECT_EQ(names(view), "");
    EXPECT_NE(view.why_not, "");
}

TEST_F(FolderOfScenes, AreFoundByTypedPaths) {
    const FolderView view = choosing_file(FileTask::save_as, folder_ / "winch.toml", "");
    EXPECT_EQ(typed_path(view, "old/a.toml"), folder_ / "old/a.toml");
    EXPECT_EQ(typed_path(view, "../a.toml"), folder_.parent_path() / "a.toml");
    EXPECT_EQ(typed_path(view, "/a/b.toml"), fs::path("/a/b.toml"));
    EXPECT_EQ(typed_scene_path(view, "a"), folder_ / "a.toml");
    EXPECT_EQ(typed_scene_path(view, "a.scene"), folder_ / "a.scene");
}

TEST(FileNameFor, IsTheTitleInSmallLettersWithoutBlanks) {
    EXPECT_EQ(file_name_for("Harbour capstan"), "harbour_capstan.toml");
    EXPECT_EQ(file_name_for(" 2 crews / hoist! "), "2_crews_hoist.toml");
    EXPECT_EQ(file_name_for("Größe"), "größe.toml");
    EXPECT_EQ(file_name_for("../.."), "scene.toml");
}

}  // namespace
}  // namespace couplet
