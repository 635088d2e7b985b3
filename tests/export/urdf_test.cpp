#include "export/urdf.hpp"

#include <gtest/gtest.h>
#include <urdf_parser/urdf_parser.h>

#include "export/exported.hpp"
#include "export/plain_names.hpp"
#include "sheet/place_words.hpp"

namespace couplet {
namespace {

// The description's own parser (liburdfdom).
urdf::ModelInterfaceSharedPtr parsed(const ExportModel& model) {
    return urdf::parseURDF(urdf_of(model, member_bodies(model), {"meshes"}));
}

std::string link_name(const ExportModel& model, PlaceIndex place) {
    return plain_names({place_name(model.train, model.placement, place)}).front();
}

// The angle of a joint while the leading one is turned by that much.
double joint_angle(const urdf::Joint& joint, double leading_rad) {
    if (joint.type == urdf::Joint::FIXED) return 0.0;
    return joint.mimic ? joint.mimic->multiplier * leading_rad + joint.mimic->offset : leading_rad;
}

// Forward kinematics: from the root to the link, each joint's origin and then its turn about its axis.
Standing2 standing_of(const urdf::ModelInterface& robot, const std::string& link, double leading_rad) {
    const auto found = robot.getLink(link);
    if (!found->parent_joint) return {};
    const urdf::Joint& joint = *found->parent_joint;
    const Standing2 under = standing_of(robot, joint.parent_link_name, leading_rad);
    const urdf::Vector3& at = joint.parent_to_joint_origin_transform.position;
    double roll = 0.0;
    double pitch = 0.0;
    double yaw = 0.0;
    joint.parent_to_joint_origin_transform.rotation.getRPY(roll, pitch, yaw);
    EXPECT_EQ(roll, 0.0);
    EXPECT_EQ(pitch, 0.0);
    EXPECT_EQ(at.z, 0.0);
    Standing2 own;
    own.x_mm = under.x_mm + 1000.0 * (at.x * std::cos(under.turned_rad) - at.y * std::sin(under.turned_rad));
    own.y_mm = under.y_mm + 1000.0 * (at.x * std::sin(under.turned_rad) + at.y * std::cos(under.turned_rad));
    own.turned_rad = under.turned_rad + yaw + joint.axis.z * joint_angle(joint, leading_rad);
    return own;
}

// With the driver's joint at several angles; the driver rides on the frame in all of these, so that its joint's turns
// are its own.
void expect_exact_poses(const ExportModel& model) {
    const auto robot = parsed(model);
    ASSERT_TRUE(robot);
    for (const Ratio& turns : {Ratio(0), Ratio(1, 24), Ratio(-1, 3), Ratio(7, 5), Ratio(240)}) {
        const std::vector<Standing2> exact = exact_standings(model, turns);
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(exact.size()); ++p) {
            const std::string link = link_name(model, {p});
            const Standing2 found = standing_of(*robot, link, 2.0 * std::numbers::pi * turns.to_double());
            const Standing2& wanted = exact[static_cast<std::size_t>(p)];
            EXPECT_NEAR(found.x_mm, wanted.x_mm, 1e-6) << link;
            EXPECT_NEAR(found.y_mm, wanted.y_mm, 1e-6) << link;
            EXPECT_LT(angle_between(found.turned_rad, wanted.turned_rad), 1e-8) << link;
        }
    }
}

TEST(Urdf, TurnsEveryCopyAsTheExactMotionDoes) {
    expect_exact_poses(exported("harbour_capstan"));
    expect_exact_poses(exported("boat_carousel"));
    expect_exact_poses(exported("lock_gate_winder"));
    expect_exact_poses(exported("slipway_gearbox"));
}

TEST(Urdf, EverySettingThatMovesWithOneDriverIsParsed) {
    int parsed_ones = 0;
    for (const std::string& name : shipped_names())
        for (std::size_t setting = 0; setting < shipped_train(name).settings.size(); ++setting) {
            const ExportModel model = exported(name, setting);
            if (!model.moves() || model.motion.freedom > 1) continue;
            EXPECT_TRUE(parsed(model)) << name << ", setting " << setting;
            ++parsed_ones;
        }
    EXPECT_GT(parsed_ones, 15);
}

// The worked example of the README: 7/30 and -161/240 per turn of the crank.
TEST(Urdf, FollowsTheDriverAtTheExactRatios) {
    const auto robot = parsed(exported("harbour_capstan"));
    EXPECT_FALSE(robot->getJoint("crank_on_frame")->mimic);
    for (const char* joint : {"planet_1_on_drum", "planet_2_on_drum", "planet_3_on_drum"}) {
        ASSERT_TRUE(robot->getJoint(joint)) << joint;
        EXPECT_EQ(robot->getJoint(joint)->type, urdf::Joint::CONTINUOUS);
        EXPECT_EQ(robot->getJoint(joint)->mimic->joint_name, "crank_on_frame");
        EXPECT_EQ(robot->getJoint(joint)->mimic->multiplier, -161.0 / 240.0);
        EXPECT_EQ(robot->getJoint(joint)->mimic->offset, 0.0);
    }
    EXPECT_EQ(robot->getJoint("drum_on_frame")->mimic->multiplier, 7.0 / 30.0);
}

TEST(Urdf, FixesTheJointsThatStand) {
    EXPECT_EQ(parsed(exported("harbour_capstan"))->getJoint("ring_on_frame")->type, urdf::Joint::FIXED);
}

// A mesh of a copy, turned as its visual says, has its teeth where the starting rotation of that copy puts them.
TEST(Urdf, TurnsTheMeshOfEachCopyToItsStartingRotation) {
    const ExportModel model = exported("misfit_mooring");
    const auto robot = parsed(model);
    const GearIndex gear = gears_of(model.train, find_member(model.train, "planet").value()).front();
    const int first = model.placement.first_place[model.train[gear].member.position()];
    const auto tooth_rad = [&](int place) {
        return 2.0 * std::numbers::pi * model.rotations.of(gear, {place}).tooth.value(model.placement.direction_turns);
    };
    bool differ = false;
    for (int p = first; p < model.placement.first_place[model.train[gear].member.position() + 1]; ++p) {
        const auto link = robot->getLink(link_name(model, {p}));
        ASSERT_TRUE(link->visual);
        double roll = 0.0;
        double pitch = 0.0;
        double yaw = 0.0;
        link->visual->origin.rotation.getRPY(roll, pitch, yaw);
        EXPECT_LT(angle_between(tooth_rad(first) + yaw, tooth_rad(p)), 1e-9);
        differ = differ || std::abs(yaw) > 1e-3;
    }
    EXPECT_TRUE(differ) << "no copy of this scene is turned";
}

TEST(Urdf, NamesItsMeshesAndTheirScale) {
    const auto robot = parsed(exported("harbour_capstan"));
    const auto link = robot->getLink("planet_3");
    const auto* mesh = dynamic_cast<urdf::Mesh*>(link->visual->geometry.get());
    ASSERT_NE(mesh, nullptr);
    EXPECT_EQ(mesh->filename, "meshes/planet.stl");
    EXPECT_EQ(mesh->scale.x, 0.001);
}

void expect_refused(const ExportModel& model, const std::string& words) {
    try {
        (void)urdf_of(model, member_bodies(model), {"meshes"});
        ADD_FAILURE() << "not refused: " << words;
    } catch (const ExportRefused& refused) {
        EXPECT_NE(std::string(refused.what()).find(words), std::string::npos) << refused.what();
    }
}

TEST(Urdf, RefusesWhatNoJointCanFollow) {
    expect_refused(exported("two_crew_hoist"), "has 2 drivers");
    expect_refused(exported("stuck_sluice"), "is locked");
    Train train = shipped_train("harbour_capstan");
    train.settings.clear();
    expect_refused(export_model_of(train, std::nullopt), "has no setting");
}

// A planet driven against the frame whose own joint on its carrier stands: another joint has to lead.
TEST(Urdf, LetsAnotherJointLeadWhereTheDriversStands) {
    Train train = shipped_train("harbour_capstan");
    const MemberIndex planet = find_member(train, "planet").value();
    Setting setting;
    setting.tie = {{planet, find_member(train, "drum").value()}};
    setting.drive = {{planet, Ratio(1)}};
    const ExportModel model = export_model_of(train, setting);
    ASSERT_EQ(model.motion.outcome, Outcome::moves);
    const auto robot = parsed(model);
    EXPECT_EQ(robot->getJoint("planet_1_on_drum")->type, urdf::Joint::FIXED);
    EXPECT_FALSE(robot->getJoint("crank_on_frame")->mimic);
    EXPECT_EQ(robot->getJoint("ring_on_frame")->mimic->multiplier, 1.0);
}

}  // namespace
}  // namespace couplet
