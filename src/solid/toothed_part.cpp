#include "solid/toothed_part.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solid/by_shape.hpp"

namespace couplet {

namespace {

constexpr double kPi = std::numbers::pi;

// The flanks' points go steadily towards the tip from here on. Below, an internal tooth's root runs along its circle.
std::size_t strip_start(const ToothContour& outline, const std::vector<PlanePoint>& tooth, double to_tip) {
    std::size_t i = outline.flank_points - 2;
    while (i > 0 && to_tip * (tooth[i].x_mm - tooth[i - 1].x_mm) > 0.0) --i;
    return i;
}

// The last point of a flank that stands clear of the whole tip.
std::size_t strip_end(const ToothContour& outline, const std::vector<PlanePoint>& tooth, std::size_t strip_from,
                      double to_tip) {
    double nearest = to_tip * tooth[outline.flank_points - 1].x_mm;
    for (std::size_t i = outline.flank_points; i + outline.flank_points < outline.tooth_points; ++i)
        nearest = std::min(nearest, to_tip * tooth[i].x_mm);
    std::size_t i = outline.flank_points - 2;
    while (i > strip_from && to_tip * tooth[i].x_mm >= nearest) --i;
    return i;
}

std::vector<PlanePoint> first_tooth_of(const ToothContour& outline, double chamfer_mm) {
    const Contour face = inset(outline.contour, chamfer_mm);
    std::vector<PlanePoint> tooth;
    for (std::size_t i = 0; i < outline.tooth_points; ++i) tooth.push_back(face.points[outline.index(0, i)].at);
    return tooth;
}

// Whether a strip can still fill the first tooth: its sides stay apart and go on as they did.
bool keeps_strip(const ToothContour& outline, double chamfer_mm, double to_tip) {
    const std::vector<PlanePoint> tooth = first_tooth_of(outline, chamfer_mm);
    for (std::size_t i = 0; 2 * i + 1 < outline.tooth_points; ++i)
        if (tooth[i].y_mm >= 0.0) return false;
    return strip_start(outline, tooth, to_tip) <= strip_start(outline, first_tooth_of(outline, 0.0), to_tip) + 1;
}

double chamfer_with_room(const ToothContour& outline, double wished_mm, double to_tip) {
    constexpr int kTries = 12;
    double chamfer = wished_mm;
    for (int i = 0; i < kTries && chamfer > 0.0; ++i, chamfer *= 0.7) {
        chamfer = inset_with_room(outline.contour, chamfer);
        if (keeps_strip(outline, chamfer, to_tip)) return chamfer;
    }
    return 0.0;
}

std::vector<std::size_t> foot_points(const ToothContour& outline, std::size_t strip_from) {
    std::vector<std::size_t> foot;
    const bool shares_last = outline.pitch_points < outline.tooth_points;
    for (std::size_t k = 0; k < outline.teeth; ++k) {
        for (std::size_t i = 0; i <= strip_from; ++i) foot.push_back(outline.index(k, i));
        for (std::size_t i = outline.tooth_points - 1 - strip_from; i < outline.tooth_points; ++i)
            foot.push_back(outline.index(k, i));
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
    ToothedEnd end{std::move(teeth), {}, part.twist.at(z_mm)};
    for (const std::size_t i : part.foot) end.foot.push_back(end.teeth[i]);
    return end;
}

// The points of a tooth's strip, from the foot up one flank, over the tip and down the other.
Chain strip_of(const ToothedPart& part, const Chain& teeth, std::size_t tooth) {
    Chain strip;
    for (std::size_t i = part.strip_from; i + part.strip_from < part.outline.tooth_points; ++i)
        strip.push_back(teeth[part.outline.index(tooth, i)]);
    return strip;
}

// A face seen so that the teeth point the same way: with a ring's chains turned round, they run as a gear's.
class ToothFace {
  public:
    ToothFace(FlatFace& face, bool ring) : face_(face), ring_(ring) {}

    void fill_strip(Chain polygon) {
        if (ring_) std::ranges::reverse(polygon);
        face_.fill_strip(polygon);
    }
    void fill_fan(Chain chain, std::uint32_t apex) {
        if (ring_) std::ranges::reverse(chain);
        face_.fill_fan(chain, apex);
    }
    void fill_monotone(const Chain& below, const Chain& above, const PlanePoint& to_tip) {
        face_.fill_monotone(ring_ ? above : below, ring_ ? below : above, to_tip);
    }

  private:
    FlatFace& face_;
    bool ring_;
};

// The tip belongs to no strip: a ring's bends into the metal. It is filled across, down to the last points that stand
// clear of its bend.
void fill_tooth(ToothFace face, const ToothedPart& part, const Chain& strip, const PlanePoint& across) {
    const auto flank = static_cast<std::ptrdiff_t>(part.strip_to - part.strip_from + 1);
    Chain flanks(strip.begin(), strip.begin() + flank);
    flanks.insert(flanks.end(), strip.end() - flank, strip.end());
    face.fill_strip(flanks);
    face.fill_monotone(Chain(strip.begin() + flank - 1, strip.end() - flank + 1), {}, across);
}

// The last point of a flank before the mark begins.
std::size_t last_before_mark(const ToothedPart& part) {
    const double to_tip = part.mark->to_tip();
    const double begin = to_tip * part.mark->root_mm - part.mark->half_width_mm;
    std::size_t last = part.strip_from;
    while (last + 1 < part.outline.flank_points && to_tip * part.first_tooth[last + 1].x_mm < begin) ++last;
    return last;
}

// A strip up to the last points before the mark, from which on the flanks see it; then between them and the mark on
// either side, and before and behind it.
void fill_round_mark(ToothFace face, const ToothedPart& part, const ToothedEnd& end, const Chain& strip,
                     const Chain& mark) {
    const auto begin = static_cast<std::ptrdiff_t>(last_before_mark(part) - part.strip_from);
    const auto flank = static_cast<std::ptrdiff_t>(part.outline.flank_points - part.strip_from);
    const auto side = static_cast<std::ptrdiff_t>(mark.size() / 2 + 1);
    Chain foot(strip.begin(), strip.begin() + begin + 1);
    foot.insert(foot.end(), strip.end() - begin - 1, strip.end());
    const Chain lower(strip.begin() + begin, strip.begin() + flank);
    const Chain upper(strip.rbegin() + begin, strip.rbegin() + flank);
    const Chain below(mark.begin(), mark.begin() + side);
    Chain above{mark.front()};
    above.insert(above.end(), mark.rbegin(), mark.rbegin() + side - 1);
    const PlanePoint outwards = direction_at(end.turned_rad);
    const PlanePoint to_tip{part.mark->to_tip() * outwards.x_mm, part.mark->to_tip() * outwards.y_mm};
    face.fill_strip(foot);
    face.fill_fan({upper.front(), lower.front()}, mark.front());
    face.fill_monotone(lower, below, to_tip);
    face.fill_monotone(above, upper, to_tip);
    face.fill_fan(Chain(strip.begin() + flank - 1, strip.end() - flank + 1), below.back());
}

PlanePoint across_tooth(const ToothedPart& part, const ToothedEnd& end, std::size_t tooth) {
    const double middle_rad = 2.0 * kPi * static_cast<double>(tooth) / static_cast<double>(part.outline.teeth);
    return direction_at(end.turned_rad + middle_rad + kPi / 2);
}

void fill_marked_tooth(Solid& solid, FlatFace& face, bool up, const ToothedPart& part, const ToothedEnd& end,
                       const Chain& strip) {
    const bool ring = part.outline.contour.hole;
    const Loop edge = mark_loop(*part.mark, end.turned_rad, end.teeth.front()[2], part.tolerance_mm);
    fill_round_mark(ToothFace(face, ring), part, end, strip, face.add(edge));
    FlatFace enamel(solid, up, Surface::mark);
    ToothFace(enamel, ring).fill_strip(enamel.add(edge));
}

}  // namespace

ToothedPart toothed_part(const ToothProfile& profile, double width_mm, double chamfer_mm, bool marked,
                         double tolerance_mm) {
    const GearSizes& sizes = profile.sizes;
    const double to_tip = sizes.spec.internal ? -1.0 : 1.0;
    ToothedPart part{tooth_contour(profile, tolerance_mm), width_mm, 0.0, {}, tolerance_mm, {}, 0, 0, {}, {}};
    part.chamfer_mm = chamfer_with_room(part.outline, chamfer_for(chamfer_mm, width_mm, tolerance_mm), to_tip);
    part.twist.rad_per_mm = std::tan(sizes.spec.helix_angle_rad) / (sizes.pitch_diameter_mm / 2.0);
    part.twist.level_mm = width_mm / 2.0;
    part.twist.slices = slices_for(part.outline.contour, std::max(sizes.tip_diameter_mm, sizes.root_diameter_mm) / 2.0,
                                   (width_mm - 2.0 * part.chamfer_mm) * part.twist.rad_per_mm, tolerance_mm);
    part.first_tooth = first_tooth_of(part.outline, part.chamfer_mm);
    part.strip_from = strip_start(part.outline, part.first_tooth, to_tip);
    part.strip_to = strip_end(part.outline, part.first_tooth, part.strip_from, to_tip);
    part.foot = foot_points(part.outline, part.strip_from);
    const auto from = static_cast<std::ptrdiff_t>(part.strip_from);
    if (marked) part.mark = mark_in_tooth(sizes, {part.first_tooth.begin() + from, part.first_tooth.end() - from});
    return part;
}

ToothedEnds add_teeth(Solid& solid, const ToothedPart& part) {
    WallEnds ends =
        add_wall(solid, part.outline.contour, {0.0, part.width_mm, part.chamfer_mm, part.chamfer_mm}, part.twist);
    return {end_of(part, std::move(ends.bottom), 0.0), end_of(part, std::move(ends.top), part.width_mm)};
}

void add_toothed_face(Solid& solid, const ToothedPart& part, const ToothedEnd& end, bool up, const Loop& other,
                      std::vector<Opening> openings) {
    const bool ring = part.outline.contour.hole;
    FlatFace face(solid, up, Surface::turned);
    const Chain teeth = face.add(end.teeth);
    if (part.mark) fill_marked_tooth(solid, face, up, part, end, strip_of(part, teeth, 0));
    for (std::size_t k = part.mark ? 1 : 0; k < part.outline.teeth; ++k)
        fill_tooth(ToothFace(face, ring), part, strip_of(part, teeth, k), across_tooth(part, end, k));
    Chain foot;
    for (const std::size_t i : part.foot) foot.push_back(teeth[i]);
    const Chain far = face.add(other);
    face.fill_band(ring ? far : foot, ring ? foot : far, {0.0, 0.0}, std::move(openings));
}

}  // namespace couplet
