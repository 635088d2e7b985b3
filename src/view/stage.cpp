#include "view/stage.hpp"

#include <algorithm>
#include <cmath>
#include <glm/ext/matrix_transform.hpp>
#include <glm/matrix.hpp>
#include <numbers>

#include "solid/detail.hpp"
#include "view/stage_overlays.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// What a part is made of when nothing else is asked for. Wheels are of brass and bronze by turns, so that neighbours
// can be told apart.
Finish usual_finish(PartRole role, int wheel) {
    switch (role) {
        case PartRole::sun_or_wheel:
        case PartRole::planet:
            return wheel % 2 == 0 ? Finish::brass : Finish::bronze;
        case PartRole::ring:
        case PartRole::carrier:
        case PartRole::shaft:
            return Finish::steel;
        case PartRole::fastener:
        case PartRole::stand:
            return Finish::oxide_black;
    }
    return Finish::steel;
}

// By member: how many members with external gears come before it.
std::vector<int> wheels_before(const Train& train) {
    std::vector<int> before(train.members.size(), 0);
    std::vector<char> is_wheel(train.members.size(), 0);
    for (const Gear& gear : train.gears)
        if (!gear.internal) is_wheel[gear.member.position()] = 1;
    for (std::size_t m = 1; m < before.size(); ++m) before[m] = before[m - 1] + is_wheel[m - 1];
    return before;
}

bool in_the_frame(const Part& part) {
    return part.place == PlaceIndex{-1};
}

std::shared_ptr<const std::vector<Shape>> varied(const std::vector<Shape>& shapes, Detail detail, bool sharp) {
    auto result = std::make_shared<std::vector<Shape>>();
    result->reserve(shapes.size());
    for (const Shape& shape : shapes) {
        result->push_back(with_detail(shape, detail));
        std::visit(
            [&](auto& s) {
                if constexpr (requires { s.chamfer_mm; }) s.chamfer_mm = sharp ? 0.0 : s.chamfer_mm;
            },
            result->back());
    }
    return result;
}

Detail detail_of(const StageLook& look) {
    if (look.plain) return Detail::plain;
    return look.marks ? Detail::marked : Detail::unmarked;
}

constexpr std::size_t kDetails = 3;

// How far apart the spread view pulls neighbouring layers when it is fully open.
double spread_step_mm(const Stage& stage) {
    return 0.5 * stage.machine.radius_mm;
}

PictureItem item_of(const Stage& stage, const Standing& standing, const StageLook& look, const Part& part,
                    const glm::dmat4& observer_from_frame) {
    PictureItem item;
    item.shape = part.shape;
    item.observer_from_part =
        glm::mat4(observer_from_frame * frame_from_place(standing, part.place) * place_from_part(stage, look, part));
    item.opened = look.cutaway && part.opens;
    if (in_the_frame(part)) {
        item.material.finish = usual_finish(part.role, 0);
        return item;
    }
    const MemberIndex member = stage.placement[part.place].member;
    item.material.finish = usual_finish(part.role, stage.wheels_before[member.position()]);
    if (member.position() < look.materials.size() && part.role != PartRole::fastener)
        item.material = look.materials[member.position()].value_or(item.material);
    if (look.lit_up == member) item.lit_up = 1.0F;
    return item;
}

// Where the outermost carrier of something turns, and how far from there its own axis may come: as far as the arms that
// carry it are long together.
struct Swing {
    PlanePoint middle;
    double arms_mm = 0.0;
};

Swing swing_of(const Stage& stage, PlaceIndex place, const PlanePoint& offset_mm) {
    Swing swing{offset_mm};
    for (; place != PlaceIndex{-1}; place = stage.placement[place].under) {
        swing.arms_mm += std::hypot(swing.middle.x_mm, swing.middle.y_mm);
        swing.middle = stage.placement[place].centre_on_carrier_mm;
    }
    return swing;
}

// Seen from a member that turns or travels, everything swings round that member's axis.
void see_from(const Stage& stage, MemberIndex observer, std::vector<Bounds>& reaches) {
    const PlaceIndex place{stage.placement.first_place[observer.position()]};
    const Swing own = swing_of(stage, place, {});
    const PlanePoint& start = stage.placement[place].centre_mm;
    for (Bounds& reach : reaches) {
        reach.radius_mm +=
            own.arms_mm + std::hypot(reach.middle_mm.x - own.middle.x_mm, reach.middle_mm.y - own.middle.y_mm);
        reach.middle_mm.x = start.x_mm;
        reach.middle_mm.y = start.y_mm;
    }
}

// By member, turns per turn of the driver the way it is driven; 0 where the motion does not tell.
std::vector<double> rates_for_arrows(const Train& train, const Motion& motion) {
    std::vector<double> numbers(train.members.size(), 0.0);
    if (motion.outcome != Outcome::moves) return numbers;
    const std::vector<Combination> rates = rates_on_frame(train, motion);
    const std::optional<std::size_t> reference = reference_driver(motion);
    const double sense = reference && motion.drivers[*reference].rpm.sign() < 0 ? -1.0 : 1.0;
    for (std::size_t m = 0; m < numbers.size(); ++m)
        numbers[m] = sense * turns_per_driver_turn(motion, rates[m]).value_or(Ratio(0)).to_double();
    return numbers;
}

}  // namespace

Stage stage_of(const Train& train) {
    Stage stage;
    stage.train = train;
    stage.teeth = teeth_of(train);
    stage.placement = place_members(train, stage.teeth);
    stage.rotations = starting_rotations(train, stage.placement);
    stage.machine = machine_of(train, stage.teeth, stage.placement, stage.rotations);
    stage.wheels_before = wheels_before(train);
    for (std::size_t i = 0; i < stage.shapes.size(); ++i)
        stage.shapes[i] = varied(stage.machine.shapes, static_cast<Detail>(i % kDetails), i >= kDetails);
    return stage;
}

Standing standing_at(const Stage& stage, const Motion& motion, const Ratio& turns) {
    const bool moves = motion.outcome == Outcome::moves;
    return standing_with(stage, motion,
                         moves ? joint_phases_turns(motion, turns) : std::vector<Ratio>(stage.train.members.size()));
}

Standing standing_with(const Stage& stage, const Motion& motion, const std::vector<Ratio>& joint_phases_turns) {
    Standing standing;
    standing.moves = motion.outcome == Outcome::moves;
    for (const Drive& drive : motion.drivers) standing.drivers.push_back(drive.member);
    standing.rates_on_frame = rates_for_arrows(stage.train, motion);
    const std::vector<Ratio> phases = frame_phases_turns(stage.train, joint_phases_turns);
    standing.frame_from_place.assign(stage.placement.places.size(), glm::dmat4(1.0));
    each_member_from_the_frame(stage.train, [&](MemberIndex member) {
        const double angle_rad = phases[member.position()].to_double() * kTurn;
        const auto first = static_cast<std::size_t>(stage.placement.first_place[member.position()]);
        const auto end = static_cast<std::size_t>(stage.placement.first_place[member.position() + 1]);
        for (std::size_t p = first; p < end; ++p) {
            const Place& place = stage.placement.places[p];
            const glm::dvec4 on_carrier(place.centre_on_carrier_mm.x_mm, place.centre_on_carrier_mm.y_mm, 0.0, 1.0);
            const glm::dvec4 centre = place.under == PlaceIndex{-1}
                                          ? on_carrier
                                          : standing.frame_from_place[place.under.position()] * on_carrier;
            standing.frame_from_place[p] =
                glm::rotate(glm::translate(glm::dmat4(1.0), glm::dvec3(centre)), angle_rad, glm::dvec3(0, 0, 1));
        }
    });
    return standing;
}

glm::dmat4 observer_from_frame(const Stage& stage, const Standing& standing, MemberIndex observer) {
    if (observer == kFrame) return glm::dmat4(1.0);
    const auto place = static_cast<std::size_t>(stage.placement.first_place[observer.position()]);
    const PlanePoint& start = stage.placement.places[place].centre_mm;
    return glm::translate(glm::dmat4(1.0), glm::dvec3(start.x_mm, start.y_mm, 0.0)) *
           glm::inverse(standing.frame_from_place[place]);
}

glm::dmat4 frame_from_place(const Standing& standing, PlaceIndex place) {
    return place == PlaceIndex{-1} ? glm::dmat4(1.0) : standing.frame_from_place[place.position()];
}

double spread_shift_mm(const Stage& stage, const StageLook& look, const Part& part) {
    return look.spread * spread_step_mm(stage) * part.layer;
}

glm::dmat4 place_from_part(const Stage& stage, const StageLook& look, const Part& part) {
    const double z_mm = part.z_mm + spread_shift_mm(stage, look, part);
    return glm::rotate(glm::translate(glm::dmat4(1.0), glm::dvec3(part.offset_mm.x_mm, part.offset_mm.y_mm, z_mm)),
                       part.turned_rad, glm::dvec3(0, 0, 1));
}

Cut cut_of(const Stage& stage, const StageLook& look, const Camera& camera) {
    if (!look.cutaway) return {};
    // Towards the eye, so that the opening is looked into.
    return {{stage.machine.middle_mm.x_mm, stage.machine.middle_mm.y_mm},
            static_cast<float>(camera.azimuth_rad - kTurn / 4),
            static_cast<float>(kTurn / 6)};
}

std::vector<Bounds> reaches_of(const Stage& stage, const StageLook& look) {
    std::vector<Bounds> reaches;
    for (const Part& part : stage.machine.parts) {
        const Shape& shape = stage.machine.shapes[part.shape];
        const Extent extent = extent_of(shape);
        const double z_mm = part.z_mm + spread_shift_mm(stage, look, part) + 0.5 * (extent.bottom_mm + extent.top_mm);
        const double half_height_mm = 0.5 * (extent.top_mm - extent.bottom_mm);
        const auto add = [&](const PlanePoint& offset_mm, double radius_mm) {
            const Swing swing = swing_of(stage, part.place, offset_mm);
            reaches.push_back(
                {{swing.middle.x_mm, swing.middle.y_mm, z_mm}, radius_mm + swing.arms_mm, half_height_mm});
        };
        const auto* plate = std::get_if<PlateShape>(&shape);
        if (plate == nullptr || !in_the_frame(part)) {
            add(part.offset_mm, extent.radius_mm);
            continue;
        }
        // The base may be long and narrow.
        for (const Hole& lobe : plate->lobes)
            add({part.offset_mm.x_mm + lobe.centre.x_mm, part.offset_mm.y_mm + lobe.centre.y_mm},
                0.5 * lobe.diameter_mm);
    }
    if (reaches.empty()) reaches.emplace_back();
    if (look.observer != kFrame) see_from(stage, look.observer, reaches);
    return reaches;
}

Camera camera_for(const Stage& stage, const StageLook& look, NamedView view, double width_over_height) {
    return fitted(turned_to(Camera{}, view), reaches_of(stage, look), width_over_height);
}

Camera looking_at(Camera camera, const Stage& stage, const Standing& standing, const StageLook& look,
                  MemberIndex member) {
    const PlaceIndex place{stage.placement.first_place[member.position()]};
    const glm::dmat4 observed = observer_from_frame(stage, standing, look.observer) * frame_from_place(standing, place);
    camera.target_mm.x = observed[3].x;
    camera.target_mm.y = observed[3].y;
    return camera;
}

Picture picture_of(const Stage& stage, const Standing& standing, const StageLook& look, const Camera& camera) {
    Picture picture;
    picture.shapes =
        stage.shapes[static_cast<std::size_t>(detail_of(look)) + (look.look == Look::line ? kDetails : 0U)];
    picture.camera = camera;
    picture.look = look.look;
    picture.transparent = look.transparent;
    picture.bounds = enclosing(reaches_of(stage, look));
    picture.bench_mm = static_cast<float>(stage.machine.bottom_mm);
    picture.cut = cut_of(stage, look, camera);
    const glm::dmat4 from_frame = observer_from_frame(stage, standing, look.observer);
    picture.items.reserve(stage.machine.parts.size());
    for (const Part& part : stage.machine.parts)
        if (!(look.plain && part.singles_out))
            picture.items.push_back(item_of(stage, standing, look, part, from_frame));
    add_overlays(picture, stage, standing, look, from_frame,
                 [&](const Part& part) { return part.z_mm + spread_shift_mm(stage, look, part); });
    return picture;
}

}  // namespace couplet
