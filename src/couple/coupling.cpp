#include "couple/coupling.hpp"

#include <algorithm>
#include <map>

#include "couple/bare_ratio.hpp"
#include "couple/expression.hpp"
#include "couple/rates.hpp"

namespace couplet {

namespace {

bool is_flipped_once(const Joint& first, const Joint& second) {
    return first.flipped != second.flipped;
}

// What all couplings of one sheet are made from; work that several share is done once.
class Workshop {
  public:
    Workshop(const Train& train, const Setting& setting, const Motion& motion, const TypableLimits& limits)
        : train_(train), setting_(setting), motion_(motion), limits_(limits), joints_(joints_of(train)) {}

    [[nodiscard]] const std::vector<Joint>& joints() const { return joints_; }
    [[nodiscard]] Coupling make(const Joint& first, const Joint& second, const std::optional<DegreePair>& typed);

  private:
    void note_obstacle(Coupling& coupling, const Combination& first_rate) const;
    void note_numbers(Coupling& coupling, const Ratio& second_per_first, const Combination& first_rate);
    [[nodiscard]] std::optional<Ratio> bare_ratio(const Joint& first, const Joint& second);
    [[nodiscard]] std::vector<MemberIndex> holds_that_couple(const Joint& first, const Joint& second) const;
    [[nodiscard]] const std::vector<std::optional<Quotient>>& symbolic_rates(std::size_t parameter);

    const Train& train_;
    const Setting& setting_;
    const Motion& motion_;
    const TypableLimits& limits_;
    std::vector<Joint> joints_;
    std::map<MemberIndex, std::vector<std::optional<Ratio>>> bare_;         // by the member they start from
    std::map<std::size_t, std::vector<std::optional<Quotient>>> symbolic_;  // by parameter
};

const std::vector<std::optional<Quotient>>& Workshop::symbolic_rates(std::size_t parameter) {
    auto place = symbolic_.find(parameter);
    if (place == symbolic_.end())
        place = symbolic_.emplace(parameter, symbolic_joint_rates(train_, setting_, motion_, parameter)).first;
    return place->second;
}

std::optional<Ratio> Workshop::bare_ratio(const Joint& first, const Joint& second) {
    auto place = bare_.find(first.turns);
    if (place == bare_.end()) place = bare_.emplace(first.turns, bare_turns_per_turn(train_, first.turns)).first;
    if (second.turns == kFrame || second.turns == first.turns) return std::nullopt;
    std::optional<Ratio> bare = place->second[second.turns.position()];
    if (bare && is_flipped_once(first, second)) bare = -*bare;
    return bare;
}

// Only members that turn can be held, and none that turns is fixed by the hold of one that the joints do not need.
std::vector<MemberIndex> Workshop::holds_that_couple(const Joint& first, const Joint& second) const {
    constexpr std::size_t kMostMembers = 400;
    std::vector<MemberIndex> holds;
    if (train_.members.size() > kMostMembers) return holds;
    Setting held = setting_;
    held.drive.clear();
    held.hold.push_back(kFrame);
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.members.size()); ++m) {
        held.hold.back() = {m};
        const Motion motion = solve(train_, held);
        const std::optional<Ratio> ratio =
            parallel_ratio(rate_of(train_, motion, second), rate_of(train_, motion, first));
        if (ratio && !ratio->is_zero()) holds.push_back({m});
    }
    return holds;
}

void Workshop::note_obstacle(Coupling& coupling, const Combination& first_rate) const {
    if (first_rate.size() == motion_.parameter_count() && is_still(first_rate)) {
        coupling.obstacle = Obstacle::first_stands_still;
    } else {
        coupling.obstacle = Obstacle::independent;
        coupling.holds_to_exist = holds_that_couple(coupling.first, coupling.second);
    }
}

void Workshop::note_numbers(Coupling& coupling, const Ratio& second_per_first, const Combination& first_rate) {
    coupling.second_per_first = second_per_first;
    coupling.degrees = {limits_.first_deg, limits_.first_deg * second_per_first};
    coupling.whole_degrees = whole_degrees(second_per_first);
    coupling.to_type = typable_pair(second_per_first, limits_);
    coupling.turns_to_quarter_tooth =
        turns_to_quarter_tooth(train_, coupling.second, coupling.to_type.drift_deg_per_1000_turns);
    coupling.opposite = second_per_first.sign() < 0;

    const auto turning = std::ranges::find_if(first_rate, [](const Ratio& r) { return !r.is_zero(); });
    const auto parameter = static_cast<std::size_t>(turning - first_rate.begin());
    static const std::vector<std::optional<Quotient>> none;
    coupling.expression = angle_expression(train_, turning == first_rate.end() ? none : symbolic_rates(parameter),
                                           coupling.first, coupling.second, second_per_first, limits_.first_deg);

    const std::optional<Ratio> bare = bare_ratio(coupling.first, coupling.second);
    if (bare && *bare != second_per_first && !second_per_first.is_zero())
        coupling.correction = {*bare, second_per_first, (*bare - second_per_first) * Ratio(360)};
}

Coupling Workshop::make(const Joint& first, const Joint& second, const std::optional<DegreePair>& typed) {
    Coupling coupling;
    coupling.first = first;
    coupling.second = second;
    coupling.typed = typed;
    if (motion_.outcome == Outcome::locked || motion_.outcome == Outcome::conflicting) {
        coupling.obstacle = Obstacle::undetermined;
        return coupling;
    }
    const Combination first_rate = rate_of(train_, motion_, first);
    const Combination second_rate = rate_of(train_, motion_, second);
    const std::optional<Ratio> ratio = parallel_ratio(second_rate, first_rate);
    if (!ratio) {
        note_obstacle(coupling, first_rate);
        return coupling;
    }
    note_numbers(coupling, *ratio, first_rate);
    if (typed)
        coupling.audit = audit({train_, setting_, motion_, joints_, coupling.first, coupling.second, *ratio,
                                bare_ratio(first, second), coupling.to_type.degrees},
                               *typed);
    return coupling;
}

std::vector<MemberRate> member_rates(const Train& train, const Motion& motion) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    std::vector<Combination> rates = rates_on_frame(train, motion);
    std::vector<MemberRate> members(rates.size());
    for (std::size_t m = 0; m < rates.size(); ++m) {
        MemberRate& member = members[m];
        member.member = {static_cast<std::int32_t>(m)};
        member.turns_per_driver_turn = turns_per_driver_turn(motion, rates[m]);
        if (reference && member.turns_per_driver_turn && !motion.drivers[*reference].rpm.is_zero())
            member.rpm = *member.turns_per_driver_turn * motion.drivers[*reference].rpm;
        member.combination = std::move(rates[m]);
    }
    return members;
}

std::vector<JointRate> joint_rates(const Train& train, const Motion& motion, const std::vector<Joint>& joints) {
    std::vector<JointRate> rates;
    for (const Joint& joint : joints) {
        Combination rate = rate_of(train, motion, joint);
        const std::optional<Ratio> turns = turns_per_driver_turn(motion, rate);
        rates.push_back({joint, std::move(rate), turns});
    }
    return rates;
}

bool same_members(const Joint& a, const Joint& b) {
    return a.turns == b.turns && a.against == b.against;
}

std::vector<Coupling> asked_couplings(const Train& train, Workshop& workshop) {
    std::vector<Coupling> couplings;
    for (const CouplingEntry& entry : train.couplings) {
        const std::optional<Joint> first = find_joint(train, workshop.joints(), entry.joints[0]);
        const std::optional<Joint> second = find_joint(train, workshop.joints(), entry.joints[1]);
        if (first && second) couplings.push_back(workshop.make(*first, *second, entry.typed));
    }
    return couplings;
}

std::vector<Coupling> couplings_from(Workshop& workshop, const Joint& from) {
    std::vector<Coupling> couplings;
    for (const Joint& joint : workshop.joints())
        if (!same_members(joint, from)) couplings.push_back(workshop.make(from, joint, std::nullopt));
    return couplings;
}

// The reference driver's joint; without a driver the first joint that turns.
std::optional<Joint> joint_to_couple_from(const Train& train, const CouplingSheet& sheet,
                                          const std::vector<Joint>& joints) {
    if (sheet.reference_driver) return joint_of_driver(train, joints, sheet.reference_driver->member);
    const auto turning =
        std::ranges::find_if(sheet.joints, [](const JointRate& rate) { return !is_still(rate.combination); });
    if (turning != sheet.joints.end()) return turning->joint;
    return joints.empty() ? std::nullopt : std::optional(joints.front());
}

}  // namespace

CouplingSheet couple(const Train& train, const Setting& setting, const CoupleOptions& options) {
    CouplingSheet sheet;
    sheet.setting = setting;
    sheet.motion = solve(train, setting);
    const Motion& motion = sheet.motion;
    if (motion.outcome != Outcome::moves) sheet.explanation = explain(train, setting, motion);
    const std::optional<std::size_t> reference = reference_driver(motion);
    if (reference) sheet.reference_driver = motion.drivers[*reference];

    Workshop workshop(train, setting, motion, options.limits);
    if (motion.outcome == Outcome::moves || motion.outcome == Outcome::free) {
        sheet.members = member_rates(train, motion);
        sheet.joints = joint_rates(train, motion, workshop.joints());
    }
    if (options.from || train.couplings.empty()) {
        const std::optional<Joint> from =
            options.from ? options.from : joint_to_couple_from(train, sheet, workshop.joints());
        if (from) sheet.couplings = couplings_from(workshop, *from);
    } else {
        sheet.couplings = asked_couplings(train, workshop);
    }
    return sheet;
}

}  // namespace couplet
