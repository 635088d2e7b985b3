#include "train/faults.hpp"

namespace couplet {

std::optional<MemberIndex> arm_of(const Train& train, const Mesh& mesh) {
    const MemberIndex a = train[mesh.first].member;
    const MemberIndex b = train[mesh.second].member;
    if (a == b) return std::nullopt;
    const MemberIndex under_a = rides_on(train, a);
    const MemberIndex under_b = rides_on(train, b);
    if (under_a == under_b) return under_a;
    // b's axis is carried by a member beside a, as a planet's by the carrier beside the sun; or the other way round.
    if (under_b != kFrame && under_b != a && rides_on(train, under_b) == under_a) return under_b;
    if (under_a != kFrame && under_a != b && rides_on(train, under_a) == under_b) return under_a;
    return std::nullopt;
}

}  // namespace couplet
