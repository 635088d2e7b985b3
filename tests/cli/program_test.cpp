#include "cli/program.hpp"

#include <algorithm>
#include <cstdlib>

#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

class Program : public CoupletRun {
  protected:
    Program() { write("set.toml", std::string(kSet) + kSettings); }
};

TEST_F(Program, PrintsTheCouplingSheetOfTheBuiltInSceneFromAnywhere) {
    const Result result = run("couple");
    EXPECT_EQ(result.status, 0);
    EXPECT_EQ(result.err, "");
    EXPECT_EQ(result.out.rfind("Harbour capstan\n", 0), 0U);
    // The example in the design's section 5.
    EXPECT_NE(result.out.find("-161/240"), std::string::npos);
    EXPECT_NE(result.out.find("-241.5"), std::string::npos);
}

TEST_F(Program, CarriesTheSceneFileWithoutAChange) {
    const std::string scene = std::string("'") + COUPLET_ROOT + "/scenes/harbour_capstan.toml'";
    EXPECT_EQ(run("couple").out, run("couple " + scene).out);
}

TEST_F(Program, TakesOptionsBeforeOrBehindTheScene) {
    EXPECT_EQ(run("couple --format text set.toml").out, run("couple set.toml").out);
}

// With a display it is seen in tests/app.
TEST_F(Program, IsTheWindowWithoutAVerbAndSaysWhatElseThereIsWithoutADisplay) {
    unsetenv("DISPLAY");
    unsetenv("WAYLAND_DISPLAY");
    for (const char* arguments : {"", "set.toml", "--panel size", "watch", "watch set.toml --setting low"}) {
        const Result result = run(arguments);
        EXPECT_EQ(result.status, 2) << arguments;
        EXPECT_EQ(result.out, "");
        EXPECT_EQ(result.err.rfind("couplet: no window can be opened here: ", 0), 0U) << result.err;
        EXPECT_NE(result.err.find("couplet couple SCENE prints the numbers"), std::string::npos) << result.err;
        EXPECT_EQ(std::ranges::count(result.err, '\n'), 1) << result.err;
    }
}

TEST_F(Program, TellsNoColoursAndNoControlCharacters) {
    for (const char c : run("couple").out) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20);
}

TEST_F(Program, PrintsEveryFormat) {
    EXPECT_EQ(run("couple set.toml --format text").out.rfind("Test set\n========\n", 0), 0U);
    EXPECT_EQ(run("couple set.toml --format md").out.rfind("# Test set\n", 0), 0U);
    EXPECT_EQ(run("couple set.toml --format csv").out.rfind("setting,outcome,first joint,", 0), 0U);
    EXPECT_EQ(json("couple set.toml").at("scene"), "Test set");
    EXPECT_EQ(run("speeds set.toml --format csv").out.rfind("held,driver,output,", 0), 0U);
    EXPECT_EQ(run("speeds set.toml --format md").out.rfind("# Test set\n", 0), 0U);
}

TEST_F(Program, HelpsAndTellsItsVersion) {
    const Result help = run("--help");
    EXPECT_EQ(help.status, 0);
    for (const char* verb : {"size ", "place ", "couple ", "speeds ", "check "})
        EXPECT_NE(help.out.find(verb), std::string::npos) << verb;
    EXPECT_EQ(help.err, "");
    EXPECT_NE(run("couple --help").out.find("degrees"), std::string::npos);
    EXPECT_EQ(run("speeds -h").status, 0);
    const Result version = run("--version");
    EXPECT_EQ(version.status, 0);
    EXPECT_EQ(version.out, "couplet " COUPLET_VERSION "\n");
}

TEST_F(Program, NamesUnknownVerbsAndOptions) {
    expect_refused("coupel", "couplet: unknown verb 'coupel'; did you mean 'couple'?");
    expect_refused(
        "juggle",
        "couplet: unknown verb 'juggle'; the verbs are 'find', 'size', 'place', 'couple', 'speeds', 'watch', "
        "'record', 'check', 'export' and 'sheet'");
    expect_refused("couple --fromat json", "couplet: unknown option '--fromat'; did you mean '--format'?");
    expect_refused("couple --seting=low", "couplet: unknown option '--seting=low'; did you mean '--setting'?");
    expect_refused("couple set.toml more.toml",
                   "couplet: 'more.toml' is one argument too many; a verb takes one scene");
}

TEST_F(Program, RefusesOptionsWithoutTheirValue) {
    const Result result = run("couple --format");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(result.out, "");
    EXPECT_EQ(result.err.rfind("couplet: --format", 0), 0U) << result.err;
    EXPECT_EQ(run("couple --setting low --settings all").status, 2);
}

TEST_F(Program, ReportsAnOutputThatCannotBeWritten) {
    const Result closed = run("couple set.toml >&-");
    EXPECT_EQ(closed.status, 2);
    EXPECT_EQ(closed.err.rfind("couplet: cannot write to standard output: ", 0), 0U) << closed.err;
    if (!std::filesystem::exists("/dev/full")) GTEST_SKIP() << "this system has no device that is always full";
    EXPECT_EQ(run("couple set.toml >/dev/full").status, 2);
    EXPECT_EQ(run("--help >/dev/full").status, 2);
}

TEST_F(Program, SurvivesAReaderThatGoesAway) {
    // The pipe's writing end outlives its reader: sleep keeps the program waiting until `true` is gone.
    const Result result =
        run("--version; { sleep 0.2; '" COUPLET_PROGRAM "' couple set.toml 2>broken; echo $? >status; } | true");
    EXPECT_EQ(result.status, 0);
    EXPECT_EQ(read("status"), "2\n");
    EXPECT_EQ(read("broken").rfind("couplet: cannot write to standard output: ", 0), 0U);
}

}  // namespace
}  // namespace couplet
