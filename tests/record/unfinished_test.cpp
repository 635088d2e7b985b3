#include "record/unfinished.hpp"

#include <stdexcept>

#include "record/own_folder.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class UnfinishedThing : public OwnFolder {
  protected:
    static void fill(const Unfinished& unfinished, const std::string& text) {
        std::ofstream(unfinished.path(), std::ios::binary) << text;
    }
};

TEST_F(UnfinishedThing, StandsBesideItsNameAndLooksLikeNoClip) {
    const Unfinished clip(in_folder("clip.mp4"));
    EXPECT_TRUE(names().empty()) << "nothing is made yet";
    EXPECT_EQ(clip.path().parent_path(), folder_) << "on the same disk, so that a new name is enough";
    EXPECT_EQ(clip.path().filename().string().front(), '.');
    EXPECT_NE(clip.path().extension(), ".mp4");
    const Unfinished other(in_folder("clip.mp4"));
    EXPECT_NE(other.path(), clip.path()) << "two at a time do not meet";
}

TEST_F(UnfinishedThing, IsGoneUnlessItIsFinished) {
    write("clip.mp4", "old");
    {
        const Unfinished clip(in_folder("clip.mp4"));
        fill(clip, "half");
        EXPECT_EQ(names().size(), 2U);
    }
    EXPECT_EQ(names(), Names{"clip.mp4"});
    EXPECT_EQ(read("clip.mp4"), "old");
}

TEST_F(UnfinishedThing, TakesThePlaceOfAnOldFile) {
    write("clip.mp4", "old");
    {
        Unfinished clip(in_folder("clip.mp4"));
        fill(clip, "new");
        clip.take_place();
        EXPECT_EQ(read("clip.mp4"), "new");
    }
    EXPECT_EQ(names(), Names{"clip.mp4"}) << "and stays there";
}

TEST_F(UnfinishedThing, MayBeAFolder) {
    for (const bool finished : {false, true}) {
        Unfinished pictures(folder_ / "pictures/");
        fs::create_directory(pictures.path());
        std::ofstream(pictures.path() / "one.png") << "1";
        if (finished) pictures.take_place();
    }
    EXPECT_EQ(names(), Names{"pictures"});
    EXPECT_EQ(read("pictures/one.png"), "1");
}

TEST_F(UnfinishedThing, IsWrittenWhereALinkLeads) {
    fs::create_directory(in_folder("far"));
    write("far/clip.mp4", "old");
    fs::create_symlink(in_folder("far/clip.mp4"), in_folder("clip.mp4"));
    {
        Unfinished clip(in_folder("clip.mp4"));
        fill(clip, "new");
        clip.take_place();
    }
    EXPECT_TRUE(fs::is_symlink(in_folder("clip.mp4"))) << "the link is not replaced";
    EXPECT_EQ(read("far/clip.mp4"), "new");
}

TEST_F(UnfinishedThing, SaysWhereItCannotBe) {
    // The folder is not there; a folder with something in it has the name; nothing was made.
    Unfinished nowhere(in_folder("absent/clip.mp4"));
    fs::create_directories(in_folder("taken.mp4/more"));
    Unfinished taken(in_folder("taken.mp4"));
    fill(taken, "new");
    Unfinished never_made(in_folder("clip.mp4"));
    for (Unfinished* unfinished : {&nowhere, &taken, &never_made}) {
        try {
            unfinished->take_place();
            ADD_FAILURE() << unfinished->path();
        } catch (const std::runtime_error& error) {
            EXPECT_NE(std::string(error.what()).find(".mp4 cannot be written: "), std::string::npos) << error.what();
        }
    }
}

TEST_F(UnfinishedThing, LeavesNothingWhereItCouldNotTakeItsPlace) {
    fs::create_directories(in_folder("taken.mp4/more"));
    {
        Unfinished taken(in_folder("taken.mp4"));
        fill(taken, "new");
        EXPECT_THROW(taken.take_place(), std::runtime_error);
    }
    EXPECT_EQ(names(), Names{"taken.mp4"});
}

}  // namespace
}  // namespace couplet
