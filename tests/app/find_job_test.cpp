// Searches in the background. None of the tests waits for a time: a job that hangs is ended by CTest.
#include "app/find_job.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <functional>

namespace couplet {
namespace {

// As the frame loop does.
void look_until(FindJob& job, const std::function<bool()>& done) {
    while (!done()) {
        (void)job.look();
        std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
}

void look_until_over(FindJob& job) {
    look_until(job, [&] { return job.progress().is_over; });
}

SearchWish simple_wish(const Ratio& target, ToothRange every_gear) {
    SearchWish wish;
    wish.target = target;
    wish.teeth = {{"sun", every_gear}, {"planet", every_gear}};
    return wish;
}

// A search of minutes, whose first step alone takes seconds; its first candidates are rows.
SearchWish long_wish() {
    SearchWish wish;
    wish.arrangement = Arrangement::in_series;
    wish.target = Ratio(51234567, 10000000);
    wish.shift = ShiftUse::allowed;
    wish.spacing = SpacingUse::free;
    wish.most_nearest = 10000;
    for (const char* name : {"sun 1", "planet 1", "sun 2", "planet 2"}) wish.teeth[name] = {18, 60};
    return wish;
}

void expect_result(const SearchResult& found, const SearchResult& expected) {
    EXPECT_TRUE(found.rows == expected.rows);
    EXPECT_EQ(found.examined, expected.examined);
    EXPECT_EQ(found.rejected, expected.rejected);
    EXPECT_EQ(found.extent, expected.extent);
}

TEST(FindJob, EndsWithWhatTheSearchGives) {
    SearchWish wish = simple_wish(Ratio(43, 10), {18, 60});
    for (const std::optional<Ratio>& tolerance : {std::optional<Ratio>(), std::optional(Ratio(1, 100))})
        for (const RowsUse rows : {RowsUse::each_train, RowsUse::each_ratio}) {
            wish.tolerance = tolerance;
            wish.rows = rows;
            FindJob job(wish, 2);
            EXPECT_TRUE(job.wish() == wish);
            look_until_over(job);
            expect_result(job.progress().result, search(wish));
            EXPECT_EQ(job.progress().done, job.progress().all);
            EXPECT_TRUE(job.progress().why_not.empty());
            EXPECT_TRUE(job.progress().loosenings.empty());
            EXPECT_FALSE(job.look()) << "nothing changes any more";
            look_until(job, [&] { return job.is_at_rest(); });
        }
}

TEST(FindJob, ShowsRowsInTheirOrderBeforeItsEnd) {
    FindJob job(long_wish(), 1);
    look_until(job, [&] { return job.progress().result.rows.size() >= 2; });
    const FindProgress& progress = job.progress();
    EXPECT_FALSE(progress.is_over);
    EXPECT_FALSE(job.is_at_rest());
    EXPECT_LT(progress.done, progress.all);
    EXPECT_TRUE(std::ranges::is_sorted(progress.result.rows, comes_before));
    EXPECT_EQ(std::ranges::adjacent_find(progress.result.rows), progress.result.rows.end()) << "none twice";
    EXPECT_LE(progress.result.rows.size(), job.wish().most_nearest);
}

TEST(FindJob, StopsWithinAStepThatLasts) {
    FindJob job(long_wish(), 2);
    look_until(job, [&] { return !job.progress().result.rows.empty(); });
    job.stop();
    look_until_over(job);
    EXPECT_EQ(job.progress().result.extent, SearchExtent::partial);
    EXPECT_FALSE(job.progress().result.rows.empty());
    look_until(job, [&] { return job.is_at_rest(); });
}

TEST(FindJob, GoesWithoutBeingAskedToStop) {
    const FindJob job(long_wish(), 1);
    EXPECT_FALSE(job.is_at_rest());
}

TEST(FindJob, SaysWhyAWishCannotBeSearched) {
    FindJob nothing(simple_wish(Ratio(0), {18, 20}), 1);
    look_until_over(nothing);
    EXPECT_EQ(nothing.progress().why_not, "no train has the ratio 0");
    EXPECT_TRUE(nothing.progress().result.rows.empty());
    SearchWish wide;
    wide.arrangement = Arrangement::pairs;
    wide.pairs = 4;
    wide.target = 2;
    for (const std::string& name : count_names(wide)) wide.teeth[name] = {12, 10000};
    FindJob too_much(wide, 1);
    look_until_over(too_much);
    EXPECT_FALSE(too_much.progress().why_not.empty());
}

// Sun 20, planet 20, ring 60: 80 teeth do not go into 3 copies; 21, 21, 63 have one tooth of twenty more.
TEST(FindJob, TellsWhatWouldGiveATrainWhereNothingIsFound) {
    SearchWish wish = simple_wish(4, {20, 20});
    wish.tolerance = Ratio(0);
    FindJob job(wish, 1);
    look_until_over(job);
    EXPECT_TRUE(job.progress().result.rows.empty());
    EXPECT_EQ(job.progress().result.examined, 1);
    ASSERT_FALSE(job.progress().loosenings.empty());
    EXPECT_EQ(job.progress().loosenings.front().limit, Limit::tooth_ranges);
    EXPECT_EQ(job.progress().loosenings.front().row.teeth, (std::vector{21, 21, 63}));
}

}  // namespace
}  // namespace couplet
