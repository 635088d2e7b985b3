#include "find/search.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <ranges>
#include <stdexcept>

#include "exact/decimal.hpp"
#include "find/judge.hpp"
#include "find/plain_formulas.hpp"
#include "find/tooth_products.hpp"
#include "motion/motion.hpp"
#include "place/assembly.hpp"
#include "support/ratio_printer.hpp"
#include "tooth/mesh_checks.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

SearchWish wish_for(Arrangement arrangement, const Ratio& target, const Ratio& tolerance,
                    std::map<std::string, ToothRange> teeth, CopiesRange copies) {
    SearchWish wish;
    wish.arrangement = arrangement;
    wish.target = target;
    wish.tolerance = tolerance;
    wish.teeth = std::move(teeth);
    wish.copies = copies;
    return wish;
}

std::vector<PlainRow> plain(const std::vector<SearchRow>& rows) {
    std::vector<PlainRow> found;
    for (const SearchRow& row : rows) found.push_back({row.teeth, row.copies, row.ratio});
    return found;
}

void sort_by_counts(std::vector<PlainRow>& rows) {
    std::ranges::sort(rows, {}, [](const PlainRow& row) { return std::pair(row.teeth, row.copies); });
}

// Printed where a test fails.
std::string text(const PlainRow& row) {
    std::string all;
    for (const int teeth : row.teeth) all += std::to_string(teeth) + " ";
    return all + "x " + std::to_string(row.copies) + ", " + row.ratio.to_string();
}

void expect_plain_rows(const SearchWish& wish) {
    const SearchResult result = search(wish);
    std::vector<PlainRow> found = plain(result.rows);
    std::vector<PlainRow> expected = plain_rows(wish);
    sort_by_counts(found);
    sort_by_counts(expected);
    EXPECT_FALSE(expected.empty());
    EXPECT_EQ(found.size(), expected.size());
    for (std::size_t row = 0; row < std::min(found.size(), expected.size()); ++row)
        ASSERT_TRUE(found[row] == expected[row]) << text(found[row]) << " against " << text(expected[row]);
    std::int64_t accounted = static_cast<std::int64_t>(result.rows.size());
    for (const std::int64_t rejected : result.rejected) accounted += rejected;
    EXPECT_EQ(accounted, result.examined);
}

const std::vector<CentralChoice> kChoices = {{"ring", "sun", "carrier"}, {"ring", "carrier", "sun"},
                                             {"sun", "ring", "carrier"}, {"sun", "carrier", "ring"},
                                             {"carrier", "sun", "ring"}, {"carrier", "ring", "sun"}};

// Wide enough a tolerance lets every candidate of the right sense through, so that the other rules alone sort.
TEST(SimpleSets, AreThoseOfTheFormulas) {
    for (const CentralChoice& choice : kChoices) {
        const Ratio target = choice.held == "carrier" ? Ratio(-2) : Ratio(2);
        SearchWish wish = wish_for(Arrangement::simple, target, Ratio(30),
                                   {{"sun", {12, 27}}, {"planet", {13, 26}}, {"ring", {40, 75}}}, {1, 9});
        wish.choice = choice;
        expect_plain_rows(wish);
    }
}

TEST(SimpleSets, OfAnExactRatioAreThoseOfTheFormulas) {
    expect_plain_rows(wish_for(Arrangement::simple, Ratio(30, 7), Ratio(0),
                               {{"sun", {12, 42}}, {"planet", {12, 48}}, {"ring", {20, 140}}}, {2, 8}));
    expect_plain_rows(wish_for(Arrangement::simple, Ratio(4), Ratio(1, 1000),
                               {{"sun", {12, 60}}, {"planet", {12, 60}}, {"ring", {20, 180}}}, {2, 8}));
}

TEST(SteppedSets, AreThoseOfTheFormulas) {
    for (const CentralChoice& choice : kChoices) {
        const Ratio target = choice.held == "carrier" ? Ratio(-2) : Ratio(2);
        SearchWish wish = wish_for(Arrangement::stepped, target, Ratio(30),
                                   {{"sun", {14, 20}},
                                    {"planet's first gear", {18, 24}},
                                    {"planet's second gear", {14, 19}},
                                    {"ring", {48, 62}}},
                                   {2, 6});
        wish.choice = choice;
        expect_plain_rows(wish);
    }
}

TEST(PairedSets, AreThoseOfTheFormulas) {
    SearchWish wish = wish_for(
        Arrangement::paired, Ratio(-2), Ratio(5),
        {{"sun", {18, 25}}, {"inner planet", {14, 19}}, {"outer planet", {15, 20}}, {"ring", {58, 86}}}, {1, 5});
    expect_plain_rows(wish);
    wish.teeth["sun"] = {20, 22};
    wish.target = Ratio(2);
    for (const CentralChoice& choice : {kChoices[2], kChoices[4]}) {
        wish.choice = choice;
        expect_plain_rows(wish);
    }
}

TEST(SetsInTwoRings, AreThoseOfTheFormulas) {
    SearchWish wish = wish_for(Arrangement::two_rings, Ratio(60), Ratio(200),
                               {{"sun", {14, 21}},
                                {"planet's first gear", {18, 24}},
                                {"held ring", {50, 70}},
                                {"planet's second gear", {15, 24}},
                                {"output ring", {45, 70}}},
                               {2, 5});
    expect_plain_rows(wish);
    wish.choice = {"output ring", "sun", "held ring"};
    expect_plain_rows(wish);
    wish.choice = {"output ring", "sun", "carrier"};
    expect_plain_rows(wish);
}

TEST(SetsInSeries, AreThoseOfTheFormulas) {
    expect_plain_rows(wish_for(Arrangement::in_series, Ratio(20), Ratio(1, 20),
                               {{"sun 1", {14, 18}},
                                {"planet 1", {18, 24}},
                                {"ring 1", {50, 65}},
                                {"sun 2", {15, 19}},
                                {"planet 2", {18, 23}},
                                {"ring 2", {50, 65}}},
                               {3, 4}));
}

TEST(PairsOnFixedAxes, AreThoseOfTheFormulas) {
    SearchWish wish = wish_for(Arrangement::pairs, Ratio(-2), Ratio(1, 4), {}, {});
    wish.pairs = 1;
    expect_plain_rows(wish);
    wish.target = Ratio(3);
    wish.pairs = 2;
    for (const std::string& name : count_names(wish))
        wish.teeth[name] = name.ends_with("driving") ? ToothRange{14, 24} : ToothRange{20, 36};
    expect_plain_rows(wish);
    wish.pairs = 3;
    wish.target = Ratio(-127, 40);
    wish.tolerance = Ratio(1, 500);
    for (const std::string& name : count_names(wish))
        wish.teeth[name] = name.ends_with("driving") ? ToothRange{14, 19} : ToothRange{21, 29};
    expect_plain_rows(wish);
}

TEST(RevertedTrains, AreThoseOfTheFormulas) {
    SearchWish wish = wish_for(Arrangement::reverted, Ratio(4), Ratio(1, 20), {}, {});
    for (const std::string& name : count_names(wish))
        wish.teeth[name] = name.ends_with("driving") ? ToothRange{14, 24} : ToothRange{26, 44};
    expect_plain_rows(wish);
}

// One small wish of each arrangement, each with rows.
std::vector<SearchWish> small_wishes() {
    std::vector<SearchWish> wishes = {
        wish_for(Arrangement::simple, Ratio(4), Ratio(1, 20), {{"sun", {14, 24}}, {"planet", {14, 26}}}, {2, 5}),
        wish_for(Arrangement::stepped, Ratio(6), Ratio(1, 20),
                 {{"sun", {18, 23}}, {"planet's first gear", {24, 29}}, {"planet's second gear", {17, 21}}}, {3, 3}),
        wish_for(Arrangement::paired, Ratio(-2), Ratio(1, 20),
                 {{"sun", {20, 24}}, {"inner planet", {15, 18}}, {"outer planet", {15, 18}}, {"ring", {58, 74}}},
                 {3, 3}),
        wish_for(Arrangement::two_rings, Ratio(60), Ratio(1),
                 {{"sun", {15, 19}}, {"planet's first gear", {20, 24}}, {"planet's second gear", {18, 23}}}, {3, 3}),
        wish_for(Arrangement::in_series, Ratio(20), Ratio(1, 50),
                 {{"sun 1", {17, 21}}, {"planet 1", {22, 27}}, {"sun 2", {18, 21}}, {"planet 2", {22, 27}}}, {3, 3}),
        wish_for(Arrangement::pairs, Ratio(4), Ratio(1, 100), {}, {}),
        wish_for(Arrangement::reverted, Ratio(4), Ratio(1, 20), {}, {})};
    for (const std::size_t wish : {5U, 6U})
        for (const std::string& name : count_names(wishes[wish]))
            wishes[wish].teeth[name] = name.ends_with("driving") ? ToothRange{15, 20} : ToothRange{30, 42};
    return wishes;
}

TEST(Search, CoversEverySearchableArrangement) {
    std::vector<Arrangement> covered;
    for (const SearchWish& wish : small_wishes()) {
        covered.push_back(wish.arrangement);
        EXPECT_FALSE(search(wish).rows.empty()) << static_cast<int>(wish.arrangement);
    }
    EXPECT_EQ(covered, searchable_arrangements());
}

// By the code of size, place and motion, called here once more.
void expect_sound(const SearchWish& wish, const SearchRow& row) {
    const Train train = train_of(wish, row);
    EXPECT_TRUE(faults(train).empty());
    const TrainTeeth teeth = teeth_of(train);
    for (const Finding& finding : mesh_findings(train, teeth))
        EXPECT_NE(finding.verdict, Verdict::fails) << finding.rule << " " << finding.where;
    const Placement placement = place_members(train, teeth);
    EXPECT_EQ(assembly_of(train, teeth, placement, starting_rotations(train, placement)).outcome,
              AssemblyOutcome::assembles);
    const Motion motion = solve(train, train.settings.front());
    ASSERT_EQ(motion.outcome, Outcome::moves);
    const MemberIndex output = *find_member(train, choice_of(wish).output);
    EXPECT_EQ(*turns_per_driver_turn(motion, rate_on(train, motion, output, kFrame)) * row.ratio, Ratio(1));
}

TEST(Search, GivesOnlyRowsThatKeepEveryRule) {
    for (SearchWish wish : small_wishes())
        for (const ShiftUse shift : {ShiftUse::none, ShiftUse::allowed}) {
            wish.shift = shift;
            for (const SearchRow& row : search(wish).rows) expect_sound(wish, row);
        }
}

bool has(const std::vector<SearchRow>& rows, const SearchRow& row) {
    return std::ranges::find(rows, row) != rows.end();
}

TEST(Search, LosesNoRowWhereRangesWiden) {
    for (const SearchWish& narrow : small_wishes()) {
        SearchWish wide = narrow;
        const std::vector<std::string> names = count_names(narrow);
        const std::vector<ToothRange> ranges = ranges_of(narrow);
        for (std::size_t count = 0; count < names.size(); ++count)
            if (ranges[count].most < kMostSearchedTeeth)
                wide.teeth[names[count]] = {ranges[count].fewest - 1, ranges[count].most + 2};
        wide.copies = {2, 6};
        wide.tolerance = *narrow.tolerance + Ratio(1, 1000);
        const std::vector<SearchRow> rows = search(wide).rows;
        for (const SearchRow& row : search(narrow).rows) EXPECT_TRUE(has(rows, row));
    }
}

TEST(Search, OfSlicesJoinedIsTheWhole) {
    for (SearchWish wish : small_wishes()) {
        for (const bool nearest : {false, true}) {
            if (nearest) wish.tolerance.reset();
            wish.most_nearest = 7;
            const SearchResult whole = search(wish);
            for (const std::size_t slices : {2U, 3U, 40U}) {
                std::vector<SearchResult> parts;
                for (std::size_t slice = 0; slice < slices; ++slice) parts.push_back(search(wish, {slice, slices}));
                const SearchResult joined = join(wish, parts);
                EXPECT_EQ(joined.rows, whole.rows);
                EXPECT_EQ(joined.examined, whole.examined);
                EXPECT_EQ(joined.extent, SearchExtent::whole);
                if (!nearest) {
                    EXPECT_EQ(joined.rejected, whole.rejected);
                }
            }
        }
    }
}

// Threads are given whatever step is next: neither rows nor counts may depend on who made which.
TEST(Search, OfManyThreadsIsThatOfOne) {
    for (SearchWish wish : small_wishes())
        for (const RowsUse rows : {RowsUse::each_train, RowsUse::each_ratio})
            for (const bool nearest : {false, true}) {
                if (nearest) wish.tolerance.reset();
                wish.most_nearest = 7;
                wish.rows = rows;
                const SearchResult one = search(wish);
                const SearchResult many = search(wish, {}, {}, 5);
                EXPECT_EQ(many.rows, one.rows);
                EXPECT_EQ(many.examined, one.examined);
                EXPECT_EQ(many.rejected, one.rejected);
            }
}

TEST(Search, OfEachRatioGivesTheFirstTrainOfEach) {
    for (SearchWish wish : small_wishes())
        for (const bool nearest : {false, true}) {
            wish.rows = RowsUse::each_train;
            wish.tolerance = Ratio(1, 20);
            std::vector<SearchRow> expected;
            for (const SearchRow& row : search(wish).rows)
                if (std::ranges::find(expected, row.ratio, &SearchRow::ratio) == expected.end())
                    expected.push_back(row);
            wish.rows = RowsUse::each_ratio;
            wish.most_nearest = 5;
            if (nearest && expected.size() > 5) {
                wish.tolerance.reset();
                expected.resize(5);
            }
            const SearchResult found = search(wish);
            EXPECT_EQ(found.rows, expected);
            std::int64_t accounted = static_cast<std::int64_t>(found.rows.size());
            for (const std::int64_t rejected : found.rejected) accounted += rejected;
            EXPECT_EQ(accounted, found.examined);
            std::vector<SearchResult> parts;
            for (std::size_t slice = 0; slice < 3; ++slice) parts.push_back(search(wish, {slice, 3}));
            EXPECT_EQ(join(wish, parts).rows, expected);
        }
}

// The nearest values by two methods that share nothing: tables of ratios with two pointers, and gear sets.
TEST(Search, OfPairsFindsTheRatiosOfTheirProducts) {
    const ToothRange range{20, 44};  // none is undercut, and all mesh
    for (const char* target : {"3.14159265358979323846", "1.41421356", "0.7853981"})
        for (const int pairs : {1, 2, 3}) {
            SearchWish wish;
            wish.arrangement = Arrangement::pairs;
            wish.pairs = pairs;
            wish.target = pairs % 2 == 0 ? *parse_ratio(target) : -*parse_ratio(target);
            wish.rows = RowsUse::each_ratio;
            wish.most_nearest = 12;
            for (const std::string& name : count_names(wish)) wish.teeth[name] = range;
            const ToothProducts products(std::vector<PairRange>(static_cast<std::size_t>(pairs), {range, range}));
            const std::vector<ToothProduct> expected = products.nearest(*parse_ratio(target), {12, std::nullopt});
            const std::vector<SearchRow> rows = search(wish).rows;
            ASSERT_EQ(rows.size(), expected.size());
            for (std::size_t row = 0; row < rows.size(); ++row) {
                EXPECT_EQ(rows[row].ratio.magnitude(), expected[row].ratio);
                EXPECT_EQ(std::accumulate(rows[row].teeth.begin(), rows[row].teeth.end(), 0),
                          std::accumulate(expected[row].driving.begin(), expected[row].driving.end(), 0) +
                              std::accumulate(expected[row].driven.begin(), expected[row].driven.end(), 0));
            }
        }
}

// At free angles all counts go whose sum has room for the copies; equal spacing goes before where it can be.
TEST(Search, AtFreeAnglesPutsCopiesInWhereTheyFit) {
    for (SearchWish wish : small_wishes()) {
        if (!form_of(wish.arrangement).has_copies) continue;
        const std::vector<SearchRow> equal = search(wish).rows;
        wish.spacing = SpacingUse::free;
        const std::vector<SearchRow> free = search(wish).rows;
        EXPECT_GT(free.size(), equal.size());
        for (const SearchRow& row : equal) EXPECT_TRUE(has(free, row));
        for (const SearchRow& row : free) {
            expect_sound(wish, row);
            EXPECT_EQ(row.places_deg.empty(), has(equal, row));
            if (row.places_deg.empty()) {
                EXPECT_EQ(row.balance.residual, row.copies == 1 ? 1.0 : 0.0);
            }
        }
    }
}

// The nearest rows are the first ones of all rows.
TEST(Search, WithoutAToleranceGivesTheNearestRows) {
    for (SearchWish wish : small_wishes()) {
        wish.tolerance = Ratio(1000);
        const std::vector<SearchRow> all = search(wish).rows;
        wish.tolerance.reset();
        for (const std::size_t most : {1U, 5U, 30U}) {
            wish.most_nearest = most;
            const std::vector<SearchRow> nearest = search(wish).rows;
            ASSERT_EQ(nearest.size(), std::min<std::size_t>(most, all.size()));
            EXPECT_TRUE(std::ranges::equal(nearest, all | std::views::take(nearest.size())));
        }
    }
}

TEST(Search, StoppedSaysThatItIsPartial) {
    const SearchWish wish = small_wishes().front();
    const SearchResult whole = search(wish);
    std::vector<std::size_t> steps;
    const SearchResult part = search(wish, {}, [&](const SearchProgress& progress) {
        steps.push_back(progress.done);
        EXPECT_EQ(progress.all, 11U);  // suns of 14 to 24 teeth
        return progress.done == 4 ? SearchPace::stop : SearchPace::go_on;
    });
    EXPECT_EQ(steps, (std::vector<std::size_t>{1, 2, 3, 4}));
    EXPECT_EQ(part.extent, SearchExtent::partial);
    EXPECT_EQ(part.examined * 11, whole.examined * 4);
    for (const SearchRow& row : part.rows) EXPECT_TRUE(has(whole.rows, row));
    EXPECT_EQ(join(wish, std::vector{part, whole}).extent, SearchExtent::partial);
}

// One sun, so one step, of some hundred million candidates that only the judge can tell apart.
TEST(Search, CanBeStoppedWithinAStepThatLasts) {
    SearchWish wish = wish_for(Arrangement::in_series, Ratio(51, 10), Ratio(1), {{"sun 1", {18, 18}}}, {2, 8});
    wish.shift = ShiftUse::allowed;
    wish.spacing = SpacingUse::free;
    for (const unsigned threads : {1U, 2U}) {
        std::size_t new_rows = 0;
        const SearchResult part = search(
            wish, {},
            [&](const SearchProgress& progress) {
                EXPECT_EQ(progress.done, 0U);
                EXPECT_EQ(progress.all, 1U);
                new_rows += progress.new_rows.size();
                return new_rows >= 10 ? SearchPace::stop : SearchPace::go_on;
            },
            threads);
        EXPECT_EQ(part.extent, SearchExtent::partial);
        EXPECT_EQ(part.rows.size(), new_rows) << "each row is told of once";
    }
}

TEST(Search, KeepsTheRingWithinItsDiameter) {
    SearchWish wish = small_wishes().front();
    const std::vector<SearchRow> all = search(wish).rows;
    wish.largest_ring_diameter_mm = 126.0;
    wish.module_mm = Ratio(2);
    const SearchResult within = search(wish);
    EXPECT_GT(within.rejected_by(Rule::ring_diameter), 0);
    std::vector<SearchRow> expected = all;
    std::erase_if(expected, [](const SearchRow& row) { return row.teeth[2] > 63; });
    EXPECT_FALSE(expected.empty());
    EXPECT_LT(expected.size(), all.size());
    EXPECT_EQ(within.rows, expected);
    EXPECT_DOUBLE_EQ(within.rows.front().ring_diameter_mm, 2.0 * within.rows.front().teeth[2]);
}

TEST(Search, KeepsOnlyHuntingMeshesWhereRequired) {
    SearchWish wish = small_wishes().front();
    std::vector<SearchRow> expected = search(wish).rows;
    std::erase_if(expected, [](const SearchRow& row) { return !row.hunting; });
    wish.hunting = HuntingUse::required;
    EXPECT_FALSE(expected.empty());
    EXPECT_EQ(search(wish).rows, expected);
    for (const SearchRow& row : expected) {
        EXPECT_EQ(std::gcd(row.teeth[0], row.teeth[1]), 1);
        EXPECT_EQ(std::gcd(row.teeth[1], row.teeth[2]), 1);
    }
}

// 12 teeth are undercut without a shift (limit 17.1, ISO 21771); 12, 18 and 48 are 5 to 1, and 60 / 3 is whole.
TEST(Search, WithShiftsAvoidsUndercut) {
    SearchWish wish =
        wish_for(Arrangement::simple, Ratio(5), Ratio(0), {{"sun", {12, 12}}, {"planet", {18, 18}}}, {3, 3});
    const SearchResult without = search(wish);
    EXPECT_TRUE(without.rows.empty());
    EXPECT_EQ(without.rejected_by(Rule::undercut), 1);
    wish.shift = ShiftUse::allowed;
    const SearchResult with = search(wish);
    ASSERT_EQ(with.rows.size(), 1U);
    EXPECT_EQ(with.rows[0].teeth, (std::vector{12, 18, 48}));
    // (17.097 - 12) sin^2(20) / 2 = 0.2982: the least shift, in thousandths.
    EXPECT_EQ(with.rows[0].shifts[0], Ratio(299, 1000));
    EXPECT_TRUE(with.rows[0].shifts[1].is_zero());
    EXPECT_FALSE(with.rows[0].shifts[2].is_zero());
    EXPECT_TRUE(std::ranges::find(with.rows[0].cautions, "undercut") == with.rows[0].cautions.end());
}

// Sun 24, planet 18: a ring of 60 fits; one of 59 needs a shift to stand at the same centres.
TEST(Search, WithShiftsMendsRingsThatDoNotQuiteFit) {
    SearchWish wish = wish_for(Arrangement::simple, Ratio(83, 24), Ratio(0),
                               {{"sun", {24, 24}}, {"planet", {18, 18}}, {"ring", {59, 59}}}, {1, 1});
    const SearchResult without = search(wish);
    EXPECT_TRUE(without.rows.empty());
    wish.shift = ShiftUse::allowed;
    const SearchResult with = search(wish);
    ASSERT_EQ(with.rows.size(), 1U);
    EXPECT_GT(with.rows[0].shifts[2], Ratio(0));
    EXPECT_EQ(with.rejected_by(Rule::tooth_range), 0);  // the ratio alone rejects the other rings
}

// Each candidate of a range, judged without closed forms.
std::vector<SearchRow> judged_rows(const SearchWish& wish) {
    Judge judge(wish);
    std::vector<SearchRow> rows;
    for (int sun = wish.teeth.at("sun").fewest; sun <= wish.teeth.at("sun").most; ++sun)
        for (int planet = wish.teeth.at("planet").fewest; planet <= wish.teeth.at("planet").most; ++planet)
            for (int copies = wish.copies.fewest; copies <= wish.copies.most; ++copies) {
                const int ring = sun + 2 * planet;
                const auto judgement = judge.judge({sun, planet, ring}, copies, Ratio(sun + ring, sun));
                if (const SearchRow* row = std::get_if<SearchRow>(&judgement)) rows.push_back(*row);
            }
    std::ranges::sort(rows, comes_before);
    return rows;
}

TEST(Search, RejectsByClosedFormsOnlyWhatTheJudgeRejects) {
    const SearchWish wish =
        wish_for(Arrangement::simple, Ratio(4), Ratio(100), {{"sun", {14, 25}}, {"planet", {13, 26}}}, {1, 9});
    const std::vector<SearchRow> found = search(wish).rows;
    const std::vector<SearchRow> judged = judged_rows(wish);
    EXPECT_EQ(found.size(), judged.size());
    EXPECT_TRUE(found == judged);
}

// A clock's motion work, 12/36 and 10/40: 12 to 1. Clock repair texts, from memory.
TEST(PublishedTrains, TheMotionWorkOfAClockIsFoundAgain) {
    SearchWish wish = wish_for(Arrangement::pairs, Ratio(12), Ratio(0), {}, {});
    for (const std::string& name : count_names(wish))
        wish.teeth[name] = name.ends_with("driving") ? ToothRange{18, 24} : ToothRange{60, 80};
    const std::vector<SearchRow> rows = search(wish).rows;
    // The same two ratios with twice as many teeth: pinions of 10 and 12 are undercut as involutes.
    EXPECT_TRUE(std::ranges::any_of(rows, [](const SearchRow& row) {
        return row.teeth == std::vector{20, 80, 24, 72};
    }));
}

// The Antikythera mechanism's mean Moon: 64/38, 48/24 and 127/32, |254/19| with three external meshes. Freeth et al.,
// Nature 444 (2006) 587 (tooth counts from memory).
TEST(PublishedTrains, TheAntikytheraMoonIsFoundAgain) {
    SearchWish wish = wish_for(Arrangement::pairs, Ratio(-19, 254), Ratio(0), {}, {});
    wish.pairs = 3;
    wish.teeth = {{"pair 1, driving", {62, 66}}, {"pair 1, driven", {36, 40}},    {"pair 2, driving", {46, 50}},
                  {"pair 2, driven", {22, 26}},  {"pair 3, driving", {125, 129}}, {"pair 3, driven", {30, 34}}};
    const std::vector<SearchRow> rows = search(wish).rows;
    EXPECT_TRUE(std::ranges::any_of(
        rows, [](const SearchRow& row) { return row.teeth == std::vector{64, 38, 48, 24, 127, 32}; }));
    for (const SearchRow& row : rows) EXPECT_EQ(row.teeth[4], 127);  // prime
}

TEST(Search, RefusesWhatCannotBeMeant) {
    const auto refused = [](auto change) {
        SearchWish wish = small_wishes().front();
        change(wish);
        EXPECT_THROW(static_cast<void>(search(wish)), std::invalid_argument);
    };
    refused([](SearchWish& wish) { wish.arrangement = Arrangement::differential; });
    refused([](SearchWish& wish) { wish.target = Ratio(0); });
    refused([](SearchWish& wish) { wish.tolerance = Ratio(-1, 10); });
    refused([](SearchWish& wish) { wish.teeth["moon"] = {12, 20}; });
    refused([](SearchWish& wish) { wish.teeth["sun"] = {2, 20}; });
    refused([](SearchWish& wish) { wish.teeth["sun"] = {21, 20}; });
    refused([](SearchWish& wish) { wish.copies = {0, 3}; });
    refused([](SearchWish& wish) { wish.copies = {3, 64}; });
    refused([](SearchWish& wish) { wish.module_mm = Ratio(0); });
    refused([](SearchWish& wish) { wish.most_nearest = 0; });
    refused([](SearchWish& wish) { wish.choice = {"ring", "ring", "sun"}; });
    refused([](SearchWish& wish) { wish.choice = {"ring", "moon", "sun"}; });
    EXPECT_THROW(static_cast<void>(search(small_wishes().front(), {2, 2})), std::invalid_argument);
    EXPECT_THROW(static_cast<void>(search(small_wishes().front(), {}, {}, 0)), std::invalid_argument);
    // 138 gears of either side of four pairs: 139 x 140 x 141 x 142 / 24 = 16.2 million choices, and one gear more is
    // beyond 2^24.
    SearchWish huge = wish_for(Arrangement::pairs, Ratio(4), Ratio(0), {}, {});
    huge.pairs = 4;
    for (const std::string& name : count_names(huge)) huge.teeth[name] = {12, 160};
    EXPECT_THROW(static_cast<void>(search(huge)), std::length_error);
    SearchWish wide = wish_for(Arrangement::in_series, Ratio(20), Ratio(0), {}, {});
    for (const char* name : {"sun 1", "planet 1", "sun 2", "planet 2"}) wide.teeth[name] = {15, 1500};
    EXPECT_THROW(static_cast<void>(search(wide)), std::length_error);
}

}  // namespace
}  // namespace couplet
