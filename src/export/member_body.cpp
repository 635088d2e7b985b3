#include "export/member_body.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <unordered_map>

#include "sheet/place_words.hpp"
#include "solid/detail.hpp"

namespace couplet {

namespace {

constexpr double kSame_mm = 1e-6;
constexpr double kSame_rad = 1e-9;

// By place, the frame first.
std::vector<std::vector<std::size_t>> parts_by_place(const ExportModel& model) {
    std::vector<std::vector<std::size_t>> parts(model.placement.places.size() + 1);
    for (std::size_t i = 0; i < model.machine.parts.size(); ++i)
        parts[behind_the_frame(model.machine.parts[i].place)].push_back(i);
    return parts;
}

bool is_round(const Machine& machine, const Part& part) {
    return std::holds_alternative<TurnedShape>(machine.shapes[part.shape]) && part.offset_mm.x_mm == 0.0 &&
           part.offset_mm.y_mm == 0.0;
}

PlanePoint turned_by(const PlanePoint& p, double rad) {
    return {p.x_mm * std::cos(rad) - p.y_mm * std::sin(rad), p.x_mm * std::sin(rad) + p.y_mm * std::cos(rad)};
}

bool same_turn(double a_rad, double b_rad) {
    return std::abs(std::remainder(a_rad - b_rad, 2.0 * std::numbers::pi)) < kSame_rad;
}

// Whether part b sits as part a does, once that is turned about the place's axis.
bool sits_alike(const Machine& machine, const Part& a, const Part& b, double turned_rad) {
    if (a.shape != b.shape || std::abs(a.z_mm - b.z_mm) > kSame_mm) return false;
    if (is_round(machine, a) && is_round(machine, b)) return true;
    const PlanePoint at = turned_by(a.offset_mm, turned_rad);
    const bool same_place =
        std::abs(at.x_mm - b.offset_mm.x_mm) < kSame_mm && std::abs(at.y_mm - b.offset_mm.y_mm) < kSame_mm;
    const bool round_itself = std::holds_alternative<TurnedShape>(machine.shapes[a.shape]);
    return same_place && (round_itself || same_turn(a.turned_rad + turned_rad, b.turned_rad));
}

// By the first part that shows it.
double turn_between(const Machine& machine, const std::vector<std::size_t>& a, const std::vector<std::size_t>& b) {
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
        if (!std::holds_alternative<TurnedShape>(machine.shapes[machine.parts[a[i]].shape]))
            return machine.parts[b[i]].turned_rad - machine.parts[a[i]].turned_rad;
    return 0.0;
}

bool takes_copy(const Machine& machine, const MemberBody& body, const std::vector<std::size_t>& parts,
                double turned_rad) {
    return std::ranges::equal(body.parts, parts, [&](std::size_t a, std::size_t b) {
        return sits_alike(machine, machine.parts[a], machine.parts[b], turned_rad);
    });
}

void add_member_bodies(const ExportModel& model, MemberIndex member, const std::vector<std::vector<std::size_t>>& parts,
                       std::vector<MemberBody>& bodies) {
    const std::size_t first = bodies.size();
    const std::vector<int>& places = model.placement.first_place;
    for (PlaceIndex place{places[member.position()]}; place.value < places[member.position() + 1]; ++place.value) {
        const std::vector<std::size_t>& own = parts[behind_the_frame(place)];
        if (own.empty()) continue;
        bool taken = false;
        for (std::size_t b = first; b < bodies.size() && !taken; ++b) {
            const double turned_rad = turn_between(model.machine, bodies[b].parts, own);
            taken = takes_copy(model.machine, bodies[b], own, turned_rad);
            if (!taken) continue;
            bodies[b].places.push_back(place);
            bodies[b].turned_rad.push_back(turned_rad);
        }
        if (!taken) bodies.push_back({name_of(model.train, member), {place}, {0.0}, own});
    }
    if (bodies.size() - first > 1)
        for (std::size_t b = first; b < bodies.size(); ++b)
            bodies[b].name = place_name(model.train, model.placement, bodies[b].places.front());
}

struct PointHash {
    std::size_t operator()(const std::array<float, 3>& p) const {
        std::uint64_t hash = 0;
        for (const float c : p) hash = (hash ^ std::bit_cast<std::uint32_t>(c)) * 0x9E3779B97F4A7C15ULL;
        return static_cast<std::size_t>(hash ^ (hash >> 32U));
    }
};

// The part's points in the body's frame, those that are equal there once.
class Shell {
  public:
    Shell(const Part& part, BodyMesh& mesh)
        : part_(part), cos_(std::cos(part.turned_rad)), sin_(std::sin(part.turned_rad)), mesh_(mesh) {}

    std::uint32_t point(const std::array<float, 3>& in_part) {
        const double x = static_cast<double>(in_part[0]);
        const double y = static_cast<double>(in_part[1]);
        const std::array<double, 3> in_body = {cos_ * x - sin_ * y + part_.offset_mm.x_mm,
                                               sin_ * x + cos_ * y + part_.offset_mm.y_mm,
                                               static_cast<double>(in_part[2]) + part_.z_mm};
        // No negative zero: it equals zero, and its bits do not.
        std::array<float, 3> rounded{};
        for (std::size_t c = 0; c < 3; ++c) rounded[c] = static_cast<float>(in_body[c]) + 0.0F;
        const auto [known, is_new] = known_.emplace(rounded, static_cast<std::uint32_t>(mesh_.points_mm.size()));
        if (is_new) mesh_.points_mm.push_back(rounded);
        return known->second;
    }

  private:
    const Part& part_;
    double cos_;
    double sin_;
    BodyMesh& mesh_;
    std::unordered_map<std::array<float, 3>, std::uint32_t, PointHash> known_;
};

}  // namespace

std::vector<MemberBody> member_bodies(const ExportModel& model) {
    const std::vector<std::vector<std::size_t>> parts = parts_by_place(model);
    std::vector<MemberBody> bodies;
    if (!parts.front().empty()) bodies.push_back({"frame", {PlaceIndex{-1}}, {0.0}, parts.front()});
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m)
        add_member_bodies(model, {m}, parts, bodies);
    return bodies;
}

BodyMesh body_mesh(const Machine& machine, const MemberBody& body, double tolerance_mm) {
    BodyMesh mesh;
    for (const std::size_t p : body.parts) {
        const Part& part = machine.parts[p];
        const Solid solid = solid_of(with_detail(machine.shapes[part.shape], Detail::unmarked), tolerance_mm);
        Shell shell(part, mesh);
        std::vector<std::uint32_t> points;
        points.reserve(solid.vertices.size());
        for (const SolidVertex& vertex : solid.vertices) points.push_back(shell.point(vertex.position_mm));
        for (const auto& t : solid.triangles) {
            const std::array<std::uint32_t, 3> triangle = {points[t[0]], points[t[1]], points[t[2]]};
            // Where two points have become one, the triangle is an edge, and its neighbours meet along that.
            if (triangle[0] != triangle[1] && triangle[1] != triangle[2] && triangle[2] != triangle[0])
                mesh.triangles.push_back(triangle);
        }
    }
    return mesh;
}

}  // namespace couplet
