#include <algorithm>
#include <cmath>

#include "solid/by_shape.hpp"
#include "solid/toothed_part.hpp"

namespace couplet {

namespace {

constexpr PlanePoint kAxis{0.0, 0.0};
// Metal that is left between two circles, as a share of the larger.
constexpr double kLeastWall = 1e-3;

struct Bore {
    Contour contour;
    double chamfer_mm = 0.0;
};

double reach_of(const Bore& bore) {
    return farthest_reach(placed(inset(bore.contour, bore.chamfer_mm), 0.0, 0.0), kAxis);
}

// With its key and its chamfer where they have room too.
std::optional<Bore> bore_with_room(const GearShape& gear, double room_mm, double tolerance_mm) {
    const double radius = gear.bore_mm / 2.0;
    if (radius <= 0.0) return std::nullopt;
    constexpr double kWidestKey = 0.7;  // of the bore's diameter
    const bool keyed = gear.key_width_mm > 0.0 && gear.key_width_mm < kWidestKey * gear.bore_mm;
    const double chamfer = chamfer_for(gear.chamfer_mm, gear.face_width_mm, tolerance_mm);
    for (const bool with_key : {keyed, false}) {
        Bore bore{with_key ? keyed_bore(radius, gear.key_width_mm, tolerance_mm)
                           : circle_contour(kAxis, radius, circle_sides(radius, tolerance_mm), true)};
        for (const double wished : {chamfer, 0.0}) {
            bore.chamfer_mm = inset_with_room(bore.contour, wished);
            if (reach_of(bore) < (1.0 - kLeastWall) * room_mm) return bore;
        }
    }
    return std::nullopt;
}

struct Web {
    Contour hub;
    Contour rim;
    double floor_mm;
    double ceiling_mm;
};

// Corners of both circles stand where holes are cut from each other.
std::optional<Web> web_with_room(const GearShape& gear, double bore_reach_mm, double foot_mm, double tolerance_mm) {
    const double hub = gear.hub_mm / 2.0;
    const double rim = gear.rim_mm / 2.0;
    const double thickness = gear.web_mm;
    if (thickness <= 0.0 || thickness >= (1.0 - kLeastWall) * gear.face_width_mm || hub <= 0.0 ||
        hub >= (1.0 - kLeastWall) * rim || rim >= (1.0 - kLeastWall) * foot_mm)
        return std::nullopt;
    const double fine_mm =
        std::min({tolerance_mm, (rim - hub) / 4.0, std::max(1e-3 * hub, (hub - bore_reach_mm) / 4.0)});
    constexpr int kMostHoles = 180;
    const int multiple = gear.holes > 0 && gear.holes <= kMostHoles ? 2 * gear.holes : 1;
    Web web{circle_contour(kAxis, hub, circle_sides(hub, fine_mm, multiple), false),
            circle_contour(kAxis, rim, circle_sides(rim, fine_mm, multiple), true),
            (gear.face_width_mm - thickness) / 2.0, (gear.face_width_mm + thickness) / 2.0};
    const double hub_flats = nearest_reach(placed(web.hub, 0.0, 0.0), kAxis);
    const double rim_flats = nearest_reach(placed(web.rim, 0.0, 0.0), kAxis);
    if (bore_reach_mm >= (1.0 - kLeastWall) * hub_flats || hub >= (1.0 - kLeastWall) * rim_flats) return std::nullopt;
    return web;
}

// Rim and hub of a recess, from the lower to the upper end.
struct Recess {
    WallEnds rim;
    WallEnds hub;
};

Recess add_recess(Solid& solid, const Web& web, double bottom_mm, double top_mm) {
    return {add_wall(solid, web.rim, {bottom_mm, top_mm}), add_wall(solid, web.hub, {bottom_mm, top_mm})};
}

void add_band(Solid& solid, bool up, const Loop& outer, const Loop& inner, std::vector<Opening> openings = {}) {
    FlatFace face(solid, up, Surface::turned);
    const Chain round = face.add(outer);
    const Chain within = face.add(inner);
    face.fill_band(round, within, kAxis, std::move(openings));
}

void add_web(Solid& solid, const GearShape& gear, const Recess& lower, const Recess& upper, double tolerance_mm) {
    const Band floor(lower.rim.top, lower.hub.top, kAxis);
    const Band ceiling(upper.rim.bottom, upper.hub.bottom, kAxis);
    HoleOpenings holes = add_holes(solid, hole_circle(gear.holes, gear.hole_mm, gear.hole_circle_mm, 0.0), kAxis, floor,
                                   ceiling, tolerance_mm);
    add_band(solid, false, floor.outer(), floor.inner(), std::move(holes.bottom));
    add_band(solid, true, ceiling.outer(), ceiling.inner(), std::move(holes.top));
}

WallEnds add_bore(Solid& solid, const std::optional<Bore>& bore, double width_mm) {
    if (!bore) return {{{0.0F, 0.0F, 0.0F}}, {{0.0F, 0.0F, static_cast<float>(width_mm)}}};
    return add_wall(solid, bore->contour, {0.0, width_mm, bore->chamfer_mm, bore->chamfer_mm});
}

void add_end_faces(Solid& solid, ToothedPart& part, ToothedEnds& ends, const Loop& bottom, const Loop& top) {
    find_marks(part, ends, bottom, top);
    add_toothed_face(solid, part, ends.bottom, false, bottom);
    add_toothed_face(solid, part, ends.top, true, top);
}

}  // namespace

Solid gear_solid(const GearShape& gear, double tolerance_mm) {
    Solid solid;
    const double width = gear.face_width_mm;
    if (gear.profile.sizes.spec.teeth < 3 || width <= 0.0) return solid;
    ToothedPart part = toothed_part(gear.profile, width, gear.chamfer_mm, gear.marked, tolerance_mm);
    ToothedEnds ends = add_teeth(solid, part);
    const double foot = std::min(nearest_reach(ends.bottom.foot, kAxis), nearest_reach(ends.top.foot, kAxis));
    const std::optional<Bore> bore = bore_with_room(gear, foot, tolerance_mm);
    const WallEnds middle = add_bore(solid, bore, width);
    const std::optional<Web> web = web_with_room(gear, bore ? reach_of(*bore) : 0.0, foot, tolerance_mm);
    if (!web) {
        add_end_faces(solid, part, ends, middle.bottom, middle.top);
        return solid;
    }
    const Recess lower = add_recess(solid, *web, 0.0, web->floor_mm);
    const Recess upper = add_recess(solid, *web, web->ceiling_mm, width);
    add_end_faces(solid, part, ends, lower.rim.bottom, upper.rim.top);
    add_band(solid, false, lower.hub.bottom, middle.bottom);
    add_band(solid, true, upper.hub.top, middle.top);
    add_web(solid, gear, lower, upper, tolerance_mm);
    return solid;
}

}  // namespace couplet
