#include "export/export_model.hpp"

#include <gtest/gtest.h>

#include "export/exported.hpp"

namespace couplet {
namespace {

TEST(ExportModel, HoldsTheSettingAndItsExactMotion) {
    const ExportModel model = exported("harbour_capstan");
    EXPECT_TRUE(model.moves());
    EXPECT_EQ(model.setting->name, "hauling");
    // README: the drum makes 7/30 of a turn per turn of the crank.
    EXPECT_EQ(turns_per_driver_turn(model.motion, model.motion.joint_rate(find_member(model.train, "drum").value())),
              Ratio(7, 30));
}

TEST(ExportModel, StandsWithoutASetting) {
    const ExportModel model = export_model_of(shipped_train("harbour_capstan"), std::nullopt);
    EXPECT_FALSE(model.moves());
    EXPECT_FALSE(model.machine.parts.empty());
}

// A ring of 70 would need planets of 24.5 teeth: the shift of its teeth brings it to the crank's centre distance.
TEST(ExportModel, MatchesShiftsWhereThatIsAskedFor) {
    Train train = shipped_train("harbour_capstan");
    const GearIndex ring = gears_of(train, find_member(train, "ring").value()).front();
    train.gears[ring.position()].teeth = 70;
    EXPECT_FALSE(export_model_of(train, std::nullopt).train[ring].shift);
    const ExportModel matched = export_model_of(train, std::nullopt, Shifts::matched);
    ASSERT_TRUE(matched.train[ring].shift);
    EXPECT_NEAR(matched.teeth.meshes[1].pair->centre_distance_mm, matched.teeth.meshes[0].pair->centre_distance_mm,
                1e-4);
}

TEST(ExportModel, ThrowsWhereTheTeethHaveNoSize) {
    Train train = shipped_train("harbour_capstan");
    train.teeth.module_mm.reset();
    EXPECT_THROW((void)export_model_of(train, std::nullopt), TeethError);
}

}  // namespace
}  // namespace couplet
