#include "view/stage_overlays.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <map>
#include <numbers>
#include <set>

#include "place/placed_train.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// A stroke that runs along a circle round Z.
struct Arc {
    glm::dvec2 centre;
    double radius;
    double sweep_rad;  // counter-clockwise above 0
};

// The circle through the first, the middle and the last but one of its points.
Arc arc_of(const Stroke& stroke) {
    const std::vector<glm::vec3>& p = stroke.points_mm;
    const glm::dvec2 a = p.front();
    const glm::dvec2 b = glm::dvec2(p[p.size() / 2]) - a;
    const glm::dvec2 c = glm::dvec2(p[p.size() - 2]) - a;
    const double d = 2 * (b.x * c.y - b.y * c.x);
    const glm::dvec2 off((c.y * glm::dot(b, b) - b.y * glm::dot(c, c)) / d,
                         (b.x * glm::dot(c, c) - c.x * glm::dot(b, b)) / d);
    Arc arc{a + off, glm::length(off), 0.0};
    for (std::size_t i = 1; i < p.size(); ++i) {
        const glm::dvec2 from = glm::dvec2(p[i - 1]) - arc.centre;
        const glm::dvec2 to = glm::dvec2(p[i]) - arc.centre;
        arc.sweep_rad += std::atan2(from.x * to.y - from.y * to.x, glm::dot(from, to));
    }
    return arc;
}

std::vector<Arc> arcs_of(const Picture& picture) {
    std::vector<Arc> arcs;
    for (const Stroke& stroke : picture.strokes)
        if (stroke.points_mm.size() > 3) arcs.push_back(arc_of(stroke));
    return arcs;
}

TEST(PitchCircles, TouchAtThePitchPointOfEveryMesh) {
    StageLook look;
    look.pitch_circles = true;
    for (const std::string& name : shipped_names()) {
        const ShownScene scene = shown_scene(name);
        for (const Ratio& instant : {Ratio(0), Ratio(3, 7)}) {
            const std::vector<Arc> arcs = arcs_of(scene.picture(look, instant));
            const Standing standing = scene.after(instant);
            for (const PlacedMesh& placed : scene.stage.placement.meshes) {
                const Mesh& mesh = scene.stage.train[placed.mesh];
                const bool internal = scene.stage.train[mesh.first].internal || scene.stage.train[mesh.second].internal;
                const glm::dvec2 first = standing.frame_from_place[placed.first.position()][3];
                const glm::dvec2 second = standing.frame_from_place[placed.second.position()][3];
                // Teeth share out the centre distance; what other circles of the two there may be do not touch.
                const double ratio =
                    static_cast<double>(scene.stage.train[mesh.first].teeth) / scene.stage.train[mesh.second].teeth;
                const bool touch = std::ranges::any_of(arcs, [&](const Arc& a) {
                    return glm::distance(a.centre, first) < 1e-2 && std::ranges::any_of(arcs, [&](const Arc& b) {
                               const double distance = internal ? std::abs(a.radius - b.radius) : a.radius + b.radius;
                               return glm::distance(b.centre, second) < 1e-2 &&
                                      std::abs(a.radius / b.radius - ratio) < 1e-3 &&
                                      std::abs(distance - glm::distance(first, second)) < 1e-2;
                           });
                });
                EXPECT_TRUE(touch) << name << ", mesh " << placed.mesh.value << ", copy " << placed.copy;
            }
        }
    }
}

TEST(PitchCircles, AreOneForEachGearThatRunsAtOneDistance) {
    StageLook look;
    look.pitch_circles = true;
    EXPECT_EQ(shown_scene("harbour_capstan").picture(look, 0).strokes.size(), 5U) << "crank, three planets, ring";
    EXPECT_EQ(shown_scene("tide_dial").picture(look, 0).strokes.size(), 8U);
}

TEST(CentreLines, JoinTheAxesOfEveryMesh) {
    const ShownScene scene = shown_scene("signal_arm");
    StageLook look;
    look.centre_lines = true;
    const Picture picture = scene.picture(look, Ratio(5, 9));
    const Standing standing = scene.after(Ratio(5, 9));
    ASSERT_EQ(picture.strokes.size(), scene.stage.placement.meshes.size());
    for (std::size_t i = 0; i < picture.strokes.size(); ++i) {
        const PlacedMesh& placed = scene.stage.placement.meshes[i];
        ASSERT_EQ(picture.strokes[i].points_mm.size(), 2U);
        const glm::dvec2 from = picture.strokes[i].points_mm[0];
        const glm::dvec2 to = picture.strokes[i].points_mm[1];
        EXPECT_LT(glm::distance(from, glm::dvec2(standing.frame_from_place[placed.first.position()][3])), 1e-3);
        EXPECT_LT(glm::distance(to, glm::dvec2(standing.frame_from_place[placed.second.position()][3])), 1e-3);
        EXPECT_NEAR(glm::distance(from, to), placed.centre_distance_mm, 1e-3);
    }
}

// Rates against the frame, all drivers running as the setting says, less the observer's.
using Rates = std::map<std::string, double>;

void expect_arrows(const ShownScene& scene, const std::string& observer, const Rates& rates_on_observer) {
    StageLook look;
    look.arrows = true;
    look.observer = find_member(scene.stage.train, observer).value();
    double fastest = 0.0;
    for (const auto& [name, rate] : rates_on_observer) fastest = std::max(fastest, std::abs(rate));
    const Ratio instant(3, 11);
    const std::vector<Arc> arcs = arcs_of(scene.picture(look, instant));
    const Standing standing = scene.after(instant);
    const glm::dmat4 from_frame = observer_from_frame(scene.stage, standing, look.observer);
    std::size_t expected = 0;
    for (const auto& [name, rate] : rates_on_observer) {
        const std::size_t member = scene.member(name).position();
        for (int p = scene.stage.placement.first_place[member]; p < scene.stage.placement.first_place[member + 1];
             ++p) {
            const glm::dvec2 centre = (from_frame * standing.frame_from_place[static_cast<std::size_t>(p)])[3];
            const auto sweep = arrow_sweep_rad(rate, fastest);
            const auto found = std::ranges::count_if(arcs, [&](const Arc& arc) {
                return glm::distance(arc.centre, centre) < 0.05 && std::abs(arc.sweep_rad - sweep) < 1e-3;
            });
            EXPECT_EQ(found, 1) << name << " on " << observer;
            ++expected;
        }
    }
    EXPECT_EQ(arcs.size(), expected) << "what stands still has no arrow";
}

// Turns for one of the crank, ring held: drum 7/30, planet -7/16 (stage_test.cpp, by the tabular method).
TEST(Arrows, TurnAsTheMembersDoAgainstTheObserver) {
    const ShownScene hauling = shown_scene("harbour_capstan");
    expect_arrows(hauling, "frame", {{"crank", 1.0}, {"planet", -7.0 / 16}});
    expect_arrows(hauling, "drum", {{"crank", 23.0 / 30}, {"planet", -161.0 / 240}, {"ring", -7.0 / 30}});
    expect_arrows(hauling, "crank", {{"planet", -23.0 / 16}, {"ring", -1.0}});
}

// The boat pulls the drum clockwise: drive = { drum = -3.5 }.
TEST(Arrows, TurnTheWayTheDriverIsDriven) {
    expect_arrows(shown_scene("harbour_capstan", 1), "frame", {{"crank", -30.0 / 7}, {"planet", 30.0 / 7 * 7 / 16}});
}

TEST(Arrows, AreNoneWhereNothingMoves) {
    StageLook look;
    look.arrows = true;
    EXPECT_TRUE(shown_scene("stuck_sluice").picture(look, 1).strokes.empty());
}

TEST(ArrowSweep, IsSignedAndLongestForTheFastest) {
    EXPECT_EQ(arrow_sweep_rad(0.0, 3.0), 0.0);
    EXPECT_EQ(arrow_sweep_rad(0.0, 0.0), 0.0);
    EXPECT_GT(arrow_sweep_rad(1.0, 3.0), 0.0);
    EXPECT_EQ(arrow_sweep_rad(-1.0, 3.0), -arrow_sweep_rad(1.0, 3.0));
    EXPECT_LT(arrow_sweep_rad(1.0, 3.0), arrow_sweep_rad(2.0, 3.0));
    EXPECT_LT(arrow_sweep_rad(3.0, 3.0), kTurn / 2) << "an arrow of more than half a turn points the wrong way";
}

// Above 0 where the line through the contact points and the pitch point turns counter-clockwise out of the line of
// centres by less than a right angle.
double lean_of_contacts(const ShownScene& scene, int copy) {
    StageLook look;
    look.contacts = true;
    const Standing standing = scene.after(Ratio(1, 13));
    const glm::dvec2 sun = standing.frame_from_place[scene.place("crank").position()][3];
    const glm::dvec2 planet = standing.frame_from_place[scene.place("planet", copy).position()][3];
    const glm::dvec2 away = glm::normalize(planet - sun);
    const glm::dvec2 pitch_point = sun + away * 31.5;  // 3 * 21 / 2
    double lean = 0.0;
    for (const Glow& glow : scene.picture(look, Ratio(1, 13)).glows) {
        const glm::dvec2 off = glm::dvec2(glow.position_mm) - pitch_point;
        if (glm::length(off) < 9.0) lean += glm::dot(off, away) * (away.x * off.y - away.y * off.x);
    }
    return lean;
}

// A gear that turns counter-clockwise and pushes has the line of action touch its base circle behind the line of
// centres (clockwise of it), so that the line leans outwards as it goes on. The same line serves where the gear turns
// clockwise and is pushed. The sun of the capstan is pushed wherever another member drives.
TEST(Contacts, LieWhereTheDriverPushes) {
    const struct {
        std::size_t setting;
        Ratio rpm;
        double lean;
    } kDrives[] = {{0, 30, 1}, {0, -30, -1}, {1, Ratio(-7, 2), 1}, {1, Ratio(7, 2), -1}, {2, 30, 1}, {2, -30, -1}};
    for (const auto& drive : kDrives) {
        Train train = shipped_train("harbour_capstan");
        train.settings[drive.setting].drive[0].rpm = drive.rpm;
        const ShownScene scene = on_stage(train, drive.setting);
        for (int copy = 1; copy <= 3; ++copy)
            EXPECT_GT(drive.lean * lean_of_contacts(scene, copy), 0.0)
                << train.settings[drive.setting].name << " at " << drive.rpm.to_string() << " rpm, planet " << copy;
    }
}

TEST(Contacts, GlowOnTopOfEveryMesh) {
    StageLook look;
    look.contacts = true;
    for (const char* name : {"harbour_capstan", "tide_dial", "signal_arm", "stuck_sluice"}) {
        const ShownScene scene = shown_scene(name);
        const Picture picture = scene.picture(look, Ratio(2, 9));
        const Standing standing = scene.after(Ratio(2, 9));
        for (const PlacedMesh& placed : scene.stage.placement.meshes) {
            const Mesh& mesh = scene.stage.train[placed.mesh];
            const glm::dvec2 first = standing.frame_from_place[placed.first.position()][3];
            const glm::dvec2 second = standing.frame_from_place[placed.second.position()][3];
            const MeshSizes& sizes = scene.stage.teeth.meshes[placed.mesh.position()];
            const bool swapped = external_gear_of(scene.stage.train, mesh) != mesh.first;
            const bool internal = scene.stage.train[mesh.first].internal || scene.stage.train[mesh.second].internal;
            const glm::dvec2 from = swapped ? second : first;
            const glm::dvec2 to = swapped ? first : second;
            const glm::dvec2 pitch_point = from + glm::normalize(to - from) * 0.5 *
                                                      sizes.pair->first_operating_diameter_mm * (internal ? -1.0 : 1.0);
            const double reach = std::max(-sizes.active->start_mm, sizes.active->end_mm);
            const auto near = std::ranges::count_if(picture.glows, [&](const Glow& glow) {
                return glm::distance(glm::dvec2(glow.position_mm), pitch_point) <= reach + 1e-3;
            });
            EXPECT_GE(near, static_cast<std::ptrdiff_t>(std::floor(sizes.active->contact_ratio)))
                << name << ", mesh " << placed.mesh.value << ", copy " << placed.copy;
        }
        for (const Glow& glow : picture.glows) {
            EXPECT_GT(glow.position_mm.z, 0.0F);
            EXPECT_LE(glow.position_mm.z, scene.stage.machine.top_mm + 1.0);
            EXPECT_GT(glow.radius_mm, 0.0F);
        }
    }
}

TEST(Names, StandOnceForEachMember) {
    StageLook look;
    look.names = true;
    for (const std::string& name : shipped_names()) {
        const ShownScene scene = shown_scene(name);
        const Picture picture = scene.picture(look, Ratio(1, 7));
        std::multiset<std::string> expected;
        for (const Member& member : scene.stage.train.members) expected.insert(member.name);
        std::multiset<std::string> found;
        for (const Label& label : picture.labels) found.insert(label.text);
        EXPECT_EQ(found, expected) << name;
    }
}

TEST(Names, GoWithTheirPartsWhereTheyAreSpread) {
    const ShownScene scene = shown_scene("slipway_gearbox");
    StageLook look;
    look.names = true;
    const Picture closed = scene.picture(look, 0, Camera{});
    look.spread = 1.0;
    const Picture opened = scene.picture(look, 0, Camera{});
    for (std::size_t i = 0; i < closed.labels.size(); ++i) {
        const float lift = opened.labels[i].anchor_mm.z - closed.labels[i].anchor_mm.z;
        const bool with_a_part = [&] {
            for (std::size_t k = 0; k < closed.items.size(); ++k)
                if (std::abs(opened.items[k].observer_from_part[3].z - closed.items[k].observer_from_part[3].z - lift) <
                        1e-3F &&
                    scene.stage.machine.parts[k].place.position() < scene.stage.placement.places.size() &&
                    scene.stage.train[scene.stage.placement[scene.stage.machine.parts[k].place].member].name ==
                        closed.labels[i].text)
                    return true;
            return false;
        }();
        EXPECT_GT(lift, 0.0F) << closed.labels[i].text;
        EXPECT_TRUE(with_a_part) << closed.labels[i].text;
    }
}

TEST(Overlays, AreNoneUnlessAskedFor) {
    const Picture picture = shown_scene("harbour_capstan").picture({}, 0);
    EXPECT_TRUE(picture.strokes.empty());
    EXPECT_TRUE(picture.glows.empty());
    EXPECT_TRUE(picture.labels.empty());
}

}  // namespace
}  // namespace couplet
