#include "cli/run_couplet.hpp"
#include "view/image.hpp"

namespace couplet {
namespace {

constexpr const char* kTeeth = "[teeth]\nmodule = 2\nbacklash = 0.08\n";

class WatchVerb : public CoupletRun {
  protected:
    // Small and quick; more options may follow.
    [[nodiscard]] Image still(const std::string& arguments) const {
        const Result result = run("watch --still still.png --size 64x36 --quality light " + arguments);
        EXPECT_EQ(result.status, 0) << arguments;
        EXPECT_EQ(result.out, "") << arguments;
        EXPECT_EQ(result.err, "") << arguments;
        return image_of_png(read("still.png"));
    }
    static std::string scene(const std::string& name) {
        return "'" + (std::filesystem::path(COUPLET_ROOT) / "scenes" / (name + ".toml")).string() + "'";
    }
};

TEST_F(WatchVerb, WritesAPictureOfTheSizeAskedFor) {
    EXPECT_EQ(run("watch --still usual.png --quality light --size 321x123").status, 0);
    const Image image = image_of_png(read("usual.png"));
    EXPECT_EQ(image.width, 321);
    EXPECT_EQ(image.height, 123);
    EXPECT_EQ(files(), 1U) << "and nothing beside it";
    EXPECT_EQ(run("watch --still least.png --size 16x16").status, 0);
    EXPECT_EQ(image_of_png(read("least.png")).width, 16);
}

TEST_F(WatchVerb, DrawsTheSamePictureEachTime) {
    EXPECT_EQ(still("--turns 1/3"), still("--turns 1/3"));
}

// 240 turns of the crank bring every joint back (7/30, 7/16 and 161/240 of them are whole).
TEST_F(WatchVerb, TakesTurnsExactly) {
    const Image quarter = still("--turns 0.25");
    EXPECT_EQ(still("--turns 1/4"), quarter);
    EXPECT_EQ(still("--turns 1000000000000080.25"), quarter) << "and this many are a multiple of 240";
    EXPECT_EQ(still("--turns -239.75"), quarter);
    EXPECT_NE(still("--turns 0.26"), quarter);
}

TEST_F(WatchVerb, ShowsWhatItsOptionsAskFor) {
    const Image usual = still("");
    for (const char* option : {"--look clay", "--look line", "--view top", "--azimuth 40", "--elevation 70", "--zoom 2",
                               "--at planet", "--marks off", "--spread 0.5", "--cutaway", "--transparent",
                               "--finish ring=brass", "--finish 'planet=#2a6f97'", "--show pitch", "--show centres",
                               "--show speeds", "--show contacts", "--show names"})
        EXPECT_NE(still(option), usual) << option;
    EXPECT_EQ(still("--look metal --view iso --marks on --spread 0 --zoom 1 --observer frame"), usual)
        << "the defaults are what they are said to be";
    EXPECT_EQ(still("--show pitch,speeds"), still("--show pitch --show speeds"));
}

TEST_F(WatchVerb, RidesOnTheObserver) {
    EXPECT_NE(still("--observer drum --turns 0.3"), still("--turns 0.3"));
    EXPECT_NE(still("--observer planet --turns 0.3"), still("--observer drum --turns 0.3"));
}

TEST_F(WatchVerb, MovesTheTrainInTheSettingAskedFor) {
    EXPECT_NE(still("--turns 0.3 --setting 'ring loose'"), still("--turns 0.3"));
    EXPECT_EQ(still("--setting 'ring loose'"), still("")) << "every setting starts in the same place";
}

TEST_F(WatchVerb, LeavesAlphaWhereNothingStands) {
    const Image image = still("--transparent");
    EXPECT_LE(image.rgba[3], 3);
    std::uint8_t most = 0;
    for (std::size_t i = 3; i < image.rgba.size(); i += 4) most = std::max(most, image.rgba[i]);
    EXPECT_EQ(most, 255);
}

TEST_F(WatchVerb, DrawsTrainsThatDoNotMoveOrAssemble) {
    EXPECT_EQ(still(scene("stuck_sluice") + " --turns 0.3"), still(scene("stuck_sluice")));
    (void)still(scene("misfit_mooring") + " --turns 0.3");
    write("set.toml", std::string(kSet) + kTeeth);
    EXPECT_EQ(still("set.toml --turns 0.3"), still("set.toml")) << "without a setting nothing turns";
}

TEST_F(WatchVerb, RefusesWhatMakesNoSense) {
    const std::string to = "watch --still still.png ";
    for (const char* size :
         {"12", "x", "1280", "1280x", "x720", "15x720", "1280x20000", "12.5x30", "1280X720", "1e3x9"})
        expect_refused(to + "--size " + size, std::string("couplet: --size '") + size +
                                                  "' is no size; write it like 1920x1080, each side from 16 to 16384 "
                                                  "pixels");
    expect_refused(to + "--turns x", "couplet: --turns 'x' is not a number; write it like 0.25 or 1/3");
    expect_refused(to + "--spread 1.5", "couplet: --spread 1.5 is out of range; it goes from 0 to 1");
    expect_refused(to + "--elevation 91", "couplet: --elevation 91 is out of range; it goes from -90 to 90");
    expect_refused(to + "--finish ring",
                   "couplet: --finish 'ring' says no finish; write it like ring=brass or ring=#2a6f97");
    EXPECT_EQ(files(), 0U) << "no half of a file";
}

TEST_F(WatchVerb, SuggestsTheNearestWord) {
    const struct {
        const char* option;
        const char* wrong;
        const char* nearest;
    } kWords[] = {{"--look", "metall", "metal"},      {"--view", "frnt", "front"},
                  {"--marks", "offf", "off"},         {"--quality", "ligth", "light"},
                  {"--show", "speed", "speeds"},      {"--observer", "drumm", "drum"},
                  {"--at", "plante", "planet"},       {"--setting", "hualing", "hauling"},
                  {"--finish", "ring=bras", "brass"}, {"--finish", "rnig=brass", "ring"}};
    for (const auto& word : kWords) {
        const Result result = run(std::string("watch --still still.png ") + word.option + " " + word.wrong);
        EXPECT_EQ(result.status, 2) << word.wrong;
        EXPECT_EQ(result.out, "") << word.wrong;
        EXPECT_NE(result.err.find(std::string("'") + word.nearest + "'"), std::string::npos) << result.err;
        EXPECT_EQ(std::ranges::count(result.err, '\n'), 1) << result.err;
    }
    EXPECT_EQ(run("watch --still still.png --at frame").status, 2) << "the frame is everywhere";
    EXPECT_EQ(run("watch --still still.png --finish 'ring=#12'").status, 2);
    EXPECT_EQ(files(), 0U);
}

TEST_F(WatchVerb, KeepsWhatIsThereWhereItRefuses) {
    write("still.png", "old");
    EXPECT_EQ(run("watch --still still.png --look wood").status, 2);
    EXPECT_EQ(read("still.png"), "old");
    EXPECT_EQ(run("watch nowhere.toml --still still.png").status, 2);
    EXPECT_EQ(read("still.png"), "old");
    EXPECT_EQ(files(), 1U);
}

TEST_F(WatchVerb, RefusesAFolderThatIsNotThere) {
    const Result result = run("watch --still missing/still.png --size 16x16");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(result.out, "");
    EXPECT_NE(result.err.find("missing/still.png"), std::string::npos) << result.err;
    EXPECT_EQ(files(), 0U);
}

TEST_F(WatchVerb, NeverReplacesTheScene) {
    const std::string text = std::string(kSet) + kSettings + kTeeth;
    write("set.toml", text);
    const Result result = run("watch set.toml --still ./set.toml --size 16x16");
    EXPECT_EQ(result.status, 2);
    EXPECT_NE(result.err.find("is the scene itself"), std::string::npos) << result.err;
    EXPECT_EQ(read("set.toml"), text);
}

TEST_F(WatchVerb, NamesTheSceneWhoseTeethCannotBe) {
    write("bare.toml", std::string(kSet) + kSettings);
    const Result result = run("watch bare.toml --still still.png");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(result.err.rfind("bare.toml: ", 0), 0U) << result.err;
    EXPECT_EQ(files(), 1U);
}

}  // namespace
}  // namespace couplet
