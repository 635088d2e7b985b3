// The README shows what the program says: its worked example, its error, its options.

#include <gtest/gtest.h>

#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class Readme : public CoupletRun {
  protected:
    std::string text_ = file_text(std::filesystem::path(COUPLET_ROOT) / "README.md");
};

TEST_F(Readme, ShowsTheRealOutputOfTheWorkedExample) {
    const Result result = run("couple");
    ASSERT_EQ(result.status, 0);
    EXPECT_NE(text_.find("```text\n" + result.out + "```"), std::string::npos)
        << "README.md does not hold the sheet of the default scene as it is now:\n"
        << result.out;
}

TEST_F(Readme, ItsSceneReadsAndCouplesAsItSays) {
    const std::size_t start = text_.find("```toml\n") + 8;
    std::ofstream(folder_ / "my_train.toml") << text_.substr(start, text_.find("```", start) - start);
    const Json sheet = json("couple my_train.toml");
    EXPECT_EQ(sheet["couplings"][1]["degrees"], (Json{"360", "-241.5"}));
    for (const char* arguments :
         {"couple my_train.toml --hold drum --drive ring=12", "couple my_train.toml --tie crank=drum --drive crank",
          "speeds my_train.toml", "couple my_train.toml --from 'drum on frame'"})
        EXPECT_EQ(run(arguments).status, 0) << arguments;
}

TEST_F(Readme, ItsErrorIsTheOneThatTheProgramPrints) {
    const std::size_t start = text_.find("my_train.toml:14: ");
    ASSERT_NE(start, std::string::npos);
    const std::string shown = text_.substr(start, text_.find('\n', start) - start + 1);
    std::ofstream(folder_ / "my_train.toml")
        << "couplet = 1\n\n\n\n\n\n\n\n\n\n[[member]]\nname = \"crank\"\n[[member.gear]]\ntheeth = 21\nteeth = 21\n";
    EXPECT_EQ(run("couple my_train.toml").err, shown);
}

// Every line of a block that shows a part of a sheet stands in that sheet, one below the other.
TEST_F(Readme, ShowsRealLinesOfSizeAndPlace) {
    const auto block_after = [&](const std::string& heading) {
        const std::size_t start = text_.find("```text\n", text_.find(heading)) + 8;
        return text_.substr(start, text_.find("```", start) - start);
    };
    EXPECT_NE(run("size").out.find(block_after("## Size: ")), std::string::npos);
    EXPECT_NE(run("place").out.find(block_after("## Place: ")), std::string::npos);
}

TEST_F(Readme, ShowsRealLinesOfCheck) {
    const std::string scene = "scenes/misfit_mooring.toml";
    const std::size_t start = text_.find("```text\n", text_.find("## Check: ")) + 8;
    ASSERT_NE(text_.substr(0, start).find("`" + scene + "`:", text_.find("## Check: ")), std::string::npos);
    const std::string shown = text_.substr(start, text_.find("```", start) - start);
    const Result result = run("check '" COUPLET_ROOT "/" + scene + "'");
    EXPECT_EQ(result.status, 1);
    EXPECT_EQ(result.out.substr(0, shown.size()), shown);
}

TEST_F(Readme, ShowsRealLinesOfFind) {
    const std::size_t section = text_.find("## Find: ");
    const std::size_t command = text_.find("couplet find", section) + std::string("couplet ").size();
    const std::size_t start = text_.find("```text\n", section) + 8;
    const std::string shown = text_.substr(start, text_.find("```", start) - start);
    const Result result = run(text_.substr(command, text_.find('\n', command) - command));
    EXPECT_EQ(result.status, 0);
    EXPECT_EQ(result.out.substr(0, shown.size()), shown);
}

// Every command of the section does what it says; the search by parallel and --join has a test of its own.
TEST_F(Readme, ItsSearchesFindSomething) {
    const std::size_t section = text_.find("## Find: ");
    const std::size_t start = text_.find("```sh\n", section) + 6;
    std::stringstream commands(text_.substr(start, text_.find("```", start) - start));
    int run_so_far = 0;
    for (std::string line; std::getline(commands, line); ++run_so_far) {
        const Result result = run(line.substr(std::string("couplet ").size()));
        EXPECT_EQ(result.status, 0) << line << '\n' << result.err;
    }
    EXPECT_EQ(run_so_far, 5);
    EXPECT_TRUE(std::filesystem::exists(folder_ / "found.svg"));
}

TEST_F(Readme, ItsSceneHasSizesAndPlaces) {
    const std::size_t start = text_.find("```toml\n") + 8;
    std::ofstream(folder_ / "my_train.toml") << text_.substr(start, text_.find("```", start) - start);
    EXPECT_EQ(run("size my_train.toml --match-shifts --drawing my_train.svg").status, 0);
    EXPECT_EQ(run("place my_train.toml --first 2.5 --drawn gap").status, 0);
    EXPECT_EQ(run("check my_train.toml --setting hauling").status, 0);
}

TEST_F(Readme, NamesEveryOptionOfSizeAndPlace) {
    for (const char* option : {"--match-shifts", "--drawing", "--drawn", "--first", "--timed"})
        EXPECT_NE(text_.find(option), std::string::npos) << option;
}

TEST_F(Readme, ItsExportsAreMade) {
    std::size_t start = text_.find("```toml\n") + 8;
    std::ofstream(folder_ / "my_train.toml") << text_.substr(start, text_.find("```", start) - start);
    start = text_.find("```sh\n", text_.find("## Export: ")) + 6;
    std::istringstream lines(text_.substr(start, text_.find("```", start) - start));
    int commands = 0;
    for (std::string line; std::getline(lines, line); ++commands) {
        ASSERT_TRUE(line.starts_with("couplet export ")) << line;
        EXPECT_EQ(run(line.substr(8)).status, 0) << line;
    }
    EXPECT_EQ(commands, 9);
    for (const char* option : {"--force", "--tolerance", "--clearance", "--member", "--loop strict", "--at place",
                               "--units mm", "--step", "--until", "--wrap", "--angles deg", "--exact"})
        EXPECT_NE(text_.find(option), std::string::npos) << option;
}

TEST_F(Readme, CountsTheScenes) {
    std::size_t scenes = 0;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(COUPLET_ROOT) + "/scenes"))
        if (entry.path().extension() == ".toml") ++scenes;
    EXPECT_EQ(scenes, 15U) << "README.md says fifteen";
    EXPECT_NE(text_.find("`scenes/` has fifteen"), std::string::npos);
}

TEST_F(Readme, NamesEveryOptionOfCouple) {
    for (const char* option : {"--first", "--decimals", "--cap", "--from", "--settings", "--hold", "--drive", "--tie",
                               "--setting", "--format", "-o FILE"})
        EXPECT_NE(text_.find(option), std::string::npos) << option;
}

}  // namespace
}  // namespace couplet
