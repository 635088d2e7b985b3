#include "place/copy_places.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace couplet {

namespace {

// Empty: at equal angles.
const std::vector<Ratio>& places_deg(const Train& train, MemberIndex index) {
    const Member& member = train[index];
    if (!member.at_deg.empty() || member.copies == 1) return member.at_deg;
    for (const Mesh& mesh : train.meshes) {
        const MemberIndex first = train[mesh.first].member;
        const MemberIndex second = train[mesh.second].member;
        if (first != index && second != index) continue;
        const Member& other = train[first == index ? second : first];
        if (other.rides_on == member.rides_on && other.copies == member.copies && !other.at_deg.empty())
            return other.at_deg;
    }
    return member.at_deg;
}

}  // namespace

Ratio turns_from_first(const Train& train, MemberIndex member, int k) {
    const std::vector<Ratio>& places = places_deg(train, member);
    if (places.empty()) return {k, train[member].copies};
    return (places[static_cast<std::size_t>(k)] - places.front()) / Ratio(360);
}

ClosestCopies closest_copies(const Placement& placement, MemberIndex a, MemberIndex b) {
    // The copies on the first carrier's place: all others look the same.
    std::vector<std::pair<Ratio, int>> round;
    const int first_of_a = placement.first_place[a.position()];
    const int first_of_b = placement.first_place[b.position()];
    for (int k = 0; first_of_a + k < placement.first_place[a.position() + 1]; ++k) {
        const Place& place = placement[PlaceIndex{first_of_a + k}];
        if (place.own_copy != k + 1) break;
        round.emplace_back(place.turns_from_first.fraction(), k);
    }
    std::ranges::sort(round);
    ClosestCopies closest{{}, {}, std::numeric_limits<double>::infinity()};
    for (std::size_t i = 0; i < round.size(); ++i) {
        const int here = round[i].second;
        const int next = round[(i + 1) % round.size()].second;
        for (const auto& [from, to] : {std::pair{here, next}, std::pair{next, here}}) {
            const PlaceIndex first{first_of_a + from};
            const PlaceIndex second{first_of_b + to};
            const PlanePoint& p = placement[first].centre_mm;
            const PlanePoint& q = placement[second].centre_mm;
            const double distance = std::hypot(q.x_mm - p.x_mm, q.y_mm - p.y_mm);
            if (distance < closest.distance_mm) closest = {first, second, distance};
        }
    }
    return closest;
}

double outer_diameter_mm(const TrainTeeth& teeth, GearIndex gear) {
    constexpr double kRimModules = 2.0;
    const GearSizes& sizes = teeth.gears[gear.position()];
    return sizes.spec.internal ? sizes.root_diameter_mm + 2.0 * kRimModules * sizes.spec.module_mm
                               : sizes.tip_diameter_mm;
}

}  // namespace couplet
