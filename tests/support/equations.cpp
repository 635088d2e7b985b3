#include "support/equations.hpp"

#include <map>
#include <stdexcept>

namespace couplet {

namespace {

MemberIndex carrier_of(const Train& train, MemberIndex member) {
    return member == kFrame ? kFrame : train.members[member.position()].rides_on;
}

bool stands_on_arm(const Train& train, MemberIndex member, MemberIndex arm) {
    if (member == arm) return false;
    const MemberIndex under = carrier_of(train, member);
    return under == arm || (arm != kFrame && under == carrier_of(train, arm));
}

class RowSum {
  public:
    // The member against the frame: its joint's rate and those of everything that carries it.
    void add_turning(const Train& train, MemberIndex member, std::int64_t coefficient) {
        for (; member != kFrame; member = carrier_of(train, member)) terms_[member.position()] += coefficient;
    }

    [[nodiscard]] RateRow row() const {
        RateRow row;
        for (const auto& [column, coefficient] : terms_)
            if (coefficient != 0) row.emplace_back(column, coefficient);
        return row;
    }

  private:
    std::map<std::size_t, std::int64_t> terms_;
};

}  // namespace

MemberIndex arm_by_definition(const Train& train, const Mesh& mesh) {
    const MemberIndex a = train.gears[mesh.first.position()].member;
    const MemberIndex b = train.gears[mesh.second.position()].member;
    for (const MemberIndex arm : {carrier_of(train, a), carrier_of(train, b)})
        if (stands_on_arm(train, a, arm) && stands_on_arm(train, b, arm)) return arm;
    throw std::invalid_argument("a mesh has no arm");
}

RateRow relative_rate_row(const Train& train, MemberIndex a, MemberIndex b) {
    RowSum sum;
    sum.add_turning(train, a, 1);
    sum.add_turning(train, b, -1);
    return sum.row();
}

RateRows mesh_rows(const Train& train) {
    RateRows rows;
    for (const Mesh& mesh : train.meshes) {
        const Gear& a = train.gears[mesh.first.position()];
        const Gear& b = train.gears[mesh.second.position()];
        const MemberIndex arm = arm_by_definition(train, mesh);
        const int sense = a.internal || b.internal ? -1 : 1;
        RowSum sum;
        sum.add_turning(train, a.member, a.teeth);
        sum.add_turning(train, arm, -a.teeth);
        sum.add_turning(train, b.member, sense * b.teeth);
        sum.add_turning(train, arm, -sense * b.teeth);
        rows.push_back(sum.row());
    }
    return rows;
}

RateRows hold_and_tie_rows(const Train& train, const Setting& setting) {
    RateRows rows;
    for (const MemberIndex held : setting.hold) rows.push_back(relative_rate_row(train, held, kFrame));
    for (const auto& [a, b] : setting.tie) rows.push_back(relative_rate_row(train, a, b));
    return rows;
}

RateRows driver_rows(const Train& train, const Setting& setting) {
    RateRows rows;
    for (const Drive& driver : setting.drive) rows.push_back(relative_rate_row(train, driver.member, kFrame));
    return rows;
}

RateRows still_rows(const Train& train, const Setting& setting) {
    return joined(mesh_rows(train), hold_and_tie_rows(train, setting));
}

RateRows joined(RateRows first, const RateRows& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

}  // namespace couplet
