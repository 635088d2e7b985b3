#include "train/arrangement.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>

#include "train/faults.hpp"

namespace couplet {
namespace {

// Counts that differ all, so that none can stand in another one's place; no geometry is asked of them here.
std::vector<int> different_counts(std::size_t count) {
    std::vector<int> counts;
    for (std::size_t i = 0; i < count; ++i) counts.push_back(20 + 10 * static_cast<int>(i));
    return counts;
}

std::string mesh_text(const Train& train, const Mesh& mesh) {
    const auto gear_text = [&](GearIndex gear) {
        return name_of(train, gear) + " " + std::to_string(train[gear].teeth) + (train[gear].internal ? " inside" : "");
    };
    return gear_text(mesh.first) + ", " + gear_text(mesh.second);
}

std::vector<std::string> meshes_of(Arrangement arrangement, const std::vector<int>& counts) {
    const Train train = train_of(arrangement, counts);
    std::vector<std::string> meshes;
    for (const Mesh& mesh : train.meshes) meshes.push_back(mesh_text(train, mesh));
    return meshes;
}

using Texts = std::vector<std::string>;

TEST(Arrangements, AreListedInTheirOrderWithACountForEachName) {
    ASSERT_EQ(arrangement_forms().size(), 8U);  // the enumerators of Arrangement
    std::set<std::string_view> names;
    for (std::size_t i = 0; i < arrangement_forms().size(); ++i) {
        const ArrangementForm& form = arrangement_forms()[i];
        EXPECT_EQ(static_cast<std::size_t>(form.arrangement), i);
        EXPECT_EQ(form.counts.size(), form.usual.size()) << form.name;
        EXPECT_TRUE(names.insert(form.name).second) << form.name;
        EXPECT_TRUE(form.what_it_is.ends_with('.')) << form.name;
    }
}

TEST(Arrangements, MakeTrainsWithoutFaults) {
    for (const ArrangementForm& form : arrangement_forms()) {
        for (const std::vector<int>& counts : {form.usual, different_counts(form.usual.size())}) {
            const Train train = train_of(form.arrangement, counts);
            EXPECT_TRUE(faults(train).empty()) << form.name;
            EXPECT_EQ(train.settings.size(), 1U) << form.name;
            EXPECT_FALSE(train.title.empty()) << form.name;
        }
    }
}

TEST(Arrangements, GiveEachMemberAndGearANameOfItsOwn) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const Train train = train_of(form.arrangement, form.usual);
        std::set<std::string> names;
        for (const Member& member : train.members) EXPECT_TRUE(names.insert(member.name).second) << member.name;
        std::set<std::pair<MemberIndex, std::string>> gears;
        for (const Gear& gear : train.gears) EXPECT_TRUE(gears.emplace(gear.member, gear.name).second) << gear.name;
    }
}

TEST(Arrangements, UseEveryCountOnce) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const std::vector<int> counts = different_counts(form.counts.size());
        std::vector<int> teeth;
        for (const Gear& gear : train_of(form.arrangement, counts).gears) teeth.push_back(gear.teeth);
        std::ranges::sort(teeth);
        EXPECT_EQ(teeth, counts) << form.name;
    }
}

// The gears in mesh are those of the header's words for each arrangement, with the counts in the order of its names.
TEST(Arrangements, PutTheCountsOnTheirGears) {
    EXPECT_EQ(meshes_of(Arrangement::simple, {20, 30, 40}), (Texts{"sun 20, planet 30", "planet 30, ring 40 inside"}));
    EXPECT_EQ(meshes_of(Arrangement::stepped, {20, 30, 40, 50}),
              (Texts{"sun 20, planet/first 30", "planet/second 40, ring 50 inside"}));
    EXPECT_EQ(
        meshes_of(Arrangement::paired, {20, 30, 40, 50}),
        (Texts{"sun 20, inner planet 30", "inner planet 30, outer planet 40", "outer planet 40, ring 50 inside"}));
    EXPECT_EQ(meshes_of(Arrangement::two_rings, {20, 30, 40, 50, 60}),
              (Texts{"sun 20, planet/first 30", "planet/first 30, held ring 40 inside",
                     "planet/second 50, output ring 60 inside"}));
    EXPECT_EQ(meshes_of(Arrangement::in_series, {20, 30, 40, 50, 60, 70}),
              (Texts{"sun 1 20, planet 1 30", "planet 1 30, ring 1 40 inside", "carrier 1 50, planet 2 60",
                     "planet 2 60, ring 2 70 inside"}));
    EXPECT_EQ(meshes_of(Arrangement::reverted, {20, 30, 40, 50}),
              (Texts{"input shaft 20, countershaft/driven 30", "countershaft/driving 40, output shaft 50"}));
    EXPECT_EQ(meshes_of(Arrangement::differential, {20, 30, 40}),
              (Texts{"sun 20, planet 30", "planet 30, ring 40 inside"}));
}

TEST(Arrangements, LetPlanetsRideOnTheirCarrierInCopies) {
    for (const ArrangementForm& form : arrangement_forms()) {
        const Train train = train_of(form.arrangement, form.usual, 5);
        int copied = 0;
        for (const Member& member : train.members) {
            EXPECT_EQ(member.rides_on == kFrame, member.copies == 1) << form.name << ", " << member.name;
            if (member.copies == 1) continue;
            EXPECT_EQ(member.copies, 5) << form.name << ", " << member.name;
            EXPECT_NE(member.name.find("planet"), std::string::npos) << form.name << ", " << member.name;
            EXPECT_EQ(train[member.rides_on].name.substr(0, 7), "carrier") << form.name;
            ++copied;
        }
        EXPECT_EQ(copied > 0, form.has_copies) << form.name;
        EXPECT_EQ(train_of(form.arrangement, form.usual), train_of(form.arrangement, form.usual, 3)) << form.name;
    }
}

TEST(Arrangements, HoldAndDriveAsTheirNamesSay) {
    const auto setting_of = [](Arrangement arrangement) {
        const auto& form = form_of(arrangement);
        const Train train = train_of(arrangement, form.usual);
        std::string text = "hold";
        for (const MemberIndex held : train.settings.at(0).hold) text += " " + name_of(train, held);
        text += "; drive";
        for (const Drive& drive : train.settings.at(0).drive) text += " " + name_of(train, drive.member);
        return text;
    };
    EXPECT_EQ(setting_of(Arrangement::simple), "hold ring; drive sun");
    EXPECT_EQ(setting_of(Arrangement::two_rings), "hold held ring; drive sun");
    EXPECT_EQ(setting_of(Arrangement::in_series), "hold ring 1 ring 2; drive sun 1");
    EXPECT_EQ(setting_of(Arrangement::pairs), "hold; drive shaft 1");
    EXPECT_EQ(setting_of(Arrangement::differential), "hold; drive sun ring");
}

TEST(PairsArrangement, TakesFromOneToFourPairs) {
    EXPECT_EQ(meshes_of(Arrangement::pairs, {20, 30}), Texts{"shaft 1 20, shaft 2 30"});
    EXPECT_EQ(meshes_of(Arrangement::pairs, {20, 30, 40, 50, 60, 70, 80, 90}),
              (Texts{"shaft 1 20, shaft 2/driven 30", "shaft 2/driving 40, shaft 3/driven 50",
                     "shaft 3/driving 60, shaft 4/driven 70", "shaft 4/driving 80, shaft 5 90"}));
    EXPECT_TRUE(faults(train_of(Arrangement::pairs, different_counts(6))).empty());
}

TEST(Arrangements, RefuseAnotherNumberOfCounts) {
    for (const ArrangementForm& form : arrangement_forms()) {
        for (std::size_t count = 0; count <= 10; ++count) {
            // The header: as many as the form has names, and 2, 4, 6 or 8 for pairs.
            const bool is_right = form.arrangement == Arrangement::pairs
                                      ? count == 2 || count == 4 || count == 6 || count == 8
                                      : count == form.counts.size();
            if (is_right)
                EXPECT_NO_THROW((void)train_of(form.arrangement, different_counts(count))) << form.name << count;
            else
                EXPECT_THROW((void)train_of(form.arrangement, different_counts(count)), std::invalid_argument)
                    << form.name << count;
        }
    }
}

}  // namespace
}  // namespace couplet
