#include "app/finding_places.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "sheet/place_sheet.hpp"
#include "sheet/size_sheet.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

Train planetary(int sun, int planet, int ring, int copies = 1) {
    Train train = train_from("sun " + std::to_string(sun) + " x planet " + std::to_string(planet) + "; planet " +
                             std::to_string(planet) + " in ring " + std::to_string(ring) + " (planet on carrier)");
    train.teeth.module_mm = Ratio(2);
    train.members[1].copies = copies;
    return train;
}
const GearIndex kSun{0};
const MemberIndex kPlanet{1};

Finding failing(std::string rule, std::string where) {
    Finding finding;
    finding.rule = std::move(rule);
    finding.where = std::move(where);
    finding.verdict = Verdict::fails;
    return finding;
}

bool has_rule(const std::vector<Finding>& findings, const std::string& rule) {
    return std::ranges::find(findings, rule, &Finding::rule) != findings.end();
}

TEST(FindingPlaces, StandWithTheGearThatIsNamedFirst) {
    const Train train = planetary(20, 20, 60);
    const std::vector<Finding> findings = {failing("undercut", "sun"), failing("tip clearance", "sun tip in planet"),
                                           failing("contact above the fillet", "planet with sun"),
                                           failing("transverse contact ratio", "sun, planet"),
                                           failing("proof of mesh", "planet, ring, copy 1")};
    const FindingPlaces places = finding_places(train, findings);
    EXPECT_EQ(places.gears.at(kSun).size(), 3U);
    EXPECT_EQ(places.gears.at(GearIndex{1}).size(), 2U);
    EXPECT_TRUE(places.elsewhere.empty());
}

TEST(FindingPlaces, LeaveOutWhatHolds) {
    Finding finding = failing("undercut", "sun");
    finding.verdict = Verdict::holds;
    EXPECT_TRUE(finding_places(planetary(20, 20, 60), {finding}).gears.empty());
}

TEST(FindingPlaces, FindLongNamesBeforeShortOnes) {
    Train train = planetary(20, 20, 60);
    train.members[1].name = "sun with moon";
    const FindingPlaces places =
        finding_places(train, {failing("contact above the fillet", "sun with moon with ring")});
    EXPECT_EQ(places.gears.count(GearIndex{1}), 1U);
}

TEST(FindingPlaces, PutRealFindingsOfATrainBesideTheirFields) {
    // 12 teeth are undercut; (12 + 62) / 3 is not whole; the two centres of the planet differ.
    Train train = planetary(12, 24, 62, 3);
    train.teeth.module_mm = Ratio(21, 10);  // not in ISO 54
    std::vector<Finding> findings = train_sizes(train, false).findings;
    const TrainPlaces assembly = train_places(train, false, {}, std::nullopt);
    findings.insert(findings.end(), assembly.assembly.findings.begin(), assembly.assembly.findings.end());
    const FindingPlaces places = finding_places(train, findings);
    EXPECT_TRUE(has_rule(places.gears.at(kSun), "undercut"));
    EXPECT_TRUE(has_rule(places.members.at(kPlanet), "assembly condition"));
    EXPECT_TRUE(has_rule(places.members.at(kPlanet), "centre distances agree"));
    ASSERT_EQ(places.module.size(), 1U);  // once for all three gears
    EXPECT_EQ(places.module.front().rule, "module of ISO 54");
}

TEST(FindingPlaces, KeepWhatBelongsNowhere) {
    EXPECT_EQ(finding_places(planetary(20, 20, 60), {failing("odd rule", "the whole train")}).elsewhere.size(), 1U);
}

}  // namespace
}  // namespace couplet
