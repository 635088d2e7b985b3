#include "motion/equations.hpp"

#include <algorithm>
#include <functional>
#include <stdexcept>

#include "motion/motion.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

// More terms than this come only from thousands of holds deep in a pile of members that ride on one another.
constexpr std::size_t kMostTerms = 40'000'000;

std::int32_t column_of(MemberIndex member) {
    return member.value;
}

// factor x w_member/arm: the member's own joint, less the arm's where the member stands beside the arm.
void add_rate_on_arm(Rows& rows, const Train& train, MemberIndex member, MemberIndex arm, std::int64_t factor) {
    rows.add(column_of(member), factor);
    if (rides_on(train, member) != arm) rows.add(column_of(arm), -factor);
}

// factor x w_member/frame: the sum of the joints from the member down to the frame.
void add_rate_on_frame(Rows& rows, const Train& train, MemberIndex member, std::int64_t factor) {
    for (MemberIndex under = member; under != kFrame; under = rides_on(train, under))
        rows.add(column_of(under), factor);
    if (rows.terms.size() > kMostTerms)
        throw RatesTooLarge("the train is nested too deeply for so many holds, ties and drivers; hold fewer members");
}

void add_mesh_row(Rows& rows, const Train& train, const Mesh& mesh) {
    const Gear& a = train[mesh.first];
    const Gear& b = train[mesh.second];
    const std::optional<MemberIndex> arm = arm_of(train, mesh);
    if (!arm)
        throw std::invalid_argument("the mesh of '" + name_of(train, mesh.first) + "' and '" +
                                    name_of(train, mesh.second) + "' has no arm");
    const bool internal = a.internal != b.internal;
    add_rate_on_arm(rows, train, a.member, *arm, a.teeth);
    add_rate_on_arm(rows, train, b.member, *arm, internal ? -b.teeth : b.teeth);
    rows.end_row();
}

void require_parallel_axes(const Train& train) {
    for (const Member& member : train.members) {
        if (!member.axis) continue;
        const auto& [x, y, z] = *member.axis;
        if (!x.is_zero() || !y.is_zero() || z.sign() <= 0)
            throw std::invalid_argument("the axis of '" + member.name +
                                        "' crosses the others; crossing axes are read and kept but not solved, only "
                                        "axes along +Z are: leave out 'axis' or write [0, 0, 1]");
    }
}

}  // namespace

void Rows::end_row() {
    const auto row = terms.begin() + starts.back();
    const auto rises = [](const Term& a, const Term& b) { return a.column < b.column; };
    if (std::adjacent_find(row, terms.end(), std::not_fn(rises)) != terms.end()) {
        std::sort(row, terms.end(), rises);
        auto kept = row;
        for (auto term = row; term != terms.end();) {
            Term sum = *term;
            while (++term != terms.end() && term->column == sum.column) sum.coefficient += term->coefficient;
            if (sum.coefficient != 0) *kept++ = sum;
        }
        terms.erase(kept, terms.end());
    }
    starts.push_back(static_cast<std::int32_t>(terms.size()));
}

Rows equations(const Train& train, const Setting& setting) {
    require_parallel_axes(train);
    const auto members = static_cast<std::int32_t>(train.members.size());
    Rows rows;
    rows.columns = members + static_cast<std::int32_t>(setting.drive.size());
    const std::size_t row_count = train.meshes.size() + setting.hold.size() + setting.tie.size() + setting.drive.size();
    rows.starts.reserve(row_count + 1);
    rows.terms.reserve(row_count * 3);

    for (const Mesh& mesh : train.meshes) add_mesh_row(rows, train, mesh);
    for (const MemberIndex held : setting.hold) {
        add_rate_on_frame(rows, train, held, 1);
        rows.end_row();
    }
    for (const auto& [a, b] : setting.tie) {
        add_rate_on_frame(rows, train, a, 1);
        add_rate_on_frame(rows, train, b, -1);
        rows.end_row();
    }
    std::int32_t driver_column = members;
    for (const Drive& drive : setting.drive) {
        add_rate_on_frame(rows, train, drive.member, 1);
        rows.add(driver_column++, -1);
        rows.end_row();
    }
    return rows;
}

}  // namespace couplet
