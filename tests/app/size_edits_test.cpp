#include "app/size_edits.hpp"

#include <gtest/gtest.h>

#include "exact/decimal.hpp"
#include "sheet/place_sheet.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

Train planetary(int sun, int planet, int ring) {
    Train train = train_from("sun " + std::to_string(sun) + " x planet " + std::to_string(planet) + "; planet " +
                             std::to_string(planet) + " in ring " + std::to_string(ring) + " (planet on carrier)");
    train.teeth.module_mm = Ratio(2);
    return train;
}

TEST(SizeEdits, ConvertEveryLengthWithTheUnit) {
    Train train = planetary(20, 20, 60);
    train.teeth.face_width = Ratio(127, 10);
    train.gears[0].bore = Ratio(254, 10);
    train.meshes[0].centre_distance = Ratio(508, 10);
    // A gear that has a module of its own stays in mm.
    train.gears[1].spec.module_mm = Ratio(2);
    train.gears[1].bore = Ratio(10);
    const Train inches = with_pitch_unit(train, PitchUnit::diametral_pitch);
    EXPECT_EQ(pitch_unit(train), PitchUnit::module_mm);
    EXPECT_EQ(pitch_unit(inches), PitchUnit::diametral_pitch);
    EXPECT_EQ(inches.teeth.diametral_pitch, Ratio(127, 10));  // 25.4 / 2
    EXPECT_FALSE(inches.teeth.module_mm);
    EXPECT_EQ(inches.teeth.face_width, Ratio(1, 2));
    EXPECT_EQ(inches.gears[0].bore, Ratio(1));
    EXPECT_EQ(inches.meshes[0].centre_distance, Ratio(2));
    EXPECT_EQ(inches.gears[1].bore, Ratio(10));
    EXPECT_EQ(with_pitch_unit(inches, PitchUnit::module_mm), train);
    EXPECT_EQ(with_pitch_unit(train, PitchUnit::module_mm), train);
}

TEST(SizeEdits, RoundLengthsToDecimals) {
    Train train = planetary(20, 20, 60);
    train.teeth.backlash = Ratio(1, 10);
    const Train inches = with_pitch_unit(train, PitchUnit::diametral_pitch);
    EXPECT_EQ(inches.teeth.backlash, Ratio(3937, 1000000));  // 0.1 / 25.4 = 0.00393700787
}

TEST(SizeEdits, SpreadCopiesEqually) {
    Train train = planetary(20, 20, 60);
    train.members[1].copies = 2;
    train.members[1].at_deg = {Ratio(0), Ratio(170)};
    const Train changed = with_copies(train, {1}, 4);
    EXPECT_EQ(changed.members[1].copies, 4);
    EXPECT_TRUE(changed.members[1].at_deg.empty());
}

TEST(SizeEdits, MoveCopiesToWhereTheyFit) {
    // (22 + 62) / 5 is not whole: the least mesh angle is 360 / 84.
    Train train = planetary(22, 20, 62);
    train.members[1].copies = 5;
    const TrainPlaces places = train_places(train, false, {}, std::nullopt);
    ASSERT_EQ(places.assembly.misplaced.size(), 4U);
    std::vector<CopyMove> moves;
    for (const MisplacedCopy& copy : places.assembly.misplaced) moves.push_back(nearest_move(copy).value());
    EXPECT_EQ(moves[0].to_deg, Ratio(17 * 360, 84));
    const Train moved = with_copies_moved(train, places.placement, moves);
    ASSERT_EQ(moved.members[1].at_deg.size(), 5U);
    for (const Ratio& angle : moved.members[1].at_deg) EXPECT_TRUE(decimals_needed(angle));
    const TrainPlaces after = train_places(moved, false, {}, std::nullopt);
    EXPECT_EQ(after.assembly.outcome, AssemblyOutcome::assembles);
    EXPECT_TRUE(after.assembly.misplaced.empty());
}

TEST(SizeEdits, CountFromTheFirstCopyWhereverItStands) {
    Train train = planetary(20, 20, 60);
    train.members[1].copies = 2;
    train.members[1].at_deg = {Ratio(350), Ratio(100)};
    const TrainPlaces places = train_places(train, false, {}, std::nullopt);
    const CopyMove move{{places.placement.first_place[1] + 1}, Ratio(45)};
    EXPECT_EQ(with_copies_moved(train, places.placement, {&move, 1}).members[1].at_deg,
              (std::vector<Ratio>{Ratio(350), Ratio(35)}));
}

}  // namespace
}  // namespace couplet
