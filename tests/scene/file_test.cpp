// Files: loading a scene's text, and replacing a file at once or not at all.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

#if defined(__unix__) || defined(__APPLE__)
#include <sys/resource.h>

#include <csignal>
#define COUPLET_CAN_LIMIT_FILES
#endif

#include "scene/scene.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class SceneFile : public testing::Test {
  protected:
    SceneFile() {
        const auto* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = fs::path(testing::TempDir()) / (std::string("couplet_") + test->name());
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    ~SceneFile() override { fs::remove_all(folder_); }

    [[nodiscard]] std::vector<std::string> names() const {
        std::vector<std::string> found;
        for (const auto& entry : fs::directory_iterator(folder_)) found.push_back(entry.path().filename().string());
        return found;
    }

    static std::string refusal_of_saving(const fs::path& path) {
        try {
            save_scene_text(path, "new");
            return "saved";
        } catch (const SceneError& error) {
            return error.what();
        }
    }

    static std::string refusal_of_loading(const fs::path& path) {
        try {
            return "loaded " + std::to_string(load_scene_text(path).size());
        } catch (const SceneError& error) {
            return error.what();
        }
    }

    fs::path folder_;
};

using Names = std::vector<std::string>;

TEST_F(SceneFile, LoadsWhatWasSaved) {
    const fs::path path = folder_ / "a.toml";
    const std::string text("couplet = 1\r\n\0\xFF", 15);
    save_scene_text(path, text);
    EXPECT_EQ(load_scene_text(path), text);
    EXPECT_EQ(names(), Names{"a.toml"});
}

TEST_F(SceneFile, ReplacesAFileAndKeepsItsPermissions) {
    const fs::path path = folder_ / "a.toml";
    save_scene_text(path, "a longer text than the next one");
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write | fs::perms::others_read);
    save_scene_text(path, "new");
    EXPECT_EQ(load_scene_text(path), "new");
    EXPECT_EQ(fs::status(path).permissions(), fs::perms::owner_read | fs::perms::owner_write | fs::perms::others_read);
    EXPECT_EQ(names(), Names{"a.toml"});
}

TEST_F(SceneFile, ReplacesWhatALinkPointsTo) {
    save_scene_text(folder_ / "a.toml", "old");
    fs::create_symlink("a.toml", folder_ / "link.toml");
    save_scene_text(folder_ / "link.toml", "new");
    EXPECT_TRUE(fs::is_symlink(folder_ / "link.toml"));
    EXPECT_EQ(load_scene_text(folder_ / "a.toml"), "new");
}

TEST_F(SceneFile, LeavesNothingWhereTheFolderIsMissing) {
    const fs::path path = folder_ / "none" / "a.toml";
    EXPECT_EQ(refusal_of_saving(path),
              path.string() +
                  ": the file cannot be written: No such file or directory; save it in a folder "
                  "that can be written; the old file is untouched");
    EXPECT_EQ(names(), Names{});
}

TEST_F(SceneFile, LeavesTheTargetAndNothingBesideWhereRenamingFails) {
    // A folder that is not empty cannot be replaced by a file, whoever asks.
    fs::create_directories(folder_ / "a.toml" / "inside");
    EXPECT_NE(refusal_of_saving(folder_ / "a.toml").find("cannot be written"), std::string::npos);
    EXPECT_TRUE(fs::exists(folder_ / "a.toml" / "inside"));
    EXPECT_EQ(names(), Names{"a.toml"});
}

TEST_F(SceneFile, LeavesTheOldFileWhereTheFolderCannotBeWritten) {
    const fs::path path = folder_ / "a.toml";
    save_scene_text(path, "old");
    fs::permissions(folder_, fs::perms::owner_read | fs::perms::owner_exec);
    const bool anyone_may_write = std::ofstream(folder_ / "probe").is_open();
    const std::string refusal = refusal_of_saving(path);
    const std::string kept = load_scene_text(path);
    fs::permissions(folder_, fs::perms::owner_all);
    if (anyone_may_write) GTEST_SKIP() << "this user may write everywhere";
    EXPECT_NE(refusal.find("cannot be written"), std::string::npos) << refusal;
    EXPECT_EQ(kept, "old");
    EXPECT_EQ(names(), Names{"a.toml"});
}

#ifdef COUPLET_CAN_LIMIT_FILES
// While it lives, no file of this process may grow beyond so many bytes: as on a full disk, writing more fails.
class FileSizeLimit {
  public:
    explicit FileSizeLimit(rlim_t bytes) : old_handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &old_);
        const rlimit limit{bytes, old_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~FileSizeLimit() {
        setrlimit(RLIMIT_FSIZE, &old_);
        std::signal(SIGXFSZ, old_handler_);
    }
    FileSizeLimit(const FileSizeLimit&) = delete;
    FileSizeLimit& operator=(const FileSizeLimit&) = delete;

  private:
    rlimit old_{};
    void (*old_handler_)(int);
};

TEST_F(SceneFile, LeavesTheOldFileAndNothingBesideWhereTheDiskIsFull) {
    const fs::path path = folder_ / "a.toml";
    save_scene_text(path, "old");
    {
        const FileSizeLimit limit(2);
        EXPECT_NE(refusal_of_saving(path).find("cannot be written"), std::string::npos);
    }
    EXPECT_EQ(load_scene_text(path), "old");
    EXPECT_EQ(names(), Names{"a.toml"});
}
#endif

TEST_F(SceneFile, SaysWhyAFileCannotBeRead) {
    const fs::path path = folder_ / "a.toml";
    EXPECT_EQ(refusal_of_loading(path),
              path.string() + ": the file cannot be read: No such file or directory; give the path of a scene file");
    EXPECT_EQ(refusal_of_loading(folder_),
              folder_.string() + ": the file cannot be read: it is a folder; give the path of a scene file");
}

TEST_F(SceneFile, RefusesToReadMoreThan64MiB) {
    const fs::path path = folder_ / "a.toml";
    save_scene_text(path, "");
    fs::resize_file(path, kMostSceneBytes);
    EXPECT_EQ(refusal_of_loading(path), "loaded 67108864");
    fs::resize_file(path, kMostSceneBytes + 1);
    EXPECT_EQ(refusal_of_loading(path),
              path.string() + ": the file cannot be read: it is larger than 64 MiB; give the path of a scene file");
}

}  // namespace
}  // namespace couplet
