#include "sheet/findings.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "sheet/quantity.hpp"

namespace couplet {
namespace {

const std::vector<Finding> kFindings = {
    {"backlash", "sun, planet", 0.1, 0.0, "mm", Verdict::holds, "ISO 21771:2007", ""},
    {"undercut", "sun", 16, 17.1, "teeth", Verdict::caution, "ISO 21771:2007", "more teeth"},
    {"tip clearance", "ring", -0.2, 0.3, "mm", Verdict::fails, "common practice", "a lower addendum"}};

TEST(Findings, TellWhetherOneFails) {
    EXPECT_TRUE(any_fails(kFindings));
    EXPECT_FALSE(any_fails({kFindings[0], kFindings[1]}));
    EXPECT_EQ(findings_summary(kFindings), "1 fails, 1 caution, 1 holds");
    EXPECT_EQ(findings_summary({}), "none fails, 0 cautions, 0 hold");
}

TEST(Findings, AreCountedInASentence) {
    EXPECT_EQ(verdict_sentence(kFindings), "1 rule holds, 1 caution, 1 fails.");
    EXPECT_EQ(verdict_sentence({kFindings[0], kFindings[0]}), "2 rules hold, 0 cautions, none fails.");
    EXPECT_EQ(verdict_sentence({kFindings[2], kFindings[2]}), "0 rules hold, 0 cautions, 2 fail.");
}

TEST(Findings, AreToldOnceByTheWorseVerdict) {
    Finding worse = kFindings[0];
    worse.verdict = Verdict::fails;
    Finding better = kFindings[2];
    better.verdict = Verdict::holds;
    Finding elsewhere = kFindings[0];
    elsewhere.where = "planet, ring";
    const std::vector<Finding> joined = joined_findings(kFindings, {worse, better, elsewhere});
    ASSERT_EQ(joined.size(), 4U);
    EXPECT_EQ(joined[0].verdict, Verdict::fails);
    EXPECT_EQ(joined[2].verdict, Verdict::fails);
    EXPECT_EQ(joined[3].where, "planet, ring");
}

TEST(Findings, ShowWhatFailsFirst) {
    Page page;
    add_findings(page, kFindings);
    const std::string text = text_page(page);
    const std::size_t fails = text.find("FAILS: tip clearance at ring: -0.200 mm, limit 0.300 mm (common practice).");
    const std::size_t caution = text.find("Caution: undercut at sun: 16 teeth, limit 17.1 teeth");
    const std::size_t holds = text.find("backlash");
    ASSERT_NE(fails, std::string::npos) << text;
    ASSERT_NE(caution, std::string::npos) << text;
    EXPECT_LT(fails, caution);
    EXPECT_LT(caution, holds);
    EXPECT_NE(text.find("a lower addendum."), std::string::npos);
}

TEST(Findings, SayOneWithItsMendApart) {
    EXPECT_EQ(finding_statement(kFindings[2]),
              "FAILS: tip clearance at ring: -0.200 mm, limit 0.300 mm (common practice).");
    EXPECT_EQ(mend_text(kFindings[2]), "What would mend it: a lower addendum.");
    EXPECT_EQ(mend_text(kFindings[0]), "");
}

// The keys are read from the design's section 5 (check).
TEST(Findings, HaveTheKeysOfTheContract) {
    const Json json = findings_json(kFindings);
    ASSERT_EQ(json.size(), 3U);
    for (const char* key : {"rule", "where", "figure", "limit", "verdict", "source", "mend"})
        EXPECT_TRUE(json[0].contains(key)) << key;
    EXPECT_EQ(json[0]["verdict"], "holds");
    EXPECT_EQ(json[1]["verdict"], "caution");
    EXPECT_EQ(json[2]["verdict"], "fails");
    Finding without = kFindings[0];
    without.figure = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(findings_json({without})[0]["figure"].is_null());
}

TEST(Findings, JoinTheListOfQuantities) {
    Table list = quantities_list();
    add_findings(list, kFindings);
    EXPECT_NE(csv_table(list).find("fails,ring,tip clearance,-0.2,mm\r\n"), std::string::npos);
}

}  // namespace
}  // namespace couplet
