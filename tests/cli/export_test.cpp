#include <sys/stat.h>

#include "cli/run_couplet.hpp"

namespace couplet {
namespace {

namespace fs = std::filesystem;

class ExportVerb : public CoupletRun {
  protected:
    ExportVerb() {
        std::string scene = kSet;
        write("set.toml", scene + kSettings);
    }
    [[nodiscard]] std::vector<std::string> names(const std::string& folder) const {
        std::vector<std::string> found;
        for (const auto& entry : fs::directory_iterator(folder_ / folder))
            found.push_back(entry.path().filename().string());
        std::ranges::sort(found);
        return found;
    }
};

TEST_F(ExportVerb, WritesEachKindByItsEnding) {
    for (const char* target :
         {"a.glb", "a.urdf", "a.3mf", "a.stl/", "ring.stl --member ring", "a.dxf", "a.svg", "a.csv"}) {
        const Result result = run(std::string("export -o ") + target);
        EXPECT_EQ(result.status, 0) << target;
        EXPECT_EQ(result.out + result.err, "") << target;
    }
    EXPECT_TRUE(read("a.glb").starts_with("glTF"));
    EXPECT_TRUE(read("a.urdf").starts_with("<?xml"));
    EXPECT_TRUE(read("a.3mf").starts_with("PK"));
    EXPECT_TRUE(read("a.dxf").starts_with("  0\nSECTION\n"));
    EXPECT_NE(read("a.svg").find("<svg "), std::string::npos);
    EXPECT_TRUE(read("a.csv").starts_with("time_s,crank (deg),"));
    const std::vector<std::string> parts = {"crank.stl", "drum.stl", "frame.stl", "planet.stl", "ring.stl"};
    EXPECT_EQ(names("a.stl"), parts);
    EXPECT_EQ(names("a_meshes"), parts);
    EXPECT_TRUE(read("ring.stl") == read("a.stl/ring.stl"));
    // a.glb, a.urdf, a_meshes, a.3mf, a.stl, ring.stl, a.dxf, a.svg, a.csv, set.toml: nothing unfinished beside them.
    EXPECT_EQ(files(), 10U);
}

TEST_F(ExportVerb, NamesItsMeshesBesideTheDescription) {
    fs::create_directory(folder_ / "robots");
    EXPECT_EQ(run("export -o robots/capstan.urdf").status, 0);
    EXPECT_NE(read("robots/capstan.urdf").find("filename=\"capstan_meshes/planet.stl\""), std::string::npos);
    EXPECT_EQ(names("robots"), (std::vector<std::string>{"capstan.urdf", "capstan_meshes"}));
}

TEST_F(ExportVerb, ReplacesOnlyWhereItIsToldTo) {
    write("a.glb", "old");
    expect_refused("export -o a.glb", "couplet: 'a.glb' is there already; --force replaces it");
    EXPECT_EQ(read("a.glb"), "old");
    EXPECT_EQ(run("export -o a.glb --force").status, 0);
    EXPECT_TRUE(read("a.glb").starts_with("glTF"));
    EXPECT_EQ(run("export -o a.urdf").status, 0);
    const std::string before = read("a.urdf");
    EXPECT_EQ(run("export -o a.urdf").status, 2);
    EXPECT_EQ(run("export -o a.urdf --force --setting lowering").status, 0);
    EXPECT_NE(read("a.urdf"), before);
    EXPECT_EQ(files(), 4U);
}

// A folder may hold more than what an export left there.
TEST_F(ExportVerb, NeverReplacesAFolderWithOtherThingsInIt) {
    fs::create_directory(folder_ / "a.stl");
    write("a.stl/letter.txt", "dear");
    expect_refused("export -o a.stl/ --force",
                   "couplet: the folder 'a.stl' holds 'letter.txt', which no export of this kind made; give another "
                   "name");
    EXPECT_EQ(read("a.stl/letter.txt"), "dear");
    EXPECT_EQ(names("a.stl").size(), 1U);
}

// The description cannot take its place, so the meshes must not either.
TEST_F(ExportVerb, WritesAllOfAnExportOrNothing) {
    fs::create_directory(folder_ / "a.urdf");
    EXPECT_EQ(run("export -o a.urdf --force").status, 2);
    EXPECT_FALSE(fs::exists(folder_ / "a_meshes"));
    EXPECT_EQ(files(), 2U);
    fs::create_directory(folder_ / "b_meshes");
    write("b_meshes/old.stl", "old");
    EXPECT_EQ(run("export -o b.urdf").status, 2);
    EXPECT_EQ(read("b_meshes/old.stl"), "old");
    EXPECT_FALSE(fs::exists(folder_ / "b.urdf"));
    EXPECT_EQ(files(), 3U);
}

TEST_F(ExportVerb, LeavesNothingBehindWhereItRefuses) {
    const std::string locked = std::string("'") + COUPLET_ROOT + "/scenes/stuck_sluice.toml'";
    EXPECT_EQ(run("export " + locked + " -o a.urdf").status, 2);
    EXPECT_EQ(run("export set.toml -o a.glb").status, 2) << "the scene has no module";
    EXPECT_EQ(run("export -o a.stl/ --clearance 4").status, 2);
    EXPECT_EQ(run("export -o missing/a.glb").status, 2);
    EXPECT_EQ(files(), 1U);
}

TEST_F(ExportVerb, SaysWhatIsWrongAndWhatWouldBeRight) {
    expect_refused("export", "couplet: there is no file to export into; name one with -o, like -o train.glb");
    expect_refused("export -o a.stl",
                   "couplet: 'a.stl' would hold one member; name it with --member, or give a folder for all of them: "
                   "-o a.stl/");
    expect_refused("export -o a.glb/", "couplet: .glb is one file; take the slash off the name 'a.glb/'");
    expect_refused("export -o a.glb --clearance 0.1",
                   "couplet: --clearance is for .stl and .3mf; .glb does not take it");
    expect_refused("export -o a.glb --member ring", "couplet: --member is for .stl; .glb does not take it");
    expect_refused("export -o a.stl/ --units inch", "couplet: --units is for .dxf and .svg; .stl does not take it");
    expect_refused("export -o a.csv --tolerance 0.1",
                   "couplet: --tolerance is for .glb, .urdf, .stl, .3mf, .dxf and .svg; .csv does not take it");
    expect_refused("export -o a.dxf --units cm", "couplet: --units has no 'cm'; did you mean 'mm'?");
    expect_refused("export -o a.csv --step 5",
                   "couplet: --step '5' is no time and no turning above 0; write it like 0.1s, 5deg or 2turns");
    expect_refused("export -o a.csv --until -2turns",
                   "couplet: --until '-2turns' is no time and no turning above 0; write it like 0.1s, 5deg or 2turns");
    expect_refused("export -o a.stl --member rng", "couplet: unknown member 'rng'; did you mean 'ring'?");
    const Result result = run("export -o a.step");
    EXPECT_EQ(result.status, 2);
    EXPECT_EQ(
        result.err,
        "couplet: 'a.step' does not say what kind of file it is to be; give it one of these endings: .glb (an "
        "animated model (glTF)), .urdf (a robot description, with a folder of meshes beside it), .stl (a member to "
        "print; .stl/ for a folder of all), .3mf (all members to print), .dxf (tooth profiles to model from), .svg "
        "(tooth profiles at true scale) or .csv (a table of every joint's angle)\n");
    EXPECT_EQ(run("export -o a.glb --tolerance 0").status, 2);
    EXPECT_EQ(files(), 1U);
}

TEST_F(ExportVerb, NeverReplacesTheScene) {
    fs::rename(folder_ / "set.toml", folder_ / "set.glb");
    EXPECT_EQ(run("export set.glb -o ./set.glb --force").status, 2);
    EXPECT_TRUE(read("set.glb").starts_with(std::string(kSet).substr(0, 20)));
}

// A model of a train that is stuck is written all the same, and the status says that the design fails.
TEST_F(ExportVerb, SaysByItsStatusWhereTheModelStands) {
    const std::string locked = std::string("'") + COUPLET_ROOT + "/scenes/stuck_sluice.toml'";
    EXPECT_EQ(run("export " + locked + " -o a.glb").status, 1);
    EXPECT_TRUE(read("a.glb").starts_with("glTF"));
    EXPECT_EQ(run("export " + locked + " -o a.3mf").status, 0) << "what is printed does not depend on a setting";
}

TEST_F(ExportVerb, TakesFinerTolerancesAndMatchedShifts) {
    EXPECT_EQ(run("export -o fine.glb --tolerance 0.005").status, 0);
    EXPECT_EQ(run("export -o usual.glb").status, 0);
    EXPECT_GT(read("fine.glb").size(), read("usual.glb").size());
    EXPECT_EQ(run("export -o matched.glb --match-shifts --rack D").status, 0);
}

TEST_F(ExportVerb, WritesTheSameBytesEveryTime) {
    for (const char* ending : {"glb", "3mf", "dxf", "svg", "csv"}) {
        EXPECT_EQ(run(std::string("export -o a.") + ending).status, 0);
        EXPECT_EQ(run(std::string("export -o b.") + ending).status, 0);
        EXPECT_TRUE(read(std::string("a.") + ending) == read(std::string("b.") + ending)) << ending;
    }
}

TEST_F(ExportVerb, DrawsProfilesInInchesAndAtTheOrigin) {
    EXPECT_EQ(run("export -o a.svg --units inch --at origin --tolerance 0.05").status, 0);
    EXPECT_NE(read("a.svg").find("in\" viewBox"), std::string::npos);
    EXPECT_EQ(run("export -o a.dxf --units inch --at origin").status, 0);
    EXPECT_NE(read("a.dxf").find("$INSUNITS\n 70\n1\n"), std::string::npos);
}

// The example of the design's section 5, in the words of the command line; the scene of the second one has no module.
TEST_F(ExportVerb, WritesATableOfMotion) {
    EXPECT_EQ(run("export -o a.csv --step 1s --until 2turns --wrap --exact").status, 0);
    EXPECT_EQ(
        read("a.csv"),
        "time_s,crank (deg),crank on frame (deg),crank on frame (turns),drum on frame (deg),drum on frame (turns),"
        "planet on drum (deg),planet on drum (turns),ring on frame (deg),ring on frame (turns)\r\n"
        "0,0,0,0,0,0,0,0,0,0\r\n"
        "1,180,180,1/2,42,7/60,239.25,319/480,0,0\r\n"
        "2,0,0,0,84,7/30,118.5,79/240,0,0\r\n"
        "3,180,180,1/2,126,7/20,357.75,159/160,0,0\r\n"
        "4,0,0,0,168,7/15,237,79/120,0,0\r\n");
    EXPECT_EQ(run("export set.toml -o b.csv --setting high --step 90deg --until 0.5turns --angles rad").status, 0);
    // The ring at 1 rpm: a quarter turn in 15 s, pi/2.
    EXPECT_NE(read("b.csv").find("\r\n15,1.57079632679,"), std::string::npos) << read("b.csv");
}

TEST_F(ExportVerb, TakesTheLoopThatIsAskedFor) {
    EXPECT_EQ(run("export -o usual.glb").status, 0);
    EXPECT_EQ(run("export -o alike.glb --loop alike").status, 0);
    EXPECT_EQ(run("export -o strict.glb --loop strict").status, 0);
    EXPECT_TRUE(read("usual.glb") == read("alike.glb"));
    EXPECT_GT(read("strict.glb").size(), read("alike.glb").size()) << "240 turns of keys, and tooth marks";
    const std::string tide = std::string("'") + COUPLET_ROOT + "/scenes/tide_dial.toml'";
    const Result result = run("export " + tide + " -o tide.glb --loop strict");
    EXPECT_EQ(result.status, 2);
    EXPECT_NE(result.err.find("take the loop that looks alike: --loop alike"), std::string::npos) << result.err;
    EXPECT_EQ(files(), 4U);
}

// Interrupted in the middle of a table that would be of some gigabytes: nothing is left, and what was there stays.
TEST_F(ExportVerb, LeavesNothingBehindWhereItIsInterrupted) {
    write("a.csv", "old");
    for (const char* signal : {"INT", "TERM"}) {
        const std::string command =
            "cd '" + folder_.string() +
            "' && { '" COUPLET_PROGRAM
            "' export -o a.csv --force --step 1/1000000turns --until 900turns >.out 2>.err & "
            "pid=$!; while kill -0 $pid && ! ls -a | grep -q unfinished; do sleep 0.01; done; kill -" +
            signal + " $pid; wait $pid; }";
        const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c): the test is of a signal
        EXPECT_EQ(WEXITSTATUS(raw), 2);
        EXPECT_EQ(read(".err"), "couplet: stopped; nothing was written\n");
        EXPECT_EQ(read("a.csv"), "old");
        EXPECT_EQ(files(), 2U);
    }
}

// A file may be no larger than 512 KiB here.
TEST_F(ExportVerb, LeavesNothingBehindWhereTheDiskIsFull) {
    const std::string command = "cd '" + folder_.string() +
                                "' && ulimit -f 1024 && '" COUPLET_PROGRAM
                                "' export -o a.csv --step 1/100000turns >.out 2>.err";
    const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c): the test is of a limit
    EXPECT_EQ(WEXITSTATUS(raw), 2);
    EXPECT_NE(read(".err").find("a.csv cannot be written: "), std::string::npos) << read(".err");
    EXPECT_EQ(files(), 1U);
}

}  // namespace
}  // namespace couplet
