#include "cli/output.hpp"

#include <sys/stat.h>

#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class Output : public CoupletRun {
  protected:
    Output() { write("set.toml", std::string(kSet) + kSettings); }
};

TEST_F(Output, WritesTheFileAndNothingElse) {
    const Result result = run("couple set.toml -o sheet.txt");
    EXPECT_EQ(result.status, 0);
    EXPECT_EQ(result.out, "");
    EXPECT_EQ(result.err, "");
    EXPECT_EQ(read("sheet.txt"), run("couple set.toml").out);
    EXPECT_EQ(files(), 2U);
}

TEST_F(Output, ReplacesAnOldFile) {
    write("sheet.csv", std::string(100000, 'x'));
    EXPECT_EQ(run("couple set.toml --format csv --output sheet.csv").status, 0);
    EXPECT_EQ(read("sheet.csv"), run("couple set.toml --format csv").out);
    EXPECT_EQ(files(), 2U);
}

TEST_F(Output, WritesTheSheetOfADesignThatFailsToo) {
    EXPECT_EQ(run("couple set.toml --hold ring --hold carrier --drive sun -o sheet.txt").status, 1);
    EXPECT_NE(read("sheet.txt").find("Locked"), std::string::npos);
}

TEST_F(Output, WritesNothingWhereTheInputIsWrong) {
    write("sheet.txt", "old");
    EXPECT_EQ(run("couple set.toml --setting lo -o sheet.txt").status, 2);
    EXPECT_EQ(read("sheet.txt"), "old");
    EXPECT_EQ(run("couple set.toml --setting lo -o new.txt").status, 2);
    EXPECT_EQ(files(), 2U);
}

TEST_F(Output, NeverReplacesTheScene) {
    expect_refused("couple set.toml -o ./set.toml",
                   "couplet: the output './set.toml' is the scene itself; name another file");
    EXPECT_EQ(read("set.toml"), std::string(kSet) + kSettings);
}

// Taking the place of a device would rob the whole machine of it.
TEST_F(Output, WritesIntoAPipeWithoutTakingItsPlace) {
    const std::string pipe = (folder_ / "pipe").string();
    ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
    const Result result = run("couple set.toml -o pipe & cat '" + pipe + "' >'" + pipe + ".read'; wait");
    EXPECT_EQ(result.err, "");
    EXPECT_TRUE(std::filesystem::is_fifo(pipe));
    EXPECT_EQ(read("pipe.read"), run("couple set.toml").out);
}

TEST_F(Output, RefusesAFolderThatIsNotThere) {
    const Result result = run("couple set.toml -o missing/sheet.txt");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(result.out, "");
    EXPECT_NE(result.err.find("missing/sheet.txt"), std::string::npos) << result.err;
    EXPECT_EQ(files(), 1U);
}

}  // namespace
}  // namespace couplet
