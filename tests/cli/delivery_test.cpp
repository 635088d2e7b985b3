#include "cli/delivery.hpp"

#include "cli/options.hpp"
#include "record/own_folder.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class DeliverTogether : public OwnFolder {
  protected:
    static std::function<std::string()> text(const std::string& bytes) {
        return [bytes] { return bytes; };
    }
    Delivery file(const std::string& name, std::function<std::string()> bytes) const {
        return {in_folder(name), {whole_file("", std::move(bytes))}};
    }
    Delivery folder(const std::string& name, std::function<std::string()> bytes) const {
        return {in_folder(name), {whole_file("one.stl", std::move(bytes)), whole_file("two.stl", text("2"))}, true};
    }
};

TEST_F(DeliverTogether, WritesFilesAndFolders) {
    deliver_together({folder("meshes", text("1")), file("robot", text("r"))}, ExistingFiles::keep);
    EXPECT_EQ(names(), (Names{"meshes", "robot"}));
    EXPECT_EQ(read("meshes/one.stl") + read("meshes/two.stl") + read("robot"), "12r");
}

TEST_F(DeliverTogether, ReplacesWhatIsThere) {
    deliver_together({folder("meshes", text("1")), file("robot", text("r"))}, ExistingFiles::keep);
    write("meshes/three.stl", "3");
    deliver_together({folder("meshes", text("new")), file("robot", text("new"))}, ExistingFiles::replace);
    EXPECT_EQ(names(), (Names{"meshes", "robot"}));
    EXPECT_EQ(read("meshes/one.stl"), "new");
    EXPECT_EQ(read("robot"), "new");
    EXPECT_FALSE(fs::exists(in_folder("meshes/three.stl"))) << "left over from the export before";
}

TEST_F(DeliverTogether, KeepsWhatIsThere) {
    write("robot", "old");
    EXPECT_THROW(deliver_together({folder("meshes", text("1")), file("robot", text("r"))}, ExistingFiles::keep),
                 UsageError);
    EXPECT_EQ(names(), (Names{"robot"}));
    EXPECT_EQ(read("robot"), "old");
}

TEST_F(DeliverTogether, WritesPiecesInTheirOrder) {
    deliver_together({{in_folder("table"),
                       {{"",
                         [](const TakeBytes& take) {
                             take("one,");
                             take("two");
                         }}}}},
                     ExistingFiles::keep);
    EXPECT_EQ(read("table"), "one,two");
}

TEST_F(DeliverTogether, LeavesNothingWhereAPieceCannotBeMade) {
    write("table", "old");
    const auto broken = [](const TakeBytes& take) {
        take("one,");
        throw std::runtime_error("no second");
    };
    EXPECT_THROW(deliver_together({{in_folder("table"), {{"", broken}}}}, ExistingFiles::replace), std::runtime_error);
    EXPECT_EQ(names(), (Names{"table"}));
    EXPECT_EQ(read("table"), "old");
}

TEST_F(DeliverTogether, LeavesNothingWhereAFileCannotBeMade) {
    write("robot", "old");
    const auto none = []() -> std::string { throw std::runtime_error("no metal"); };
    EXPECT_THROW(deliver_together({folder("meshes", text("1")), file("robot", none)}, ExistingFiles::replace),
                 std::runtime_error);
    EXPECT_THROW(deliver_together({folder("meshes", none), file("robot", text("r"))}, ExistingFiles::replace),
                 std::runtime_error);
    EXPECT_EQ(names(), (Names{"robot"}));
    EXPECT_EQ(read("robot"), "old");
}

// Somebody puts a folder where the file is to go, while it is being made: the meshes that were there come back.
TEST_F(DeliverTogether, PutsBackWhatHadAlreadyTakenItsPlace) {
    deliver_together({folder("meshes", text("old"))}, ExistingFiles::keep);
    const auto blocked = [this]() -> std::string {
        fs::create_directories(in_folder("robot/inside"));
        return "r";
    };
    EXPECT_THROW(deliver_together({folder("meshes", text("new")), file("robot", blocked)}, ExistingFiles::replace),
                 std::runtime_error);
    EXPECT_EQ(names(), (Names{"meshes", "robot"}));
    EXPECT_EQ(read("meshes/one.stl"), "old");
    EXPECT_THROW(deliver_together({folder("others", text("new")), file("robot", blocked)}, ExistingFiles::replace),
                 std::runtime_error);
    EXPECT_FALSE(fs::exists(in_folder("others")));
}

TEST_F(DeliverTogether, NeverReplacesAFolderWithOtherThingsInIt) {
    fs::create_directory(in_folder("meshes"));
    write("meshes/letter.txt", "dear");
    EXPECT_THROW(deliver_together({folder("meshes", text("1"))}, ExistingFiles::replace), UsageError);
    EXPECT_EQ(read("meshes/letter.txt"), "dear");
    write("file", "f");
    EXPECT_THROW(deliver_together({folder("file", text("1"))}, ExistingFiles::replace), UsageError);
    EXPECT_THROW(deliver_together({file("meshes", text("1"))}, ExistingFiles::replace), UsageError);
    EXPECT_EQ(names(), (Names{"file", "meshes"}));
}

}  // namespace
}  // namespace couplet
