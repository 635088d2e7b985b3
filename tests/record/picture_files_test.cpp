#include "record/picture_files.hpp"

#include <stdexcept>

#include "record/own_folder.hpp"

namespace couplet {
namespace {

using PictureFiles = OwnFolder;

const Image kTwoPixels{2, 1, {10, 20, 30, 255, 200, 100, 0, 128}};

TEST_F(PictureFiles, CountFromOneInSixDigits) {
    EXPECT_EQ(picture_name(0), "000001.png");
    EXPECT_EQ(picture_name(41), "000042.png");
    EXPECT_EQ(picture_name(999'998), "999999.png");
}

TEST_F(PictureFiles, AreReadAsTheyWereWritten) {
    write_picture(in_folder("a.png"), kTwoPixels);
    EXPECT_EQ(read_picture(in_folder("a.png")), kTwoPixels);
    EXPECT_EQ(names(), Names{"a.png"}) << "nothing else is left";
}

TEST_F(PictureFiles, TakeThePlaceOfOldOnes) {
    write("a.png", "old");
    write_picture(in_folder("a.png"), kTwoPixels);
    EXPECT_EQ(read_picture(in_folder("a.png")), kTwoPixels);
}

TEST_F(PictureFiles, SayWhatCannotBeWritten) {
    try {
        write_picture(in_folder("absent/a.png"), kTwoPixels);
        FAIL();
    } catch (const std::runtime_error& error) {
        EXPECT_EQ(std::string(error.what()),
                  in_folder("absent/a.png").string() + " cannot be written: No such file or directory");
    }
    EXPECT_TRUE(names().empty());
}

TEST_F(PictureFiles, SayWhatCannotBeRead) {
    write("no.png", "this is no picture");
    const auto message = [&](const char* name) {
        try {
            (void)read_picture(in_folder(name));
        } catch (const std::runtime_error& error) {
            return std::string(error.what());
        }
        return std::string("read");
    };
    EXPECT_EQ(message("absent.png"), in_folder("absent.png").string() + " cannot be read: No such file or directory");
    EXPECT_EQ(message("no.png").rfind(in_folder("no.png").string() + ": ", 0), 0U) << message("no.png");
}

}  // namespace
}  // namespace couplet
