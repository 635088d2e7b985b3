#include "find/search_wish.hpp"

#include <gtest/gtest.h>

#include "motion/motion.hpp"

namespace couplet {
namespace {

SearchWish wish_of(Arrangement arrangement) {
    SearchWish wish;
    wish.arrangement = arrangement;
    wish.target = Ratio(1);
    return wish;
}

std::vector<int> usual_counts(Arrangement arrangement) {
    return form_of(arrangement).usual;
}

// The trains themselves say what is in mesh, what is a ring and who is who.
TEST(SearchWish, KnowsThePlacesOfTheCounts) {
    for (const Arrangement arrangement : searchable_arrangements()) {
        const SearchWish wish = wish_of(arrangement);
        const std::vector<int> counts = usual_counts(arrangement);
        ASSERT_EQ(count_names(wish).size(), counts.size());
        const Train train = train_of(arrangement, counts);
        const CountPlaces places = count_places(wish);
        ASSERT_EQ(places.meshes.size(), train.meshes.size());
        for (std::size_t mesh = 0; mesh < train.meshes.size(); ++mesh) {
            EXPECT_EQ(counts[places.meshes[mesh].first], train[train.meshes[mesh].first].teeth);
            EXPECT_EQ(counts[places.meshes[mesh].second], train[train.meshes[mesh].second].teeth);
        }
        std::size_t rings = 0;
        for (const Gear& gear : train.gears) rings += gear.internal ? 1 : 0;
        EXPECT_EQ(places.rings.size(), rings);
    }
}

TEST(SearchWish, NamesMembersThatTheTrainHas) {
    for (const Arrangement arrangement : searchable_arrangements()) {
        const Train train = train_of(arrangement, usual_counts(arrangement));
        const CentralChoice choice = choice_of(wish_of(arrangement));
        for (const std::string& name : {choice.held, choice.driver, choice.output})
            EXPECT_TRUE(find_member(train, name)) << name;
        for (const std::string& name : central_members(arrangement)) EXPECT_TRUE(find_member(train, name)) << name;
        EXPECT_EQ(train[find_member(train, choice.driver).value()].name,
                  train[train.settings.front().drive.front().member].name);
    }
}

TEST(SearchWish, NamesTheCountsOfOneToFourPairs) {
    SearchWish wish = wish_of(Arrangement::pairs);
    wish.pairs = 4;
    const std::vector<std::string> names = count_names(wish);
    ASSERT_EQ(names.size(), 8U);
    EXPECT_EQ(names[0], "pair 1, driving");
    EXPECT_EQ(names[7], "pair 4, driven");
    EXPECT_EQ(choice_of(wish).output, "shaft 5");
}

TEST(SearchWish, LeavesRingsFreeAndOtherCountsAtTheUsualRange) {
    SearchWish wish = wish_of(Arrangement::simple);
    wish.teeth["planet"] = {20, 30};
    EXPECT_EQ(ranges_of(wish), (std::vector<ToothRange>{{12, 100}, {20, 30}, {kFewestTeeth, kMostTeeth}}));
}

}  // namespace
}  // namespace couplet
