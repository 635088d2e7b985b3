#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "exact/decimal.hpp"
#include "sheet/search_words.hpp"
#include "support/ratio_printer.hpp"

namespace couplet {
namespace {

// The Find panel, open, with what it looks for.
class FindingWindow : public NullWindow {
  public:
    explicit FindingWindow(Daylight light = Daylight::light, float scale = 1.0F)
        : NullWindow("", draw_find_panel, light, scale) {
        session.view.open = Step::find;
        session.view.find.wish.teeth = {{"sun", {18, 30}}, {"planet", {18, 30}}};
        frame(2);
        look_until_over();
    }
    void look_until_over() {
        while (!session.find_job->progress().is_over) {
            (void)look_after_find(session);
            std::this_thread::sleep_for(std::chrono::milliseconds(2));
        }
        frame(2);
    }
    [[nodiscard]] const SearchWish& wish() const { return session.view.find.wish; }
    [[nodiscard]] std::vector<std::string> rows() const {
        std::vector<std::string> names;
        for (const Said& one : screen.said)
            if (one.role == "row") names.push_back(one.name.substr(one.name.find('/') + 1));
        return names;
    }
    // Off every row.
    void point_away() {
        ImGui::GetIO().MousePos = {1000, 3900};
        frame(2);
    }
};

TEST(FindPanel, LooksForTheWishAndShowsWhatIsFound) {
    const FindingWindow window;
    EXPECT_EQ(window.said("ratio").value, "4");
    EXPECT_TRUE(window.shows("4 turns of sun per turn of carrier, ring held"));
    const SearchResult found = search(window.wish());
    std::vector<std::string> expected;
    for (const SearchRow& row : found.rows) expected.push_back(teeth_text(window.wish(), row));
    EXPECT_EQ(window.rows(),
              std::vector(expected.begin(),
                          expected.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(60, expected.size()))));
    EXPECT_EQ(window.said("ratio of 18, 18, 54 x 3").value, "4");
    EXPECT_EQ(window.said("error of 18, 18, 54 x 3").value, "0");
    EXPECT_EQ(window.said("size of 18, 18, 54 x 3").value, "108");  // 54 teeth of module 2
    EXPECT_EQ(window.said("18, 18, 54 x 3").value, "unbeaten");
    EXPECT_TRUE(window.shows("Found: " + std::to_string(found.rows.size())));
    EXPECT_TRUE(window.shows(rejected_text(found)));
}

TEST(FindPanel, ItsFieldsAreTheWish) {
    FindingWindow window;
    window.type("ratio", "43/10");
    EXPECT_EQ(window.wish().target, Ratio(43, 10));
    EXPECT_EQ(window.session.find_job->wish().target, Ratio(43, 10));
    window.type("ratio", "-2.5");
    EXPECT_EQ(window.wish().target, Ratio(-5, 2));
    window.type("ratio", "many");
    EXPECT_EQ(window.wish().target, Ratio(-5, 2));
    EXPECT_TRUE(window.shows("turns to 1, not 0"));
    window.type("ratio", "0");
    EXPECT_EQ(window.wish().target, Ratio(-5, 2));
    window.click("nearest: within");
    EXPECT_EQ(window.wish().tolerance, Ratio(1, 1000));
    window.type("largest error", "250");
    EXPECT_EQ(window.wish().tolerance, Ratio(1, 4000));
    window.click("nearest: 100 best");
    EXPECT_FALSE(window.wish().tolerance);
}

TEST(FindPanel, GivesThePartThatIsFreeToWhoeverHadTheOther) {
    FindingWindow window;
    window.click("held: sun");
    EXPECT_EQ(choice_of(window.wish()), (CentralChoice{"sun", "ring", "carrier"}));
    EXPECT_EQ(window.said("driven: ring").value, "on");
    window.click("output: ring");
    EXPECT_EQ(choice_of(window.wish()), (CentralChoice{"sun", "carrier", "ring"}));
}

TEST(FindPanel, ItsLimitsAreTheWish) {
    FindingWindow window;
    EXPECT_FALSE(window.says("most copies"));
    EXPECT_TRUE(window.shows(ranges_text(window.wish()) + "; " + limits_text(window.wish())));
    window.click("changelimits");
    window.type("most copies", "5");
    EXPECT_EQ(window.wish().copies, (CopiesRange{3, 5}));
    window.type("fewest copies", "6");
    EXPECT_EQ(window.wish().copies, (CopiesRange{6, 6}));
    window.type("fewest teeth of sun", "20");
    window.type("most teeth of sun", "40");
    EXPECT_EQ(window.wish().teeth.at("sun"), (ToothRange{20, 40}));
    window.type("most teeth of sun", "16");
    EXPECT_EQ(window.wish().teeth.at("sun"), (ToothRange{16, 16}));
    window.type("most teeth of ring", "90");
    EXPECT_EQ(window.wish().teeth.at("ring").most, 90);
    window.type("largest ring", "150");
    EXPECT_EQ(window.wish().largest_ring_diameter_mm, 150.0);
    window.type("largest ring", "");
    EXPECT_FALSE(window.wish().largest_ring_diameter_mm);
    window.type("module", "2.5");
    EXPECT_EQ(window.wish().module_mm, Ratio(5, 2));
    for (const char* name : {"profile shift", "free angles", "hunting", "one for each ratio"}) window.click(name);
    EXPECT_EQ(window.wish().shift, ShiftUse::allowed);
    EXPECT_EQ(window.wish().spacing, SpacingUse::free);
    EXPECT_EQ(window.wish().hunting, HuntingUse::required);
    EXPECT_EQ(window.wish().rows, RowsUse::each_ratio);
    EXPECT_NO_THROW(require_meant(window.wish()));
    window.click("foldlimits");
    EXPECT_FALSE(window.says("most copies"));
}

// A click asks for the train of the row as it was found.
TEST(FindPanel, AsksForTheTrainOfTheRowThatIsClicked) {
    FindingWindow window;
    const SearchRow row = window.session.find_job->progress().result.rows[1];
    window.click(teeth_text(window.wish(), row));
    ASSERT_EQ(window.last_commands.size(), 1U);
    const OpenFound* asked = std::get_if<OpenFound>(&window.last_commands.front());
    ASSERT_NE(asked, nullptr);
    EXPECT_TRUE(asked->row == row);
    EXPECT_TRUE(asked->wish == window.wish());
    EXPECT_EQ(window.session.train().gears[0].teeth, row.teeth[0]);
}

TEST(FindPanel, ShowsTheTrainOfTheRowThatThePointerRestsOn) {
    FindingWindow window;
    const SearchRow row = window.session.find_job->progress().result.rows[2];
    EXPECT_FALSE(window.session.view.find.shown);
    window.hover(teeth_text(window.wish(), row));
    EXPECT_EQ(window.session.view.find.shown, row);
    EXPECT_EQ(window.session.stage->train.gears[0].teeth, row.teeth[0]);
    window.point_away();
    EXPECT_FALSE(window.session.view.find.shown);
    EXPECT_EQ(window.session.stage->train.title, "Harbour capstan");
}

// The rows go with the wish that they were of.
TEST(FindPanel, ShowsNoTrainOfARowThatIsGone) {
    FindingWindow window;
    window.hover("18, 18, 54 x 3");
    ASSERT_TRUE(window.session.view.find.shown);
    window.session.view.find.wish.teeth = {{"sun", {20, 20}}, {"planet", {20, 20}}};
    window.frame();
    window.look_until_over();
    EXPECT_TRUE(window.rows().empty());
    EXPECT_FALSE(window.session.view.find.shown);
    EXPECT_EQ(window.session.stage->train.title, "Harbour capstan");
}

TEST(FindPanel, RanksTheRows) {
    FindingWindow window;
    const std::vector<SearchRow>& found = window.session.find_job->progress().result.rows;
    const std::vector<std::string> by_error = window.rows();
    for (std::size_t key = 0; key < kRankKeys; ++key) {
        const auto sort = static_cast<RankKey>(key);
        window.click("sort: " + std::string(name_of(sort)));
        EXPECT_EQ(window.session.view.find.sort, sort);
        EXPECT_EQ(window.rows().front(), teeth_text(window.wish(), found[ranked(found, sort).front()]));
    }
    EXPECT_NE(window.rows(), by_error);
}

TEST(FindPanel, TellsWhatWouldGiveATrainWhereThereIsNone) {
    FindingWindow window;
    window.session.view.find.wish.teeth = {{"sun", {20, 20}}, {"planet", {20, 20}}};
    window.frame();
    window.look_until_over();
    EXPECT_TRUE(window.shows("Nothing found"));
    EXPECT_TRUE(window.shows("What would give a train, the least change first:"));
    // 20 + 60 teeth do not go into 3 copies; 21, 21, 63 has one tooth of twenty more.
    EXPECT_NE(window.said("loosen tooth ranges").value.find("21, 21, 63 x 3"), std::string::npos);
}

TEST(FindPanel, TellsWhyAWishCannotBeSearched) {
    FindingWindow window;
    SearchWish& wish = window.session.view.find.wish;
    wish.arrangement = Arrangement::pairs;
    wish.pairs = 4;
    wish.teeth.clear();
    for (const std::string& name : count_names(wish)) wish.teeth[name] = {12, 10000};
    window.frame();
    window.look_until_over();
    EXPECT_TRUE(window.says("fault of the wish"));
    EXPECT_TRUE(window.rows().empty());
}

TEST(FindPanel, FitsItsWidthWithEveryArrangementAtBothScales) {
    for (const float scale : {1.0F, 2.0F}) {
        FindingWindow window(scale > 1.0F ? Daylight::dark : Daylight::light, scale);
        window.session.view.find.limits_open = true;
        for (const Arrangement arrangement : searchable_arrangements()) {
            SearchWish& wish = window.session.view.find.wish;
            wish = {};
            wish.arrangement = arrangement;
            wish.target = arrangement == Arrangement::paired ? Ratio(-123456, 10000) : Ratio(123456, 10000);
            for (const std::string& name : count_names(wish))
                if (name.find("ring") == std::string::npos) wish.teeth[name] = {17, 24};
            window.frame();
            window.look_until_over();
            for (const Said& said : window.screen.said)
                EXPECT_LE(said.box_px[2], 420 * scale) << said.name << " = " << said.value;
        }
    }
}

}  // namespace
}  // namespace couplet
