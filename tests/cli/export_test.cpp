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
    for (const char* target : {"a.glb", "a.urdf", "a.3mf", "a.stl/", "ring.stl --member ring"}) {
        const Result result = run(std::string("export -o ") + target);
        EXPECT_EQ(result.status, 0) << target;
        EXPECT_EQ(result.out + result.err, "") << target;
    }
    EXPECT_TRUE(read("a.glb").starts_with("glTF"));
    EXPECT_TRUE(read("a.urdf").starts_with("<?xml"));
    EXPECT_TRUE(read("a.3mf").starts_with("PK"));
    const std::vector<std::string> parts = {"crank.stl", "drum.stl", "frame.stl", "planet.stl", "ring.stl"};
    EXPECT_EQ(names("a.stl"), parts);
    EXPECT_EQ(names("a_meshes"), parts);
    EXPECT_TRUE(read("ring.stl") == read("a.stl/ring.stl"));
    // a.glb, a.urdf, a_meshes, a.3mf, a.stl, ring.stl, set.toml: nothing unfinished beside them.
    EXPECT_EQ(files(), 7U);
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
                   "couplet: --clearance is for what is printed, .stl and .3mf; .glb has the true teeth");
    expect_refused("export -o a.glb --member ring", "couplet: --member is for .stl; a .glb holds the whole train");
    expect_refused("export -o a.stl --member rng", "couplet: unknown member 'rng'; did you mean 'ring'?");
    const Result result = run("export -o a.step");
    EXPECT_EQ(result.status, 2);
    EXPECT_NE(result.err.find("does not say what kind of file it is to be; give it one of these endings: .glb"),
              std::string::npos)
        << result.err;
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
    for (const char* ending : {"glb", "3mf"}) {
        EXPECT_EQ(run(std::string("export -o a.") + ending).status, 0);
        EXPECT_EQ(run(std::string("export -o b.") + ending).status, 0);
        EXPECT_TRUE(read(std::string("a.") + ending) == read(std::string("b.") + ending)) << ending;
    }
}

}  // namespace
}  // namespace couplet
