#include "support/random_trains.hpp"

#include <gtest/gtest.h>

#include "support/equations.hpp"
#include "support/train_families.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

TEST(RandomTrains, HaveNoFaults) {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        RandomTrain random = random_train(seed);
        random.train.settings.push_back(random.setting);
        random.train.settings.back().name = "random";
        const std::vector<TrainFault> found = faults(random.train);
        EXPECT_TRUE(found.empty()) << "seed " << seed << ": " << found.front().wrong;
        EXPECT_LE(random.train.members.size(), 60U);
    }
}

TEST(RandomTrains, AreTheSameForASeed) {
    EXPECT_EQ(random_train(7).train, random_train(7).train);
    EXPECT_EQ(random_train(7).setting, random_train(7).setting);
    EXPECT_NE(random_train(7).train, random_train(8).train);
}

TEST(RandomTrains, KeepMeshesOffTheFrameWhereTheyAreCoaxial) {
    for (std::uint64_t seed = 0; seed < 50; ++seed) {
        const RandomTrain random = random_train(seed, {.coaxial = true});
        for (const Mesh& mesh : random.train.meshes) EXPECT_NE(arm_by_definition(random.train, mesh), kFrame);
    }
}

TEST(TrainFamilies, HaveTheSizeAskedForAndNoFaults) {
    EXPECT_EQ(family_a(100).train.members.size(), 100U);
    EXPECT_EQ(family_b(100, DriverPlace::far_end).train.members.size(), 100U);
    EXPECT_EQ(family_c(4).train.members.size(), 4U);
    EXPECT_EQ(many_small_sets(100).train.members.size(), 100U);
    for (const FamilyTrain& family : {family_a(40), family_b(40, DriverPlace::beside_the_held), family_c(40),
                                      compound_chain(20), idler_chain(20), many_small_sets(40)})
        EXPECT_TRUE(faults(family.train).empty());
}

}  // namespace
}  // namespace couplet
