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
    const int multiple = corners_for_holes(gear.holes);
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

void add_web(Solid& solid, const GearShape& gear, const Recess& lower, const Recess& upper, double tolerance_mm) {
    const FaceBand floor(lower.rim.top, lower.hub.top, kAxis);
    const FaceBand ceiling(upper.rim.bottom, upper.hub.bottom, kAxis);
    HoleOpenings holes =
        add_holes(solid, hole_circle(gear.holes, gear.hole_mm, gear.hole_circle_mm, 0.0), floor, ceiling, tolerance_mm);
    add_band_face(solid, false, Surface::turned, floor, std::move(holes.bottom));
    add_band_face(solid, true, Surface::turned, ceiling, std::move(holes.top));
}

WallEnds add_bore(Solid& solid, const std::optional<Bore>& bore, double width_mm) {
    if (!bore) return {{{0.0F, 0.0F, 0.0F}}, {{0.0F, 0.0F, static_cast<float>(width_mm)}}};
    return add_wall(solid, bore->contour, {0.0, width_mm, bore->chamfer_mm, bore->chamfer_mm});
}

}  // namespace

Solid gear_solid(const GearShape& gear, double tolerance_mm) {
    Solid solid;
    const double width = gear.face_width_mm;
    if (gear.profile.sizes.spec.teeth < 3 || width <= 0.0) return solid;
    const ToothedPart part = toothed_part(gear.profile, width, gear.chamfer_mm, gear.marked, tolerance_mm);
    const ToothedEnds ends = add_teeth(solid, part);
    const double foot = std::min(nearest_reach(ends.bottom.foot, kAxis), nearest_reach(ends.top.foot, kAxis));
    const std::optional<Bore> bore = bore_with_room(gear, foot, tolerance_mm);
    const WallEnds middle = add_bore(solid, bore, width);
    const std::optional<Web> web = web_with_room(gear, bore ? reach_of(*bore) : 0.0, foot, tolerance_mm);
    if (!web) {
        add_toothed_face(solid, part, ends.bottom, false, middle.bottom);
        add_toothed_face(solid, part, ends.top, true, middle.top);
        return solid;
    }
    const Recess lower = add_recess(solid, *web, 0.0, web->floor_mm);
    const Recess upper = add_recess(solid, *web, web->ceiling_mm, width);
    add_toothed_face(solid, part, ends.bottom, false, lower.rim.bottom);
    add_toothed_face(solid, part, ends.top, true, upper.rim.top);
    add_band_face(solid, false, Surface::turned, FaceBand(lower.hub.bottom, middle.bottom, kAxis));
    add_band_face(solid, true, Surface::turned, FaceBand(upper.hub.top, middle.top, kAxis));
    add_web(solid, gear, lower, upper, tolerance_mm);
    return solid;
}

}  // namespace couplet
