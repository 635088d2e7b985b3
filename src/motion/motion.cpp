#include "motion/motion.hpp"

#include <algorithm>

#include "motion/elimination.hpp"
#include "motion/equations.hpp"

namespace couplet {

namespace {

std::size_t last_nonzero(const Combination& relation) {
    const auto found = std::find_if(relation.rbegin(), relation.rend(), [](const Ratio& r) { return !r.is_zero(); });
    return static_cast<std::size_t>(relation.rend() - found) - 1;
}

// Speeds that meet the relation need no more of its last driver than the others give.
void express_by_earlier_drivers(Motion& motion, const Combination& relation) {
    const std::size_t width = motion.parameter_count();
    const std::size_t last = last_nonzero(relation);
    for (std::size_t start = 0; start < motion.joint_rates.size(); start += width) {
        const Ratio share = std::exchange(motion.joint_rates[start + last], Ratio());
        if (share.is_zero()) continue;
        for (std::size_t i = 0; i < last; ++i) motion.joint_rates[start + i] -= share * relation[i];
    }
}

void judge(Motion& motion, const std::vector<Combination>& relations) {
    bool blocked = motion.freedom == 0;
    for (const Combination& relation : relations) {
        Ratio excess;
        for (std::size_t i = 0; i < relation.size(); ++i) excess += relation[i] * motion.drivers[i].rpm;
        const bool alone = std::ranges::count_if(relation, [](const Ratio& r) { return !r.is_zero(); }) == 1;
        if (excess.is_zero()) {
            express_by_earlier_drivers(motion, relation);
        } else if (alone) {
            blocked = true;
        } else {
            motion.contradictions.push_back({relation, excess});
        }
    }
    if (blocked) {
        motion.outcome = Outcome::locked;
    } else if (!motion.contradictions.empty()) {
        motion.outcome = Outcome::conflicting;
    } else if (motion.missing_drivers > 0) {
        motion.outcome = Outcome::free;
    }
}

// Four members and three constraints beside the driver: the minors give it all. Nothing where it does not.
std::optional<Motion> solve_four(const Rows& rows, const Setting& setting) {
    if (rows.columns != 5 || rows.count() != 4 || setting.drive.size() != 1) return std::nullopt;
    std::array<FourWords, 3> constraints{};
    for (std::size_t r = 0; r < 3; ++r)
        for (const Term& term : rows[r]) constraints[r][static_cast<std::size_t>(term.column)] = term.coefficient;
    const std::optional<FourWords> rates = null_vector(constraints);
    if (!rates) return std::nullopt;
    std::int64_t driver_rate = 0;
    for (const Term& term : rows[3])
        if (term.column < 4) driver_rate += term.coefficient * (*rates)[static_cast<std::size_t>(term.column)];
    if (driver_rate == 0) return std::nullopt;

    Motion motion;
    motion.freedom = 1;
    motion.drivers = setting.drive;
    motion.joint_rates.reserve(4);
    for (const std::int64_t rate : *rates) motion.joint_rates.emplace_back(rate, driver_rate);
    return motion;
}

}  // namespace

Motion resting_motion() {
    Motion motion;
    motion.outcome = Outcome::free;
    return motion;
}

Motion solve(const Train& train, const Setting& setting) {
    const Rows rows = equations(train, setting);
    if (std::optional<Motion> motion = solve_four(rows, setting)) return *std::move(motion);

    const std::size_t drivers = setting.drive.size();
    Solution solution = eliminate(rows, static_cast<std::int32_t>(drivers), Motion::kMostFreeParameters);

    Motion motion;
    motion.drivers = setting.drive;
    motion.missing_drivers = static_cast<int>(solution.free_columns.size());
    motion.freedom = motion.missing_drivers + static_cast<int>(drivers) - static_cast<int>(solution.relations.size());
    motion.free_parameters = solution.free_parameters;
    if (solution.free_columns.size() == solution.free_parameters)
        for (const std::int32_t column : solution.free_columns) motion.free_joints.push_back({column});
    motion.joint_rates = std::move(solution.values);
    motion.steps_beyond_words = solution.steps_beyond_words;
    judge(motion, solution.relations);
    return motion;
}

Combination rate_on(const Train& train, const Motion& motion, MemberIndex a, MemberIndex b) {
    Combination rate(motion.parameter_count());
    const auto add_path = [&](MemberIndex member, bool subtract) {
        for (MemberIndex under = member; under != kFrame; under = rides_on(train, under)) {
            const std::span<const Ratio> joint = motion.joint_rate(under);
            for (std::size_t i = 0; i < rate.size(); ++i)
                if (!joint[i].is_zero()) rate[i] = subtract ? rate[i] - joint[i] : rate[i] + joint[i];
        }
    };
    add_path(a, false);
    add_path(b, true);
    return rate;
}

std::vector<Combination> rates_on_frame(const Train& train, const Motion& motion) {
    std::vector<Combination> rates(train.members.size());
    each_member_from_the_frame(train, [&](MemberIndex member) {
        const MemberIndex under = rides_on(train, member);
        const std::span<const Ratio> joint = motion.joint_rate(member);
        Combination& rate = rates[member.position()];
        rate.assign(joint.begin(), joint.end());
        if (under == kFrame) return;
        for (std::size_t i = 0; i < rate.size(); ++i) rate[i] += rates[under.position()][i];
    });
    return rates;
}

bool needs_missing_driver(const Motion& motion, std::span<const Ratio> combination) {
    return std::ranges::any_of(combination.subspan(motion.drivers.size()), [](const Ratio& r) { return !r.is_zero(); });
}

std::optional<std::size_t> reference_driver(const Motion& motion) {
    if (motion.drivers.empty()) return std::nullopt;
    const auto running = std::ranges::find_if(motion.drivers, [](const Drive& drive) { return !drive.rpm.is_zero(); });
    return running == motion.drivers.end() ? 0 : static_cast<std::size_t>(running - motion.drivers.begin());
}

std::optional<Ratio> turns_per_driver_turn(const Motion& motion, std::span<const Ratio> combination) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    const std::size_t drivers = motion.drivers.size();
    if (!reference || needs_missing_driver(motion, combination)) return std::nullopt;
    const Ratio& speed = motion.drivers[*reference].rpm;
    if (speed.is_zero() || drivers == 1) return combination[*reference];
    Ratio turns;
    for (std::size_t i = 0; i < drivers; ++i)
        if (!combination[i].is_zero()) turns += combination[i] * motion.drivers[i].rpm;
    return turns / speed;
}

}  // namespace couplet
