#include "export/zip_archive.hpp"

#include <gtest/gtest.h>

#include "record/own_folder.hpp"

namespace couplet {
namespace {

class Zip : public OwnFolder {
  protected:
    // What Python's own module unpacks.
    std::string unpacked(const std::string& name) const {
        const std::string command = "python3 -c \"import zipfile; z = zipfile.ZipFile('" + in_folder("a.zip").string() +
                                    "'); assert z.testzip() is None; open('" + in_folder("out").string() +
                                    "', 'wb').write(z.read('" + name + "'))\"";
        return std::system(command.c_str()) == 0 ? read("out") : "not unpacked";  // NOLINT: a program of the test's
    }
};

TEST_F(Zip, HoldsWhatWasPutIn) {
    ZipArchive archive;
    archive.begin("first.txt");
    archive.add("one ");
    archive.add("two");
    archive.begin("3D/second.bin");
    const std::string large(1 << 20, 'x');
    archive.add(large);
    write("a.zip", archive.finish());
    EXPECT_EQ(unpacked("first.txt"), "one two");
    EXPECT_TRUE(unpacked("3D/second.bin") == large);
}

TEST_F(Zip, IsTheSameEveryTime) {
    const auto packed = [] {
        ZipArchive archive;
        archive.begin("a");
        archive.add("text");
        return archive.finish();
    };
    EXPECT_TRUE(packed() == packed());
}

}  // namespace
}  // namespace couplet
