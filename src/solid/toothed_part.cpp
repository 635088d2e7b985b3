#include "solid/toothed_part.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solid/by_shape.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

// Outwards from the root: +1 for a gear, -1 for a ring, whose teeth point to the axis.
double towards_tip(const ToothProfile& profile) {
    return profile.sizes.spec.internal ? -1.0 : 1.0;
}

// Whether the first tooth keeps its sides apart, so that a strip can fill it.
bool has_metal(const ToothContour& outline, const Contour& contour) {
    for (std::size_t i = 0; 2 * i + 1 < outline.tooth_points; ++i)
        if (contour.points[i].at.y_mm >= 0.0) return false;
    return true;
}

double chamfer_with_room(const ToothContour& outline, double wished_mm) {
    constexpr int kTries = 12;
    double chamfer = wished_mm;
    for (int i = 0; i < kTries && chamfer > 0.0; ++i, chamfer *= 0.7) {
        chamfer = inset_with_room(outline.contour, chamfer);
        if (has_metal(outline, inset(outline.contour, chamfer))) return chamfer;
    }
    return 0.0;
}

// The flanks' points go steadily towards the tip from here on. Below, an internal tooth's root runs along its circle.
std::size_t strip_start(const ToothContour& outline, const Contour& contour, double to_tip) {
    std::size_t i = (outline.tooth_points - 1) / 2;
    while (i > 0 && to_tip * (contour.points[i].at.x_mm - contour.points[i - 1].at.x_mm) > 0.0) --i;
    return i;
}

std::vector<std::size_t> foot_points(const ToothContour& outline, std::size_t strip_from, bool marked) {
    std::vector<std::size_t> foot;
    const bool shares_last = outline.pitch_points < outline.tooth_points;
    for (std::size_t k = 0; k < outline.teeth; ++k) {
        const std::size_t left = marked && k == 0 ? outline.tooth_points : strip_from + 1;
        for (std::size_t i = 0; i < outline.tooth_points; ++i)
            if (i < left || i + strip_from + 1 >= outline.tooth_points) foot.push_back(outline.index(k, i));
        if (shares_last) foot.pop_back();
        for (std::size_t i = outline.tooth_points; i < outline.pitch_points; ++i) foot.push_back(outline.index(k, i));
    }
    return foot;
}

// Slices so thin that neither the helices' chords nor the warp of a twisted quadrangle leaves the tolerance.
int slices_for(const Contour& contour, double radius_mm, double twist_rad, double tolerance_mm) {
    constexpr double kMost = 8.0 * kPi / 180.0;
    double longest = 0.0;
    for (std::size_t i = 1; i < contour.points.size(); ++i)
        longest = std::max(longest, std::hypot(contour.points[i].at.x_mm - contour.points[i - 1].at.x_mm,
                                               contour.points[i].at.y_mm - contour.points[i - 1].at.y_mm));
    const double slice = std::min({kMost, chord_angle(radius_mm, tolerance_mm), 4.0 * tolerance_mm / longest});
    return std::max(1, static_cast<int>(std::ceil(std::abs(twist_rad) / slice)));
}

ToothedEnd end_of(const ToothedPart& part, Loop teeth, double z_mm) {
    ToothedEnd end{std::move(teeth), {}, part.twist.at(z_mm), {}};
    for (const std::size_t i : part.foot) end.foot.push_back(end.teeth[i]);
    return end;
}

// A slot with round ends along the middle of the tooth, between the middles of its ends.
struct ToothSlot {
    double tip_mm;  // from the axis
    double root_mm;
    double half_width_mm;
};

// Whether a slot's end, or all of it, stays clear of the boundary.
bool is_clear(const std::vector<PlanePoint>& boundary, const PlanePoint& from, const PlanePoint& to, double room_mm) {
    for (std::size_t i = 0; i < boundary.size(); ++i) {
        const PlanePoint& a = boundary[i];
        const PlanePoint& b = boundary[i + 1 == boundary.size() ? 0 : i + 1];
        if (distance_to_segment(a, from, to) < room_mm || distance_to_segment(from, a, b) < room_mm ||
            distance_to_segment(to, a, b) < room_mm)
            return false;
    }
    return true;
}

// The end of a slot nearest to the one wished for, on the way to the other end, at which the slot stays clear.
std::optional<double> clear_end(const std::vector<PlanePoint>& boundary, const PlanePoint& along, double wished_mm,
                                double other_mm, double room_mm) {
    constexpr int kSteps = 24;
    for (int i = 0; i < kSteps; ++i) {
        const double at = wished_mm + (other_mm - wished_mm) * i / kSteps;
        const PlanePoint p{at * along.x_mm, at * along.y_mm};
        if (is_clear(boundary, p, p, room_mm)) return at;
    }
    return std::nullopt;
}

// The slot wished for, made shorter and then narrower until it has room.
std::optional<ToothSlot> slot_within(const std::vector<PlanePoint>& boundary, const PlanePoint& along,
                                     const ToothSlot& wished, double to_tip) {
    constexpr double kEdge = 1.3;  // metal that is left beside, with the half width
    ToothSlot slot = wished;
    for (int i = 0; i < 10; ++i, slot.half_width_mm *= 0.8) {
        const double room = kEdge * slot.half_width_mm;
        const double tip = wished.tip_mm - to_tip * slot.half_width_mm;
        const double root = wished.root_mm + to_tip * slot.half_width_mm;
        if (to_tip * (tip - root) <= 0.0) continue;
        const auto clear_tip = clear_end(boundary, along, tip, root, room);
        const auto clear_root = clear_end(boundary, along, root, tip, room);
        if (!clear_tip || !clear_root || to_tip * (*clear_tip - *clear_root) <= slot.half_width_mm) continue;
        if (is_clear(boundary, {*clear_tip * along.x_mm, *clear_tip * along.y_mm},
                     {*clear_root * along.x_mm, *clear_root * along.y_mm}, room))
            return ToothSlot{*clear_tip, *clear_root, slot.half_width_mm};
    }
    return std::nullopt;
}

// Counter-clockwise from the end nearer to the axis, each half mirroring the other.
Loop slot_loop(const ToothSlot& slot, double turned_rad, float z, double tolerance_mm) {
    const int steps = circle_sides(slot.half_width_mm, tolerance_mm, 4) / 2;
    const double inner = std::min(slot.tip_mm, slot.root_mm);
    const double outer = std::max(slot.tip_mm, slot.root_mm);
    Loop loop;
    const auto add = [&](double middle_mm, double angle_rad) {
        const PlanePoint round = direction_at(angle_rad);
        const PlanePoint p =
            turned_by({middle_mm + slot.half_width_mm * round.x_mm, slot.half_width_mm * round.y_mm}, turned_rad);
        loop.push_back({static_cast<float>(p.x_mm), static_cast<float>(p.y_mm), z});
    };
    for (int i = steps / 2; i <= steps; ++i) add(inner, kPi / 2 + kPi * i / steps);
    for (int i = 0; i <= steps; ++i) add(outer, -kPi / 2 + kPi * i / steps);
    for (int i = 0; i < steps / 2; ++i) add(inner, kPi / 2 + kPi * i / steps);
    return loop;
}

ToothSlot wished_slot(const ToothProfile& profile, const Loop& other) {
    constexpr double kBelowTip = 0.35;
    constexpr double kBelowPitch = 1.2;
    const GearSizes& sizes = profile.sizes;
    const double to_tip = towards_tip(profile);
    const double module = sizes.spec.module_mm;
    const double half_width = sizes.pitch_thickness_mm / 6.0;
    double root = sizes.pitch_diameter_mm / 2.0 - to_tip * kBelowPitch * module;
    if (to_tip > 0.0)
        root = std::max(root, farthest_reach(other, {0.0, 0.0}) + half_width);
    else
        root = std::min(root, nearest_reach(other, {0.0, 0.0}) - half_width);
    return {sizes.tip_diameter_mm / 2.0 - to_tip * kBelowTip * module, root, half_width};
}

Band band_of(const ToothedPart& part, const ToothedEnd& end, const Loop& other) {
    return part.outline.contour.hole ? Band(other, end.foot, {0.0, 0.0}) : Band(end.foot, other, {0.0, 0.0});
}

// The marked tooth comes first in the foot.
Sector marked_sector(const ToothedPart& part, const ToothedEnd& end, const Band& band) {
    const std::size_t lines = part.outline.tooth_points - 1;
    const PlanePoint first = in_plane(end.foot.front());
    const PlanePoint last = in_plane(end.foot[lines % end.foot.size()]);
    const Sector::Run tooth{0, lines};
    const double direction = end.turned_rad < 0.0 ? end.turned_rad + 2.0 * kPi : end.turned_rad;
    return part.outline.contour.hole ? Sector{band.outer_run(first, last), tooth, direction}
                                     : Sector{tooth, band.inner_run(first, last), direction};
}

std::optional<Opening> mark_at(const ToothedPart& part, const ToothedEnd& end, const Loop& other) {
    const Band band = band_of(part, end, other);
    const Sector sector = marked_sector(part, end, band);
    const PlanePoint along = direction_at(end.turned_rad);
    const auto fitted =
        slot_within(band.boundary_of(sector), along, wished_slot(part.profile, other), towards_tip(part.profile));
    if (!fitted) return std::nullopt;
    const double inner = std::min(fitted->tip_mm, fitted->root_mm);
    const double outer = std::max(fitted->tip_mm, fitted->root_mm);
    const Slot slot{
        {inner * along.x_mm, inner * along.y_mm}, {outer * along.x_mm, outer * along.y_mm}, fitted->half_width_mm};
    return Opening{sector, slot, slot_loop(*fitted, end.turned_rad, end.foot.front()[2], part.tolerance_mm)};
}

void fill_teeth(FlatFace& face, const ToothedPart& part, const Chain& teeth) {
    const ToothContour& outline = part.outline;
    Chain strip;
    for (std::size_t k = part.marked ? 1 : 0; k < outline.teeth; ++k) {
        strip.clear();
        for (std::size_t i = part.strip_from; i + part.strip_from < outline.tooth_points; ++i)
            strip.push_back(teeth[outline.index(k, i)]);
        if (outline.contour.hole) std::ranges::reverse(strip);
        face.fill_strip(strip);
    }
}

}  // namespace

ToothedPart toothed_part(const ToothProfile& profile, double width_mm, double chamfer_mm, bool marked,
                         double tolerance_mm) {
    const GearSizes& sizes = profile.sizes;
    ToothedPart part{profile, tooth_contour(profile, tolerance_mm), width_mm, 0.0, {}, marked, tolerance_mm, 0, {}};
    part.chamfer_mm = chamfer_with_room(part.outline, chamfer_for(chamfer_mm, width_mm, tolerance_mm));
    part.twist.rad_per_mm = std::tan(sizes.spec.helix_angle_rad) / (sizes.pitch_diameter_mm / 2.0);
    part.twist.level_mm = width_mm / 2.0;
    part.twist.slices = slices_for(part.outline.contour, std::max(sizes.tip_diameter_mm, sizes.root_diameter_mm) / 2.0,
                                   (width_mm - 2.0 * part.chamfer_mm) * part.twist.rad_per_mm, tolerance_mm);
    part.strip_from = strip_start(part.outline, inset(part.outline.contour, part.chamfer_mm), towards_tip(profile));
    part.foot = foot_points(part.outline, part.strip_from, marked);
    return part;
}

ToothedEnds add_teeth(Solid& solid, const ToothedPart& part) {
    WallEnds ends =
        add_wall(solid, part.outline.contour, {0.0, part.width_mm, part.chamfer_mm, part.chamfer_mm}, part.twist);
    return {end_of(part, std::move(ends.bottom), 0.0), end_of(part, std::move(ends.top), part.width_mm)};
}

void find_marks(ToothedPart& part, ToothedEnds& ends, const Loop& bottom_other, const Loop& top_other) {
    if (!part.marked) return;
    ends.bottom.mark = mark_at(part, ends.bottom, bottom_other);
    ends.top.mark = mark_at(part, ends.top, top_other);
    if (ends.bottom.mark && ends.top.mark) return;
    part.marked = false;
    part.foot = foot_points(part.outline, part.strip_from, false);
    ends.bottom = end_of(part, std::move(ends.bottom.teeth), 0.0);
    ends.top = end_of(part, std::move(ends.top.teeth), part.width_mm);
}

void add_toothed_face(Solid& solid, const ToothedPart& part, const ToothedEnd& end, bool up, const Loop& other,
                      std::vector<Opening> openings) {
    FlatFace face(solid, up, Surface::turned);
    const Chain teeth = face.add(end.teeth);
    fill_teeth(face, part, teeth);
    Chain foot;
    for (const std::size_t i : part.foot) foot.push_back(teeth[i]);
    const Chain far = face.add(other);
    if (end.mark) {
        openings.push_back(*end.mark);
        FlatFace enamel(solid, up, Surface::mark);
        enamel.fill_strip(enamel.add(end.mark->edge));
    }
    const bool ring = part.outline.contour.hole;
    face.fill_band(ring ? far : foot, ring ? foot : far, {0.0, 0.0}, std::move(openings));
}

}  // namespace couplet
