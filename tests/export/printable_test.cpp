#include "export/printable.hpp"

#include <gtest/gtest.h>

#include "export/exported.hpp"
#include "place/mesh_proof.hpp"

namespace couplet {
namespace {

// The model's teeth with the profiles that its printed gears have.
TrainTeeth printed_teeth(const ExportModel& model, const Machine& machine) {
    TrainTeeth teeth = model.teeth;
    for (const Part& part : machine.parts) {
        if (part.gear == GearIndex{}) continue;
        const ToothProfile* profile = nullptr;
        if (const auto* gear = std::get_if<GearShape>(&machine.shapes[part.shape])) profile = &gear->profile;
        if (const auto* ring = std::get_if<RingShape>(&machine.shapes[part.shape])) profile = &ring->profile;
        if (profile == nullptr) continue;
        teeth.profiles[part.gear.position()] = {*profile, {}};
        teeth.gears[part.gear.position()] = profile->sizes;
    }
    return teeth;
}

// By the proof of mesh, which moves the real flanks: both flanks of a gap are moved in by the clearance along their
// normals, so each gap, measured along them, is wider by twice the clearance.
void expect_wider_gaps(const Train& train, double clearance_mm) {
    const ExportModel model = export_model_of(train, std::nullopt);
    const TrainTeeth teeth = printed_teeth(model, printable(model, clearance_mm));
    const MeshProof before = prove_mesh(model.train, model.teeth, model.placement, model.rotations, nullptr);
    const MeshProof after = prove_mesh(model.train, teeth, model.placement, model.rotations, nullptr);
    ASSERT_EQ(before.meshes.size(), after.meshes.size());
    ASSERT_FALSE(before.meshes.empty());
    for (std::size_t m = 0; m < before.meshes.size(); ++m)
        EXPECT_NEAR(after.meshes[m].gap_mm - before.meshes[m].gap_mm, 2.0 * clearance_mm, 2e-4) << "mesh " << m;
}

TEST(Printable, WidensEveryGapByTwiceTheClearance) {
    expect_wider_gaps(shipped_train("harbour_capstan"), 0.1);
    expect_wider_gaps(shipped_train("launch_winch"), 0.05);
}

TEST(Printable, WidensTheGapsOfHelicalTeethToo) {
    Train train = shipped_train("harbour_capstan");
    train.teeth.helix_angle_deg = Ratio(20);
    expect_wider_gaps(train, 0.1);
}

TEST(Printable, KeepsTheTeethWithoutAClearance) {
    const ExportModel model = exported("harbour_capstan");
    const Machine machine = printable(model, 0.0);
    EXPECT_EQ(printed_teeth(model, machine).gears[0].pitch_thickness_mm, model.teeth.gears[0].pitch_thickness_mm);
}

TEST(Printable, LeavesFastenersAndKeywaysOut) {
    const Machine machine = printable(exported("harbour_capstan"), 0.0);
    for (const Part& part : machine.parts) {
        EXPECT_NE(part.role, PartRole::fastener);
        if (const auto* gear = std::get_if<GearShape>(&machine.shapes[part.shape])) {
            EXPECT_EQ(gear->key_width_mm, 0.0);
        }
    }
}

const Part& gear_part(const Machine& machine, GearIndex gear) {
    return *std::ranges::find(machine.parts, gear, &Part::gear);
}

// The planet's wheel sits on its own sleeve: it reaches into it. The sleeve runs on the drum's pin: it is widened.
TEST(Printable, JoinsWhatSitsTightAndFreesWhatTurns) {
    constexpr double kClearance_mm = 0.15;
    const ExportModel model = exported("harbour_capstan");
    const Machine printed = printable(model, kClearance_mm);
    const GearIndex gear = gears_of(model.train, find_member(model.train, "planet").value()).front();
    const Part& part = gear_part(model.machine, gear);
    const double bore_mm = std::get<GearShape>(model.machine.shapes[part.shape]).bore_mm;
    const double printed_mm = std::get<GearShape>(printed.shapes[part.shape]).bore_mm;
    EXPECT_LT(printed_mm, bore_mm);
    bool sleeve_found = false;
    for (const Part& other : model.machine.parts) {
        if (other.place != part.place || other.role != PartRole::shaft) continue;
        const auto& before = std::get<TurnedShape>(model.machine.shapes[other.shape]);
        const auto& after = std::get<TurnedShape>(printed.shapes[other.shape]);
        EXPECT_NEAR(after.bore_mm - before.bore_mm, 2.0 * kClearance_mm, 1e-9);
        EXPECT_GT(printed_mm, after.bore_mm) << "the wheel reaches through the sleeve";
        sleeve_found = true;
    }
    EXPECT_TRUE(sleeve_found);
}

TEST(Printable, WidensTheBearingsOfTheStand) {
    const ExportModel model = exported("harbour_capstan");
    const Machine printed = printable(model, 0.2);
    int bearings = 0;
    for (const Part& part : model.machine.parts) {
        if (part.role != PartRole::stand) continue;
        const auto* before = std::get_if<TurnedShape>(&model.machine.shapes[part.shape]);
        if (before == nullptr || before->bore_mm <= 0.0) continue;
        EXPECT_NEAR(std::get<TurnedShape>(printed.shapes[part.shape]).bore_mm - before->bore_mm, 0.4, 1e-9);
        ++bearings;
    }
    EXPECT_GT(bearings, 0);
}

TEST(Printable, RefusesAClearanceThatLeavesNoTeeth) {
    const ExportModel model = exported("harbour_capstan");
    try {
        (void)printable(model, 3.0);
        FAIL() << "not refused";
    } catch (const ExportRefused& refused) {
        EXPECT_NE(
            std::string(refused.what()).find("has no room for its teeth with a clearance of 3 mm; give a smaller"),
            std::string::npos)
            << refused.what();
    }
}

}  // namespace
}  // namespace couplet
