#include "app/stage_frame.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <numbers>

#include "app/kept_folder.hpp"
#include "place/outline.hpp"
#include "view/pick.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// A window of 1280 x 720 with a panel of 460 and the dial row.
Places_px beside_a_panel() {
    Places_px places;
    places.window = {1280, 720};
    places.stage_from = {460, 0};
    places.stage_to = {1280, 588};
    return places;
}

TEST(StageFrame, ShowsTheTargetInTheMiddleOfWhatIsFree) {
    const Places_px places = beside_a_panel();
    const Session session = open_session({}, testing::TempDir() + "couplet_frame");
    const Camera handled = fitted_between(turned_to(Camera{}, NamedView::iso), *session.stage, {}, places);
    const Camera shown = shown_camera(handled, places);
    const glm::dvec2 target = *shown_at(shown, handled.target_mm, 1280.0 / 720);
    EXPECT_NEAR(target.x, free_middle(places).x, 1e-9);
    EXPECT_NEAR(target.y, free_middle(places).y, 1e-9);
    // All of the machine lies within the free part.
    for (const Bounds& reach : reaches_of(*session.stage, {}))
        for (int side = 0; side < 16; ++side) {
            const double angle = side * std::numbers::pi / 8;
            const glm::dvec3 rim =
                reach.middle_mm + glm::dvec3(reach.radius_mm * std::cos(angle), reach.radius_mm * std::sin(angle),
                                             (side % 2 == 0 ? 1 : -1) * reach.half_height_mm);
            const glm::dvec2 at = *shown_at(shown, rim, 1280.0 / 720);
            EXPECT_GE((at.x + 1) * 640, places.stage_from.x) << side;
            EXPECT_LE((at.x + 1) * 640, places.stage_to.x) << side;
            EXPECT_LE((1 - at.y) * 360, places.stage_to.y) << side;
            EXPECT_GE((1 - at.y) * 360, places.stage_from.y) << side;
        }
}

TEST(StageFrame, GoesToTheSmallestGapOfAMesh) {
    const Places_px places = beside_a_panel();
    Session session = open_session({}, testing::TempDir() + "couplet_gap");
    // Crank with the first planet: near the pitch point, 31.5 mm out towards it (module 3, 21 teeth), after the
    // arm has turned with the drum.
    go_to_gap(session, places, 0);
    const Standing standing = standing_now(session);
    const glm::dvec3 at = *gap_on_stage(session, standing, 0);
    EXPECT_NEAR(std::hypot(at.x, at.y), 31.5, 6.0);
    const auto drum = static_cast<std::size_t>(
        session.stage->placement.first_place[find_member(session.train(), "drum")->position()]);
    const glm::dvec4 planet = standing.frame_from_place[drum] * glm::dvec4(67.5, 0, 0, 1);
    EXPECT_GT(glm::dot(glm::normalize(glm::dvec2(at)), glm::normalize(glm::dvec2(planet))), 0.97);
    EXPECT_EQ(session.view.camera.target_mm, at);
}

// The outline of a gear where it stands on the stage, in the plane at a height above it.
struct OutlineOnStage {
    ToothOutline outline;
    PlanePoint centre_mm;
    double tooth_rad;

    OutlineOnStage(const Stage& stage, const Standing& standing, GearIndex gear, PlaceIndex place, double z_mm)
        : outline(stage.teeth.profiles[gear.position()].profile.value(), 1e-4) {
        const glm::dmat4& at = standing.frame_from_place[place.position()];
        centre_mm = {at[3].x, at[3].y};
        const auto part = std::ranges::find_if(stage.machine.parts,
                                               [&](const Part& one) { return one.gear == gear && one.place == place; });
        const GearSizes& sizes = stage.teeth.gears[gear.position()];
        // Teeth lean by tan(helix) at the pitch cylinder, one way or the other by their hand.
        const double twist = (z_mm - part->z_mm) * std::tan(sizes.spec.helix_angle_rad) / (sizes.pitch_diameter_mm / 2);
        tooth_rad = kTurn * stage.rotations.of(gear, place).tooth.value(stage.placement.direction_turns) +
                    std::atan2(at[0].y, at[0].x) + twist;
    }
    [[nodiscard]] bool is_metal(const glm::dvec3& p) const {
        return outline.is_metal({p.x - centre_mm.x_mm, p.y - centre_mm.y_mm}, tooth_rad);
    }
    [[nodiscard]] double distance_mm(const glm::dvec3& p) const {
        std::vector<Edge> edges;
        outline.add_edges(edges, centre_mm, tooth_rad, std::atan2(p.y - centre_mm.y_mm, p.x - centre_mm.x_mm), 0.5,
                          [](const PlanePoint&) { return true; });
        double nearest = 1e9;
        for (const Edge& edge : edges) nearest = std::min(nearest, distance_to_edge({p.x, p.y}, edge));
        return nearest;
    }
};

class Gaps : public KeptFolder {
  protected:
    Gaps() : session_(open_session({}, folder())) {}

    void change(const Train& train) {
        Draft draft = session_.draft();
        draft.train = train;
        Edits edits{session_.view, {}};
        edits.change("teeth", draft);
        apply(session_, edits, 0);
        ASSERT_EQ(session_.train(), train);
    }
    // The point shown lies in neither gear, and half of the gap from either.
    void expect_in_space(std::size_t which) const {
        const Stage& stage = *session_.stage;
        const Standing standing = standing_now(session_);
        const std::optional<glm::dvec3> shown = gap_on_stage(session_, standing, which);
        ASSERT_TRUE(shown) << which;
        const glm::dmat4 seen = observer_from_frame(stage, standing, session_.view.look.observer);
        const glm::dvec3 at(glm::inverse(seen) * glm::dvec4(*shown, 1));
        const MeshGap& gap = session_.study->places().part->proof.meshes[which];
        const PlacedMesh& placed = stage.placement.meshes[which];
        const Mesh& mesh = stage.train[placed.mesh];
        const double half_mm = gap.gap_mm / 2 / std::cos(stage.teeth.gears[mesh.first.position()].base_helix_rad);
        for (const OutlineOnStage& gear : {OutlineOnStage(stage, standing, mesh.first, placed.first, at.z),
                                           OutlineOnStage(stage, standing, mesh.second, placed.second, at.z)}) {
            EXPECT_FALSE(gear.is_metal(at)) << which;
            // The outlines are polygons to 1e-4 mm, and their shifts are decimals.
            EXPECT_NEAR(gear.distance_mm(at), half_mm, 4e-4) << which;
        }
    }
    [[nodiscard]] std::size_t meshes() const { return session_.study->places().part->proof.meshes.size(); }

    Session session_;
};

TEST_F(Gaps, AreShownInSpaceBetweenTwoFlanksAtTheirInstantAndAfterIt) {
    // Teeth that have room on both sides: a backlash of 0.2 mm, and stub teeth, so that no fillet is nearer.
    Train train = session_.train();
    train.teeth.backlash = Ratio(1, 5);
    train.teeth.addendum = Ratio(4, 5);
    for (const int helix_deg : {0, 15}) {
        train.teeth.helix_angle_deg = Ratio(helix_deg);
        change(train);
        ASSERT_EQ(meshes(), 6U);
        for (std::size_t m = 0; m < meshes(); ++m) {
            SCOPED_TRACE(m);
            session_.view.look.observer = m % 2 == 0 ? kFrame : MemberIndex{1};
            go_to_gap(session_, beside_a_panel(), m);
            EXPECT_GT(session_.study->places().part->proof.meshes[m].gap_mm, 0.05);
            expect_in_space(m);
            session_.crank.run(session_.study->motion(), 0.37);
            expect_in_space(m);
        }
    }
}

TEST_F(Gaps, OfTeethOffTheMiddleAreOnTheirNarrowSide) {
    // (21 + 69) / 4 is not whole: of four planets some miss the middle of their gaps; those that overlap have no gap.
    Train train = session_.train();
    train.teeth.backlash = Ratio(1);
    train.teeth.addendum = Ratio(4, 5);
    train.members[2].at_deg = {Ratio(0), Ratio(1201, 10), Ratio(240)};
    change(train);
    int off_centre = 0;
    for (std::size_t m = 0; m < meshes(); ++m) {
        const MeshGap& gap = session_.study->places().part->proof.meshes[m];
        if (gap.verdict == MeshVerdict::overlaps) continue;
        off_centre += gap.verdict == MeshVerdict::off_centre ? 1 : 0;
        go_to_gap(session_, beside_a_panel(), m);
        expect_in_space(m);
    }
    EXPECT_GT(off_centre, 0);
}

// Without backlash a full-depth ring digs into a planet's fillet: the crank stands at that instant, whichever way it is
// driven.
TEST_F(Gaps, BesideTheFlanksAreShownAtTheirInstant) {
    Train train = session_.train();
    train.teeth.backlash = Ratio(0);
    train.teeth.helix_angle_deg = Ratio(0);
    for (const int rpm : {30, -30}) {
        train.settings[0].drive[0].rpm = Ratio(rpm);
        change(train);
        const auto& proof = session_.study->places().part->proof.meshes;
        const auto gap = std::ranges::find(proof, GapPlace::elsewhere, &MeshGap::where);
        ASSERT_NE(gap, proof.end());
        const auto which = static_cast<std::size_t>(gap - proof.begin());
        go_to_gap(session_, beside_a_panel(), which);
        // The crank counts in grains.
        EXPECT_NEAR(session_.crank.driver_turns(session_.study->motion()).to_double(),
                    gap->at_driver_turns->to_double(), 1.0 / Crank::kGrain);
        const Stage& stage = *session_.stage;
        const Standing standing = standing_now(session_);
        const glm::dvec3 at = gap_on_stage(session_, standing, which).value();
        const PlacedMesh& placed = stage.placement.meshes[which];
        const Mesh& mesh = stage.train[placed.mesh];
        const OutlineOnStage first(stage, standing, mesh.first, placed.first, at.z);
        const OutlineOnStage second(stage, standing, mesh.second, placed.second, at.z);
        // A point of the one gear's outline, as deep in the other as the proof says.
        EXPECT_NEAR(std::min(first.distance_mm(at), second.distance_mm(at)), 0.0, 4e-3);
        EXPECT_NEAR(std::max(first.distance_mm(at), second.distance_mm(at)), -gap->gap_mm, 4e-3);
        EXPECT_TRUE(first.is_metal(at) || second.is_metal(at));
    }
}

}  // namespace
}  // namespace couplet
