#include "export/gltf.hpp"

#include <gtest/gtest.h>

#include <set>

#include "export/exported.hpp"
#include "export/glb_reader.hpp"
#include "export/loop_animation.hpp"
#include "export/validated.hpp"
#include "sheet/json_values.hpp"
#include "sheet/place_words.hpp"
#include "support/random_trains.hpp"

namespace couplet {
namespace {

GlbReader read(const ExportModel& model, const GltfOptions& options = {}) {
    return GlbReader(glb_of(model, options));
}

std::string node_name(const ExportModel& model, PlaceIndex place) {
    return place == PlaceIndex{-1} ? "frame" : place_name(model.train, model.placement, place);
}

// The angle about the train's +Z of a rotation in the scene, whose up is +Y: that of +X, which the root leaves alone,
// in the plane of x and -z.
double turned_rad(const Quaternion& rotation) {
    const Vector3 x = rotated(rotation, {1.0, 0.0, 0.0});
    return std::atan2(-x[2], x[0]);
}

// Instants at keys, between keys, and at either end.
void expect_exact_poses(const ExportModel& model) {
    const GlbReader glb = read(model);
    const LoopAnimation animation = loop_animation_of(model).value();
    ASSERT_NEAR(glb.seconds(), animation.seconds.to_double(), 1e-6 * animation.seconds.to_double());
    for (const Ratio& part : {Ratio(0), Ratio(1, 7), Ratio(1, 3), Ratio(1, 2), Ratio(12345, 20000), Ratio(1)}) {
        const std::vector<Standing2> exact = exact_standings(model, animation.driver_turns * part);
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(exact.size()); ++p) {
            const Standing2& wanted = exact[static_cast<std::size_t>(p)];
            const Transform found =
                glb.scene_from_node(glb.node_named(node_name(model, {p})), (animation.seconds * part).to_double());
            const std::string where = node_name(model, {p}) + " at " + part.to_string();
            // Floats: 24 bits of each half angle, and a key's place in time.
            EXPECT_LT(angle_between(turned_rad(found.rotation), wanted.turned_rad), 2e-6) << where;
            EXPECT_NEAR(found.shift[0], wanted.x_mm / 1000.0, 1e-6) << where;
            EXPECT_NEAR(found.shift[1], 0.0, 1e-9) << where;
            EXPECT_NEAR(found.shift[2], -wanted.y_mm / 1000.0, 1e-6) << where;
        }
    }
}

TEST(Gltf, TurnsEveryCopyAsTheExactMotionDoes) {
    expect_exact_poses(exported("harbour_capstan"));
}

TEST(Gltf, TurnsWhatRidesOnWhatRidesAsTheExactMotionDoes) {
    expect_exact_poses(exported("boat_carousel"));
}

TEST(Gltf, TurnsSteppedAndPairedPlanetsAsTheExactMotionDoes) {
    expect_exact_poses(exported("lock_gate_winder"));
    expect_exact_poses(exported("signal_arm"));
}

TEST(Gltf, TurnsTwoDriversAtTheirOwnSpeeds) {
    expect_exact_poses(exported("two_crew_hoist"));
}

TEST(Gltf, PutsEachCopyUnderWhatItRidesOn) {
    const ExportModel model = exported("boat_carousel");
    const GlbReader glb = read(model);
    for (std::int32_t p = 0; p < static_cast<std::int32_t>(model.placement.places.size()); ++p)
        EXPECT_EQ(glb.parent_of(glb.node_named(node_name(model, {p}))),
                  static_cast<long>(glb.node_named(node_name(model, model.placement[PlaceIndex{p}].under))));
}

// Three planets, one mesh.
TEST(Gltf, SharesTheMeshOfShapesThatAreAlike) {
    const GlbReader glb = read(exported("harbour_capstan"));
    std::set<int> meshes;
    for (const int copy : {1, 2, 3}) {
        const std::size_t node = glb.node_named("planet " + std::to_string(copy));
        for (const auto& child : glb.json["nodes"][node]["children"])
            if (glb.json["nodes"][child.get<std::size_t>()].value("name", "") == "planet/outer")
                meshes.insert(glb.json["nodes"][child.get<std::size_t>()]["mesh"].get<int>());
    }
    EXPECT_EQ(meshes.size(), 1U);
}

// The example of the design's section 5: drum 7/30, planet on drum -161/240.
TEST(Gltf, TellsExactRatiosInExtras) {
    const GlbReader glb = read(exported("harbour_capstan"), {.loop = LoopWish::strict});
    EXPECT_EQ(glb.json["nodes"][glb.node_named("drum")]["extras"]["turns"]["exact"], "7/30");
    const auto& planet = glb.json["nodes"][glb.node_named("planet 2")]["extras"];
    EXPECT_EQ(planet["per_driver_turn"]["exact"], "-161/240");
    EXPECT_EQ(planet["turns"]["exact"], "-7/16");
    EXPECT_EQ(planet["joint"], "planet on drum");
    EXPECT_EQ(planet["copy"], 2);
    EXPECT_EQ(glb.json["scenes"][0]["extras"]["setting"], "hauling");
    EXPECT_EQ(glb.json["scenes"][0]["extras"]["loop"]["driver_turns"]["exact"], "240");
    EXPECT_EQ(glb.json["scenes"][0]["extras"]["loop"]["end"], "every tooth back");
}

// In metres, Y up: the crank's tips at 3 (21 + 2) / 2 mm from the Y axis.
TEST(Gltf, IsInMetresWithYUp) {
    const ExportModel model = exported("harbour_capstan");
    const GlbReader glb = read(model);
    const std::size_t crank = glb.node_named("crank");
    double reach = 0.0;
    double top = 0.0;
    for (const auto& child : glb.json["nodes"][crank]["children"]) {
        const auto node = child.get<std::size_t>();
        const Transform pose = glb.scene_from_node(node, 0.0);
        for (const auto& primitive :
             glb.json["meshes"][glb.json["nodes"][node]["mesh"].get<std::size_t>()]["primitives"]) {
            const std::vector<float> positions = glb.floats(primitive["attributes"]["POSITION"]);
            for (std::size_t i = 0; i < positions.size(); i += 3) {
                const Vector3 p =
                    rotated(pose.rotation, {static_cast<double>(positions[i]), static_cast<double>(positions[i + 1]),
                                            static_cast<double>(positions[i + 2])});
                reach = std::max(reach, std::hypot(p[0] + pose.shift[0], p[2] + pose.shift[2]));
                top = std::max(top, p[1] + pose.shift[1]);
            }
        }
    }
    EXPECT_NEAR(reach, 0.0345, 1e-6);
    EXPECT_GT(top, 0.02);
}

TEST(Gltf, StandsWhereTheSettingIsLocked) {
    const ExportModel model = exported("stuck_sluice");
    ASSERT_EQ(model.motion.outcome, Outcome::locked);
    const GlbReader glb = read(model);
    EXPECT_FALSE(glb.json.contains("animations"));
    EXPECT_EQ(glb.json["scenes"][0]["extras"]["outcome"], "locked");
}

TEST(Gltf, StandsWithoutASetting) {
    Train train = shipped_train("harbour_capstan");
    train.settings.clear();
    const GlbReader glb = read(export_model_of(train, std::nullopt));
    EXPECT_FALSE(glb.json.contains("animations"));
    EXPECT_FALSE(glb.json["scenes"][0]["extras"].contains("setting"));
}

// Marks, keys and holes would jump where only the looks come back (tide_dial's strict loop is beyond kMostKeys).
TEST(Gltf, LeavesMarksOffWhereOnlyTheLooksComeBack) {
    const ExportModel model = exported("tide_dial");
    ASSERT_EQ(loop_animation_of(model).value().end, LoopEnd::looks_alike);
    const auto has_marks = [](const GlbReader& glb) {
        return std::ranges::any_of(glb.json["materials"], [](const auto& material) {
            return material["name"] == "enamel of the tooth marks";
        });
    };
    EXPECT_FALSE(has_marks(read(model)));
    EXPECT_FALSE(has_marks(read(exported("harbour_capstan"))));
    EXPECT_TRUE(has_marks(read(exported("harbour_capstan"), {.loop = LoopWish::strict})));
}

TEST(Gltf, IsTheSameEveryTime) {
    EXPECT_TRUE(glb_of(exported("signal_arm"), {}) == glb_of(exported("signal_arm"), {}));
}

TEST(Gltf, IsFinerWhereTheToleranceIs) {
    const ExportModel model = exported("harbour_capstan");
    EXPECT_GT(glb_of(model, {0.005}).size(), glb_of(model, {0.05}).size());
}

// The validator of the format's makers: no error, no warning, no hint.
TEST(Gltf, PassesTheValidatorForEveryShippedScene) {
    for (const std::string& name : shipped_names())
        for (std::size_t setting = 0; setting < shipped_train(name).settings.size(); ++setting)
            EXPECT_EQ(validator_messages(glb_of(exported(name, setting), {})), "") << name << ", setting " << setting;
}

// Trains of every outcome, whose gears need not fit; some cannot be placed at all.
TEST(Gltf, PassesTheValidatorForRandomTrains) {
    int seen = 0;
    for (std::uint64_t seed = 1; seed <= 25; ++seed) {
        RandomTrain random = random_train(seed, {.most_members = 12});
        random.train.teeth.module_mm = Ratio(1);
        const ExportModel model = export_model_of(random.train, random.setting);
        EXPECT_EQ(validator_messages(glb_of(model, {0.2})), "") << "seed " << seed;
        if (model.moves()) ++seen;
    }
    EXPECT_GT(seen, 5);
}

TEST(Gltf, TheValidatorSeesWhatIsWrong) {
    std::string broken = glb_of(exported("harbour_capstan"), {});
    const std::size_t at = broken.find("\"LINEAR\"");
    ASSERT_NE(at, std::string::npos);
    broken.replace(at, 8, "\"BINEAR\"");
    EXPECT_NE(validator_messages(broken), "");
}

}  // namespace
}  // namespace couplet
