#include "couple/audit.hpp"

#include <algorithm>

#include "couple/rates.hpp"
#include "exact/decimal.hpp"

namespace couplet {

namespace {

// How a ratio compares with the angles typed.
enum class Fit { exact, rounded, none };

// Half a unit of the last decimal typed is rounding; more than a hundredth of the angle is not, however short it was.
Fit fit(const DegreePair& typed, const Ratio& second_per_first) {
    const Ratio expected = typed[0] * second_per_first;
    const Ratio error = (typed[1] - expected).magnitude();
    if (error.is_zero()) return Fit::exact;
    const int decimals = std::max(decimals_needed(typed[0]).value_or(0), decimals_needed(typed[1]).value_or(0));
    const bool small = error * Ratio(2) <= power_of_ten(-decimals) && error * Ratio(100) <= expected.magnitude();
    return small ? Fit::rounded : Fit::none;
}

// Tells of one possible mistake what the typed pair would then have to be.
struct Suspect {
    Mistake mistake;
    Ratio second_per_first;
};

std::vector<Suspect> simple_suspects(const AuditCase& facts) {
    const Ratio& right = facts.second_per_first;
    std::vector<Suspect> suspects = {{Mistake::sense_reversed, -right}};
    if (facts.bare_second_per_first && *facts.bare_second_per_first != right) {
        suspects.push_back({Mistake::bare_tooth_ratio, *facts.bare_second_per_first});
        suspects.push_back({Mistake::bare_tooth_ratio_sense, -*facts.bare_second_per_first});
    }
    if (!right.is_zero()) {
        suspects.push_back({Mistake::swapped, right.inverse()});
        suspects.push_back({Mistake::swapped_and_reversed, -right.inverse()});
    }
    return suspects;
}

// A slip is most often in the second joint's members, then in the first's, then in both: looked for in that order.
// Besides the joints of the train, each member against the frame and against what it rides on is looked at.
std::vector<Joint> joints_to_try(const Train& train, const std::vector<Joint>& joints) {
    std::vector<Joint> tried = joints;
    const auto add = [&](MemberIndex turns, MemberIndex against) {
        const bool there = std::ranges::any_of(
            tried, [&](const Joint& joint) { return joint.turns == turns && joint.against == against; });
        if (!there) tried.push_back({default_joint_name(train, turns, against), turns, against, false});
    };
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        add({m}, kFrame);
        add({m}, rides_on(train, {m}));
    }
    return tried;
}

bool same_joint(const Joint& a, const Joint& b) {
    return a.turns == b.turns && a.against == b.against;
}

std::optional<std::array<Joint, 2>> fitting_joints(const AuditCase& facts, const DegreePair& typed, Fit wanted) {
    constexpr std::size_t kMostJoints = 200;
    const std::vector<Joint> joints = joints_to_try(facts.train, facts.joints);
    if (joints.size() > kMostJoints) return std::nullopt;
    const auto fits = [&](const Joint& first, const Joint& second) {
        if (same_joint(first, second)) return false;
        const std::optional<Ratio> ratio =
            parallel_ratio(rate_of(facts.train, facts.motion, second), rate_of(facts.train, facts.motion, first));
        return ratio && !ratio->is_zero() && fit(typed, *ratio) == wanted;
    };
    // Joints of the same member first: "planet against frame" explains more than a chance match elsewhere.
    for (const Joint& second : joints)
        if (second.turns == facts.second.turns && fits(facts.first, second)) return {{facts.first, second}};
    for (const Joint& first : joints)
        if (first.turns == facts.first.turns && fits(first, facts.second)) return {{first, facts.second}};
    for (const Joint& second : joints)
        if (fits(facts.first, second)) return {{facts.first, second}};
    for (const Joint& first : joints)
        if (fits(first, facts.second)) return {{first, facts.second}};
    return std::nullopt;
}

// The setting with one hold moved to another member, such that the typed pair is right.
std::vector<MemberIndex> fitting_holds(const AuditCase& facts, const DegreePair& typed, Fit wanted) {
    constexpr std::size_t kMostMembers = 200;
    if (facts.train.members.size() > kMostMembers) return {};
    Setting other = facts.setting;
    for (std::size_t h = 0; h < facts.setting.hold.size(); ++h) {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(facts.train.members.size()); ++m) {
            if (std::ranges::find(facts.setting.hold, MemberIndex{m}) != facts.setting.hold.end()) continue;
            other.hold[h] = {m};
            // A driver cannot be held too: the ratio of the joints does not depend on which member drives.
            other.drive.clear();
            const Motion motion = solve(facts.train, other);
            const std::optional<Ratio> ratio =
                parallel_ratio(rate_of(facts.train, motion, facts.second), rate_of(facts.train, motion, facts.first));
            if (ratio && !ratio->is_zero() && fit(typed, *ratio) == wanted) return other.hold;
        }
        other.hold[h] = facts.setting.hold[h];
    }
    return {};
}

// Finds the explanation that fits as wanted and notes it.
bool explained(Audit& verdict, const AuditCase& facts, const DegreePair& typed, Fit wanted) {
    for (const Suspect& suspect : simple_suspects(facts)) {
        if (fit(typed, suspect.second_per_first) != wanted) continue;
        verdict.mistake = suspect.mistake;
        return true;
    }
    if (const auto joints = fitting_joints(facts, typed, wanted)) {
        verdict.mistake = Mistake::other_joints;
        verdict.fits_joints = joints;
        return true;
    }
    if (std::vector<MemberIndex> held = fitting_holds(facts, typed, wanted); !held.empty()) {
        verdict.mistake = Mistake::other_held;
        verdict.fits_held = std::move(held);
        return true;
    }
    return false;
}

bool is_reversed(Mistake mistake) {
    return mistake == Mistake::sense_reversed || mistake == Mistake::bare_tooth_ratio_sense ||
           mistake == Mistake::swapped_and_reversed;
}

// The joint that is not driven: its axis was picked from the part itself, as likely from one side as from the other.
const Joint& less_sure_joint(const AuditCase& facts) {
    const auto driven = [&](const Joint& joint) {
        return std::ranges::find(facts.setting.drive, joint.turns, &Drive::member) != facts.setting.drive.end();
    };
    return driven(facts.second) && !driven(facts.first) ? facts.first : facts.second;
}

Mistake judge(Audit& verdict, const AuditCase& facts, const DegreePair& typed) {
    const bool still = facts.second_per_first.is_zero();
    if (typed[0].is_zero() || typed[1].is_zero() != still) return Mistake::stands_still;
    const Fit right = fit(typed, facts.second_per_first);
    if (right == Fit::exact) return Mistake::none;
    if (explained(verdict, facts, typed, Fit::exact)) return verdict.mistake;
    if (right == Fit::rounded) return Mistake::rounded;
    verdict.also_rounded = explained(verdict, facts, typed, Fit::rounded);
    return verdict.also_rounded ? verdict.mistake : Mistake::unexplained;
}

std::optional<int> most_teeth(const Train& train, MemberIndex member) {
    std::optional<int> most;
    if (member == kFrame) return most;
    for (const GearIndex gear : gears_of(train, member)) most = std::max(most.value_or(0), train[gear].teeth);
    return most;
}

}  // namespace

std::optional<Ratio> quarter_tooth_deg(const Train& train, const Joint& joint) {
    std::optional<int> teeth = most_teeth(train, joint.turns);
    if (!teeth) teeth = most_teeth(train, joint.against);
    if (!teeth) return std::nullopt;
    return Ratio(90, *teeth);
}

std::optional<Ratio> turns_to_quarter_tooth(const Train& train, const Joint& second,
                                            const Ratio& drift_deg_per_1000_turns) {
    const std::optional<Ratio> quarter = quarter_tooth_deg(train, second);
    if (!quarter || drift_deg_per_1000_turns.is_zero()) return std::nullopt;
    return *quarter * Ratio(1000) / drift_deg_per_1000_turns.magnitude();
}

Audit audit(const AuditCase& facts, const DegreePair& typed) {
    Audit verdict;
    verdict.mistake = judge(verdict, facts, typed);
    verdict.corrected = facts.corrected;
    if (!typed[0].is_zero()) {
        verdict.drift_deg_per_1000_turns = drift_deg_per_1000_turns(facts.second_per_first, typed);
        verdict.off_deg_per_turn = verdict.drift_deg_per_1000_turns / Ratio(1000);
        verdict.turns_to_quarter_tooth =
            turns_to_quarter_tooth(facts.train, facts.second, verdict.drift_deg_per_1000_turns);
    }
    if (is_reversed(verdict.mistake)) verdict.probably_flipped = less_sure_joint(facts);
    return verdict;
}

}  // namespace couplet
