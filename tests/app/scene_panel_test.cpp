#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "scene/scene.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class ScenePanel : public testing::Test {
  protected:
    ScenePanel() {
        fs::remove_all(folder_);
        fs::create_directories(folder_ / "old");
        fs::copy_file(fs::path(COUPLET_ROOT) / "scenes/ferry_windlass.toml", folder_ / "windlass.toml");
        fs::copy_file(fs::path(COUPLET_ROOT) / "scenes/tide_dial.toml", folder_ / "old/dial.toml");
    }
    ~ScenePanel() override { fs::remove_all(folder_); }

    // Lists the folder of the test, by typing its path.
    void list(const std::string& button, const std::string& field) {
        window_.click(button);
        window_.type(field, folder_.string());
        window_.frame(2);
    }
    [[nodiscard]] const Session& session() const { return window_.session; }

    fs::path folder_ = fs::temp_directory_path() / ("couplet_scene_panel_" + std::to_string(getpid()));
    NullWindow window_{"", draw_scene_panel};
};

TEST_F(ScenePanel, ChangesTitleAndNotes) {
    window_.type("title", "Quay capstan");
    EXPECT_EQ(session().train().title, "Quay capstan");
    EXPECT_EQ(session().history.undo_what(), "title: Quay capstan");
    window_.click("Write in the notes");
    window_.click("notes");
    // Behind what is there; leaving the field takes it over.
    const std::string before = session().train().notes;
    window_.press(ImGuiKey_End);
    ImGui::GetIO().AddInputCharacter('!');
    window_.frame(2);
    window_.click("Notes are done");
    EXPECT_NE(session().train().notes, before);
    EXPECT_EQ(session().train().notes.size(), before.size() + 1);
    EXPECT_FALSE(session().view.notes_open);
}

TEST_F(ScenePanel, SaysWhetherTheSceneIsSaved) {
    EXPECT_TRUE(window_.shows("not in a file yet"));
    EXPECT_EQ(window_.said("saved").value, "holds: nothing changed yet");
    EXPECT_FALSE(window_.said("Save").enabled);
    window_.type("title", "Quay capstan");
    EXPECT_EQ(window_.said("saved").value, "caution: changes are not saved");
}

TEST_F(ScenePanel, SavesUnderANameAndThenThere) {
    window_.type("title", "Quay capstan");
    list("Save as", "save as");
    window_.type("save as", "quay");
    window_.click("Save here");
    const fs::path path = folder_ / "quay.toml";
    EXPECT_EQ(session().file.path, path);
    EXPECT_EQ(read_scene(load_scene_text(path), "saved").title, "Quay capstan");
    EXPECT_EQ(window_.said("saved").value, "holds: saved");
    EXPECT_EQ(session().view.files.task, FileTask::none);
    window_.type("title", "Capstan");
    window_.click("Save");
    EXPECT_EQ(read_scene(load_scene_text(path), "saved").title, "Capstan");
}

TEST_F(ScenePanel, SuggestsAFileNameFromTheTitle) {
    window_.click("Save as");
    EXPECT_EQ(window_.said("save as").value, "harbour_capstan.toml");
}

TEST_F(ScenePanel, TakesTheNameOfAFileThatIsClicked) {
    list("Save as", "save as");
    window_.click("windlass.toml");
    EXPECT_EQ(window_.said("save as").value, "windlass.toml");
    // It is there already: a question comes first, and nothing is written.
    const std::string before = load_scene_text(folder_ / "windlass.toml");
    window_.click("Save here");
    EXPECT_EQ(load_scene_text(folder_ / "windlass.toml"), before);
    EXPECT_EQ(session().notices.back().kind, Notice::Kind::question);
}

TEST_F(ScenePanel, OpensAFileByWayOfItsFolders) {
    list("Open", "open");
    window_.click("old/");
    window_.frame(2);
    EXPECT_EQ(session().view.files.folder, folder_ / "old");
    window_.click("folder above");
    window_.frame(2);
    EXPECT_TRUE(window_.says("windlass.toml"));
    window_.click("old/");
    window_.frame(2);
    window_.click("dial.toml");
    EXPECT_EQ(session().file.path, folder_ / "old/dial.toml");
    EXPECT_EQ(session().view.files.task, FileTask::none);
}

TEST_F(ScenePanel, OpensATypedPath) {
    window_.click("Open");
    window_.type("open", (folder_ / "windlass.toml").string());
    EXPECT_EQ(session().train().title, "Ferry windlass");
}

TEST_F(ScenePanel, OpensRecentScenes) {
    window_.click("Open");
    window_.type("open", (folder_ / "windlass.toml").string());
    window_.click("Open");
    window_.type("open", (folder_ / "old/dial.toml").string());
    ASSERT_EQ(session().file.path, folder_ / "old/dial.toml");
    // The latest stands first.
    window_.click("windlass.toml (recent 2)");
    EXPECT_EQ(session().file.path, folder_ / "windlass.toml");
}

TEST_F(ScenePanel, BeginsANewTrainFromEachArrangement) {
    for (const ArrangementForm& form : arrangement_forms()) {
        window_.click(std::string(form.name));
        EXPECT_EQ(session().train(), train_of(form.arrangement, form.usual));
        EXPECT_TRUE(window_.shows(std::string(form.what_it_is)));
    }
}

TEST_F(ScenePanel, UndoesAndSaysWhat) {
    EXPECT_FALSE(window_.said("undo").enabled);
    window_.type("title", "Quay capstan");
    EXPECT_TRUE(window_.shows("undo title: Quay capstan"));
    window_.click("undo");
    EXPECT_EQ(session().train().title, "Harbour capstan");
    EXPECT_TRUE(window_.shows("redo title: Quay capstan"));
    window_.click("redo");
    EXPECT_EQ(session().train().title, "Quay capstan");
}

TEST_F(ScenePanel, OffersWorkThatWasLeftUnsaved) {
    Train train = session().train();
    train.title = "Left behind";
    window_.session.left_unsaved = {{folder_ / "kept.toml", {}, train.title, "2026-11-03 10:32", write_scene(train)},
                                    {folder_ / "kept2.toml", {}, "Other", "2026-11-02 09:00", write_scene(train)}};
    window_.frame(2);
    EXPECT_TRUE(window_.shows("2026-11-03 10:32"));
    window_.click("Drop it (left 2)");
    ASSERT_EQ(session().left_unsaved.size(), 1U);
    window_.click("Open it (left 1)");
    EXPECT_EQ(session().train().title, "Left behind");
}

}  // namespace
}  // namespace couplet
