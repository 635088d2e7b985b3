#include "solid/mesh_groups.hpp"

#include <gtest/gtest.h>

#include "place/placed_train.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

MeshGroups groups_of(const PlacedTrain& set) {
    return mesh_groups(set.train, set.placement, anatomy_of(set.train, set.teeth, set.placement));
}

TEST(MeshGroups, ASimpleSetIsOne) {
    const MeshGroups groups = groups_of(placed(simple_set(20, 20, 60, 3)));
    EXPECT_EQ(groups.size(), 1);
    EXPECT_EQ(groups.gears[0].size(), 3U);
}

TEST(MeshGroups, SteppedPlanetsMakeTwoThatExcludeEachOther) {
    const MeshGroups groups = groups_of(placed(stepped_set(24, 40, 16, 80, 4)));
    ASSERT_EQ(groups.size(), 2);
    EXPECT_EQ(groups.excluded[0], std::vector<int>{1});
    EXPECT_EQ(groups.excluded[1], std::vector<int>{0});
}

TEST(MeshGroups, ASunOfTwoSetsIsInBoth) {
    const PlacedTrain set =
        placed(sized_train("sun 20 x front 20; front 20 in ring 60; sun 20 x rear 20; rear 20 in drum 60 "
                           "(front on drum, rear on spider)"));
    const MeshGroups groups = groups_of(set);
    EXPECT_EQ(groups.size(), 2);
    EXPECT_EQ(groups.groups_of[gears_of(set.train, member_named(set.train, "sun"))[0].position()].size(), 2U);
    EXPECT_EQ(groups.groups_of[gears_of(set.train, member_named(set.train, "ring"))[0].position()].size(), 1U);
}

TEST(MeshGroups, AChainOfWheelsIsOneHoweverLong) {
    Train train = idler_chain(500).train;
    train.teeth.module_mm = Ratio(1);
    EXPECT_EQ(groups_of(placed(train)).size(), 1);
}

// Axes at 0, 16, 52 and 98; the wheel of b reaches to 27, that of d down to 57.
TEST(MeshGroups, GroupsFarFromEachOtherMayShareAHeight) {
    const MeshGroups groups = groups_of(placed(sized_train("a 12 x b 20; b 12 x c 60; c 12 x d 80")));
    ASSERT_EQ(groups.size(), 3);
    EXPECT_EQ(groups.excluded[0], std::vector<int>{1});
}

}  // namespace
}  // namespace couplet
