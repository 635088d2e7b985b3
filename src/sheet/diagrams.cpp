#include "sheet/diagrams.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "train/faults.hpp"

namespace couplet {

namespace {

bool has_rates(const Motion& motion) {
    return motion.outcome == Outcome::moves || motion.outcome == Outcome::free;
}

std::optional<Ratio> turns_on_frame(const Train& train, const Motion& motion, MemberIndex member) {
    if (!has_rates(motion)) return std::nullopt;
    return turns_per_driver_turn(motion, rate_on(train, motion, member, kFrame));
}

// w_to/c = factor x w_from/c in a mesh with arm c.
struct Link {
    MemberIndex to;
    Ratio factor;
};
using Links = std::map<MemberIndex, std::vector<Link>>;

void add_links(Links& links, const Gear& a, const Gear& b) {
    const Ratio b_per_a = Ratio(a.internal || b.internal ? a.teeth : -a.teeth, b.teeth);
    links[a.member].push_back({b.member, b_per_a});
    links[b.member].push_back({a.member, b_per_a.inverse()});
}

std::map<MemberIndex, Links> links_by_carrier(const Train& train) {
    std::map<MemberIndex, Links> links;
    for (const Mesh& mesh : train.meshes)
        if (const std::optional<MemberIndex> arm = arm_of(train, mesh); arm && *arm != kFrame)
            add_links(links[*arm], train[mesh.first], train[mesh.second]);
    return links;
}

// Rates against the carrier of all that is in mesh with the first member, directly or by way of others, per its own.
std::map<MemberIndex, Ratio> heights_from(MemberIndex first, const Links& links) {
    std::map<MemberIndex, Ratio> heights{{first, Ratio(1)}};
    std::vector<MemberIndex> waiting{first};
    while (!waiting.empty()) {
        const MemberIndex member = waiting.back();
        waiting.pop_back();
        for (const Link& link : links.at(member))
            if (heights.emplace(link.to, heights.at(member) * link.factor).second) waiting.push_back(link.to);
    }
    return heights;
}

}  // namespace

std::vector<Lever> levers_of(const Train& train, const Motion& motion) {
    std::vector<Lever> levers;
    for (const auto& [carrier, links] : links_by_carrier(train)) {
        std::map<MemberIndex, Ratio> done;
        for (const auto& [central, unused] : links) {
            if (rides_on(train, central) == carrier || done.contains(central)) continue;
            Lever lever{carrier, {{carrier, Ratio(0), turns_on_frame(train, motion, carrier)}}};
            for (auto& [member, height] : heights_from(central, links)) {
                done.emplace(member, height);
                if (rides_on(train, member) != carrier)
                    lever.points.push_back({member, height, turns_on_frame(train, motion, member)});
            }
            std::ranges::stable_sort(lever.points, std::ranges::greater(), &Lever::Point::height);
            levers.push_back(std::move(lever));
        }
    }
    return levers;
}

double PlanSection::Ray::velocity_at(double place_mm) const {
    if (from_mm == to_mm) return velocity_from;
    return velocity_from + (velocity_to - velocity_from) * (place_mm - from_mm) / (to_mm - from_mm);
}

namespace {

// Two axes within this of a line stand on it.
constexpr double kOnLine_mm = 1e-6;

// A direction, a way in mm or a velocity in the plane of the axes.
struct Vector {
    double x = 0;
    double y = 0;
};

Vector way(const PlanePoint& from, const PlanePoint& to) {
    return {to.x_mm - from.x_mm, to.y_mm - from.y_mm};
}
double dot(const Vector& a, const Vector& b) {
    return a.x * b.x + a.y * b.y;
}
// A quarter of a turn on.
Vector turned(const Vector& a) {
    return {-a.y, a.x};
}

// A section while it is being put together.
struct Section {
    MemberIndex arm;
    PlanePoint origin{};
    Vector along;       // of length 1
    double offset = 0;  // of the line from the origin, to its left
    struct Reach {
        PlaceIndex place;
        double from_mm;
        double to_mm;
    };
    std::vector<Reach> reaches;
    std::vector<std::pair<MeshIndex, double>> pitch_points;

    [[nodiscard]] double place_of(const PlanePoint& point) const { return dot(way(origin, point), along); }
    [[nodiscard]] bool passes(const PlanePoint& point) const {
        return std::abs(dot(way(origin, point), turned(along)) - offset) < kOnLine_mm;
    }
    [[nodiscard]] bool has(PlaceIndex place) const {
        return std::ranges::find(reaches, place, &Reach::place) != reaches.end();
    }
    void reach(PlaceIndex place, double to) {
        const auto known = std::ranges::find(reaches, place, &Reach::place);
        if (known == reaches.end()) {
            reaches.push_back({place, to, to});
            return;
        }
        known->from_mm = std::min(known->from_mm, to);
        known->to_mm = std::max(known->to_mm, to);
    }
};

class Planner {
  public:
    Planner(const Train& train, const Placement& placement, const Motion& motion)
        : train_(train), placement_(placement) {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
            const std::optional<Ratio> turns = turns_on_frame(train, motion, {m});
            const double rate = turns ? turns->to_double() : NAN;
            rates_.push_back(std::isfinite(rate) ? std::optional(rate) : std::nullopt);
        }
    }

    [[nodiscard]] std::vector<PlanSection> plan() const {
        std::vector<Section> sections;
        for (const PlacedMesh& mesh : placement_.meshes)
            if (mesh.copy == 1) add(sections, mesh);
        std::vector<PlanSection> plan;
        for (const Section& section : sections)
            if (PlanSection made = with_velocities(section); !made.rays.empty()) plan.push_back(std::move(made));
        return plan;
    }

  private:
    [[nodiscard]] const PlanePoint& centre(PlaceIndex place) const { return placement_[place].centre_mm; }

    // The place of the carrier on which the axes of a mesh stand still; -1: the frame.
    [[nodiscard]] PlaceIndex arm_place(const PlacedMesh& mesh, MemberIndex arm) const {
        const bool first_rides = rides_on(train_, placement_[mesh.first].member) == arm;
        return placement_[first_rides ? mesh.first : mesh.second].under;
    }

    // From the axis of the one gear: where rates against the arm, which are as 1 / teeth, give one velocity. Nothing
    // where they do nowhere.
    [[nodiscard]] std::optional<double> pitch_place(const PlacedMesh& mesh, const Section& section) const {
        const Mesh& of = train_[mesh.mesh];
        const Gear& a = train_[of.first];
        const Gear& b = train_[of.second];
        const double teeth_a = a.teeth;
        const double teeth_b = a.internal || b.internal ? -b.teeth : b.teeth;
        if (teeth_a + teeth_b == 0) return std::nullopt;
        const double place_a = section.place_of(centre(mesh.first));
        const double place_b = section.place_of(centre(mesh.second));
        return (teeth_b * place_a + teeth_a * place_b) / (teeth_a + teeth_b);
    }

    [[nodiscard]] std::optional<Section> section_through(const PlacedMesh& mesh, MemberIndex arm) const {
        const PlaceIndex under = arm_place(mesh, arm);
        Section section{arm, under.value < 0 ? centre(mesh.first) : centre(under), {}, 0, {}, {}};
        const Vector line = way(centre(mesh.first), centre(mesh.second));
        const double length = std::hypot(line.x, line.y);
        if (length < kOnLine_mm) return std::nullopt;
        // Away from the origin.
        const double out =
            dot(way(section.origin, centre(mesh.first)), line) + dot(way(section.origin, centre(mesh.second)), line);
        const double sense = out < 0 ? -1 : 1;
        section.along = {sense * line.x / length, sense * line.y / length};
        section.offset = dot(way(section.origin, centre(mesh.first)), turned(section.along));
        return section;
    }

    [[nodiscard]] Section* section_of(std::vector<Section>& sections, const PlacedMesh& mesh, MemberIndex arm) const {
        for (Section& section : sections) {
            const bool joined = arm != kFrame || section.has(mesh.first) || section.has(mesh.second);
            if (section.arm == arm && joined && section.passes(centre(mesh.first)) &&
                section.passes(centre(mesh.second)))
                return &section;
        }
        const std::optional<Section> fresh = section_through(mesh, arm);
        return fresh ? &sections.emplace_back(*fresh) : nullptr;
    }

    void add(std::vector<Section>& sections, const PlacedMesh& mesh) const {
        const std::optional<MemberIndex> arm = arm_of(train_, train_[mesh.mesh]);
        if (!arm) return;
        Section* section = section_of(sections, mesh, *arm);
        if (section == nullptr) return;
        for (const PlaceIndex place : {mesh.first, mesh.second}) {
            const double axis = section->place_of(centre(place));
            section->reach(place, axis);
            if (*arm == kFrame) continue;
            section->reach(arm_place(mesh, *arm), 0);
            section->reach(arm_place(mesh, *arm), axis);
        }
        const std::optional<double> pitch = pitch_place(mesh, *section);
        if (!pitch) return;
        section->reach(mesh.first, *pitch);
        section->reach(mesh.second, *pitch);
        section->pitch_points.emplace_back(mesh.mesh, *pitch);
    }

    // Of a place's axis, in the frame; nothing where something that carries it has no known speed.
    [[nodiscard]] std::optional<Vector> axis_velocity(PlaceIndex place) const {
        Vector velocity;
        for (PlaceIndex under = placement_[place].under; under.value >= 0;
             place = under, under = placement_[under].under) {
            const std::optional<double>& rate = rates_[placement_[under].member.position()];
            if (!rate) return std::nullopt;
            const Vector arm = turned(way(centre(under), centre(place)));
            velocity = {velocity.x + *rate * arm.x, velocity.y + *rate * arm.y};
        }
        return velocity;
    }

    [[nodiscard]] std::optional<PlanSection::Ray> ray_of(const Section& section, const Section::Reach& reach) const {
        const MemberIndex member = placement_[reach.place].member;
        const std::optional<double>& rate = rates_[member.position()];
        const std::optional<Vector> of_axis = axis_velocity(reach.place);
        if (!rate || !of_axis) return std::nullopt;
        const double across = dot(*of_axis, turned(section.along));
        const double axis = section.place_of(centre(reach.place));
        return PlanSection::Ray{member, reach.from_mm, reach.to_mm, across + *rate * (reach.from_mm - axis),
                                across + *rate * (reach.to_mm - axis)};
    }

    [[nodiscard]] PlanSection with_velocities(const Section& section) const {
        PlanSection made{section.arm, {}, {}};
        for (const Section::Reach& reach : section.reaches)
            if (const std::optional<PlanSection::Ray> ray = ray_of(section, reach)) made.rays.push_back(*ray);
        for (const auto& [mesh, place] : section.pitch_points) {
            const MemberIndex member = train_[train_[mesh].first].member;
            const auto ray = std::ranges::find(made.rays, member, &PlanSection::Ray::member);
            if (ray != made.rays.end()) made.pitch_points.push_back({mesh, place, ray->velocity_at(place)});
        }
        return made;
    }

    const Train& train_;
    const Placement& placement_;
    std::vector<std::optional<double>> rates_;  // by member, turns against the frame per driver turn
};

}  // namespace

std::vector<PlanSection> speed_plan_of(const Train& train, const Placement& placement, const Motion& motion) {
    if (!has_rates(motion)) return {};
    return Planner(train, placement, motion).plan();
}

}  // namespace couplet
