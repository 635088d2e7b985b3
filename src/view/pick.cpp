#include "view/pick.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>
#include <limits>
#include <numbers>
#include <vector>

namespace couplet {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
// Of a triangle's sides: rays between two triangles meet one of them.
constexpr double kSeam = 1e-9;
// Added to the cylinders: rays along their faces are inside.
constexpr double kPad_mm = 1e-6;
// Triangles that are tried together, behind one box.
constexpr std::size_t kBlock = 32;

struct Stretch {
    double from = 0.0;
    double to = kNever;

    void narrow(double a, double b) {
        from = std::max(from, std::min(a, b));
        to = std::min(to, std::max(a, b));
    }
    [[nodiscard]] bool is_empty() const { return from > to; }
};

// Where start + t step lies in [least, most].
void narrow_to_slab(Stretch& stretch, double start, double step, double least, double most) {
    if (step != 0.0) {
        stretch.narrow((least - start) / step, (most - start) / step);
    } else if (start < least || start > most) {
        stretch.to = -kNever;
    }
}

struct Box {
    glm::dvec3 least{kNever};
    glm::dvec3 most{-kNever};

    void hold(const glm::dvec3& point) {
        least = glm::min(least, point);
        most = glm::max(most, point);
    }
    [[nodiscard]] bool is_met(const Ray& ray, Stretch stretch) const {
        for (int i = 0; i < 3; ++i)
            narrow_to_slab(stretch, ray.from_mm[i], ray.direction[i], least[i] - kPad_mm, most[i] + kPad_mm);
        return !stretch.is_empty();
    }
};

// A shape's mesh, with the least upright cylinder round its axis that holds it.
struct PickSolid {
    std::vector<glm::dvec3> points_mm;
    std::vector<std::array<std::uint32_t, 3>> triangles;
    std::vector<Box> boxes;  // each round kBlock triangles, in their order
    double radius_mm = 0.0;
    double bottom_mm = kNever;
    double top_mm = -kNever;
};

PickSolid pick_solid_of(const Shape& shape, double tolerance_mm) {
    Solid solid = solid_of(shape, tolerance_mm);
    PickSolid result;
    result.points_mm.reserve(solid.vertices.size());
    for (const SolidVertex& vertex : solid.vertices) {
        const auto& [x, y, z] = vertex.position_mm;
        const glm::dvec3& point = result.points_mm.emplace_back(x, y, z);
        result.radius_mm = std::max(result.radius_mm, std::hypot(point.x, point.y));
        result.bottom_mm = std::min(result.bottom_mm, point.z);
        result.top_mm = std::max(result.top_mm, point.z);
    }
    result.triangles = std::move(solid.triangles);
    for (std::size_t t = 0; t < result.triangles.size(); ++t) {
        if (t % kBlock == 0) result.boxes.emplace_back();
        for (const std::uint32_t corner : result.triangles[t]) result.boxes.back().hold(result.points_mm[corner]);
    }
    return result;
}

// The distances along the ray at which it is in the cylinder.
Stretch within_cylinder(const PickSolid& solid, const Ray& ray) {
    Stretch stretch;
    narrow_to_slab(stretch, ray.from_mm.z, ray.direction.z, solid.bottom_mm - kPad_mm, solid.top_mm + kPad_mm);
    const double radius_mm = solid.radius_mm + kPad_mm;
    const glm::dvec2 from(ray.from_mm);
    const glm::dvec2 step(ray.direction);
    const double slope = glm::dot(step, step);
    if (slope == 0.0) {
        if (glm::dot(from, from) > radius_mm * radius_mm) stretch.to = -kNever;
        return stretch;
    }
    const double middle = -glm::dot(from, step) / slope;
    const glm::dvec2 nearest = from + middle * step;
    const double half_squared = (radius_mm * radius_mm - glm::dot(nearest, nearest)) / slope;
    if (half_squared < 0.0) {
        stretch.to = -kNever;
    } else {
        stretch.narrow(middle - std::sqrt(half_squared), middle + std::sqrt(half_squared));
    }
    return stretch;
}

// The distance along the ray at which it meets the triangle from either side, kNever where it does not: Cramer's rule
// for from + t direction = a + u (b - a) + v (c - a).
double distance_to_triangle(const Ray& ray, const glm::dvec3& a, const glm::dvec3& b, const glm::dvec3& c) {
    const glm::dvec3 ab = b - a;
    const glm::dvec3 ac = c - a;
    const glm::dvec3 across = glm::cross(ray.direction, ac);
    const double volume = glm::dot(ab, across);
    if (volume == 0.0) return kNever;
    const glm::dvec3 off = ray.from_mm - a;
    const double u = glm::dot(off, across) / volume;
    if (u < -kSeam || u > 1 + kSeam) return kNever;
    const glm::dvec3 turned = glm::cross(off, ab);
    const double v = glm::dot(ray.direction, turned) / volume;
    if (v < -kSeam || u + v > 1 + kSeam) return kNever;
    return glm::dot(ac, turned) / volume;
}

// The nearest distance along the ray, up to the farthest, at which it meets the solid and `counts` agrees; else kNever.
template <class Counts>
double distance_to_solid(const PickSolid& solid, const Ray& ray, double farthest, const Counts& counts) {
    double nearest = kNever;
    Stretch stretch{0.0, farthest};
    for (std::size_t block = 0; block < solid.boxes.size(); ++block) {
        if (!solid.boxes[block].is_met(ray, stretch)) continue;
        const std::size_t end = std::min((block + 1) * kBlock, solid.triangles.size());
        for (std::size_t t = block * kBlock; t < end; ++t) {
            const auto& [a, b, c] = solid.triangles[t];
            const double distance =
                distance_to_triangle(ray, solid.points_mm[a], solid.points_mm[b], solid.points_mm[c]);
            if (!(distance >= stretch.from && distance <= stretch.to) || !counts(distance)) continue;
            nearest = distance;
            stretch.to = distance;
        }
    }
    return nearest;
}

glm::dvec3 moved(const glm::dmat4& to_from, const glm::dvec3& point) {
    return glm::dvec3(to_from * glm::dvec4(point, 1.0));
}

Ray moved(const glm::dmat4& to_from, const Ray& ray) {
    return {moved(to_from, ray.from_mm), glm::dvec3(to_from * glm::dvec4(ray.direction, 0.0))};
}

glm::dvec3 along(const Ray& ray, double distance_mm) {
    return ray.from_mm + distance_mm * ray.direction;
}

// As shaders/cut.glsl has it.
bool is_cut_away(const Cut& cut, const glm::dvec3& point_mm) {
    const double turn =
        std::atan2(point_mm.y - static_cast<double>(cut.apex_mm.y), point_mm.x - static_cast<double>(cut.apex_mm.x)) -
        static_cast<double>(cut.middle_rad);
    return std::abs(std::remainder(turn, 2 * std::numbers::pi)) < static_cast<double>(cut.half_angle_rad);
}

// A part whose cylinder the ray meets.
struct Candidate {
    std::size_t part;
    Ray ray;  // in the part's frame, from where it comes into the cylinder: a far start would cost digits
    double start_mm;
    double length_mm;
};

glm::dmat4 observer_from_place(const Stage& stage, const Standing& standing, const StageLook& look, PlaceIndex place) {
    return observer_from_frame(stage, standing, look.observer) * frame_from_place(standing, place);
}

Picked picked_at(std::size_t part, const glm::dvec3& point_mm, const Stage& stage, const Standing& standing,
                 const StageLook& look) {
    Picked picked;
    picked.part = part;
    picked.place = stage.machine.parts[part].place;
    picked.member = picked.place == PlaceIndex{-1} ? kFrame : stage.placement[picked.place].member;
    picked.point_mm = point_mm;
    picked.point_on_place = moved(glm::inverse(observer_from_place(stage, standing, look, picked.place)), point_mm) -
                            glm::dvec3(0.0, 0.0, spread_shift_mm(stage, look, stage.machine.parts[part]));
    return picked;
}

}  // namespace

struct Picker::Solids {
    std::vector<PickSolid> by_shape;

    // The nearest first.
    [[nodiscard]] std::vector<Candidate> near_to(const Ray& ray, const Stage& stage, const Standing& standing,
                                                 const StageLook& look) const;
};

Picker::Picker(const Stage& stage) {
    constexpr double kCoarsest_mm = 0.2;
    const double tolerance_mm = std::clamp(1e-3 * stage.machine.radius_mm, 1e-6, kCoarsest_mm);
    auto solids = std::make_shared<Solids>();
    for (const Shape& shape : stage.machine.shapes) solids->by_shape.push_back(pick_solid_of(shape, tolerance_mm));
    solids_ = std::move(solids);
}

std::vector<Candidate> Picker::Solids::near_to(const Ray& ray, const Stage& stage, const Standing& standing,
                                               const StageLook& look) const {
    const glm::dmat4 from_frame = observer_from_frame(stage, standing, look.observer);
    std::vector<Candidate> candidates;
    for (std::size_t p = 0; p < stage.machine.parts.size(); ++p) {
        const Part& part = stage.machine.parts[p];
        const glm::dmat4 observer_from_part =
            from_frame * frame_from_place(standing, part.place) * place_from_part(stage, look, part);
        Ray own = moved(glm::inverse(observer_from_part), ray);
        const Stretch stretch = within_cylinder(by_shape[part.shape], own);
        if (stretch.is_empty()) continue;
        own.from_mm = along(own, stretch.from);
        candidates.push_back({p, own, stretch.from, stretch.to - stretch.from});
    }
    std::ranges::sort(candidates, {}, &Candidate::start_mm);
    return candidates;
}

std::optional<Picked> Picker::under(const Ray& ray, const Stage& stage, const Standing& standing, const StageLook& look,
                                    const Camera& camera) const {
    const Cut cut = cut_of(stage, look, camera);
    double nearest_mm = kNever;
    std::size_t nearest = 0;
    for (const Candidate& candidate : solids_->near_to(ray, stage, standing, look)) {
        if (candidate.start_mm > nearest_mm) break;
        const Part& part = stage.machine.parts[candidate.part];
        const bool opened = look.cutaway && part.opens;
        const double farthest_mm = std::min(candidate.length_mm, nearest_mm - candidate.start_mm);
        const double distance_mm =
            distance_to_solid(solids_->by_shape[part.shape], candidate.ray, farthest_mm, [&](double from_start_mm) {
                return !opened || !is_cut_away(cut, along(ray, candidate.start_mm + from_start_mm));
            });
        if (distance_mm == kNever) continue;
        nearest_mm = candidate.start_mm + distance_mm;
        nearest = candidate.part;
    }
    if (nearest_mm == kNever) return std::nullopt;
    return picked_at(nearest, along(ray, nearest_mm), stage, standing, look);
}

glm::dvec3 point_of(const Stage& stage, const Standing& standing, const StageLook& look, const Picked& picked) {
    const double shift_mm = spread_shift_mm(stage, look, stage.machine.parts[picked.part]);
    return moved(observer_from_place(stage, standing, look, picked.place),
                 picked.point_on_place + glm::dvec3(0.0, 0.0, shift_mm));
}

std::optional<glm::dvec2> shown_at(const Camera& camera, const glm::dvec3& point_mm, double width_over_height) {
    const glm::dvec3 seen_mm = moved(view_from_observer(camera), point_mm);
    double half_height_mm = height_at_target_mm(camera) / 2;
    if (camera.projection == Projection::perspective) {
        if (seen_mm.z >= 0.0) return std::nullopt;
        half_height_mm *= -seen_mm.z / camera.distance_mm;
    }
    return glm::dvec2(seen_mm.x / width_over_height, seen_mm.y) / half_height_mm;
}

}  // namespace couplet
