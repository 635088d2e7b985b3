#include "motion/explain.hpp"

#include <algorithm>

#include "motion/choices.hpp"

namespace couplet {

namespace {

constexpr std::size_t kMostTrials = 4000;

// The holds of a setting, then its ties, as one list of constraints that can be let go of.
std::size_t constraint_count(const Setting& setting) {
    return setting.hold.size() + setting.tie.size();
}

Setting without(const Setting& setting, const std::vector<std::size_t>& released) {
    Setting rest = setting;
    rest.hold.clear();
    rest.tie.clear();
    for (std::size_t i = 0; i < constraint_count(setting); ++i) {
        if (std::ranges::find(released, i) != released.end()) continue;
        if (i < setting.hold.size()) {
            rest.hold.push_back(setting.hold[i]);
        } else {
            rest.tie.push_back(setting.tie[i - setting.hold.size()]);
        }
    }
    return rest;
}

bool turns(const Train& train, const Setting& setting) {
    const Outcome outcome = solve(train, setting).outcome;
    return outcome == Outcome::moves || outcome == Outcome::free;
}

Release as_release(const Setting& setting, const std::vector<std::size_t>& released) {
    Release release;
    for (const std::size_t i : released) {
        if (i < setting.hold.size()) {
            release.holds.push_back(i);
        } else {
            release.ties.push_back(i - setting.hold.size());
        }
    }
    return release;
}

// Releases everything and takes back whatever still lets the drivers turn.
std::vector<std::size_t> release_that_cannot_shrink(const Train& train, const Setting& setting) {
    std::vector<std::size_t> released(constraint_count(setting));
    for (std::size_t i = 0; i < released.size(); ++i) released[i] = i;
    for (std::size_t i = 0; i < constraint_count(setting); ++i) {
        std::vector<std::size_t> fewer = released;
        std::erase(fewer, i);
        if (turns(train, without(setting, fewer))) released = fewer;
    }
    return released;
}

void find_releases(Explanation& explanation, const Train& train, const Setting& setting) {
    const std::size_t count = constraint_count(setting);
    std::vector<std::size_t> all(count);
    for (std::size_t i = 0; i < count; ++i) all[i] = i;
    if (count == 0 || !turns(train, without(setting, all))) return;

    std::size_t trials = 0;
    for (std::size_t size = 1; size <= count; ++size) {
        const bool finished = each_choice(count, size, [&](const std::vector<std::size_t>& released) {
            // The cost of a trial grows with the train, so large trains get fewer.
            if ((trials += 1 + train.members.size() / 1000) > kMostTrials) return false;
            if (turns(train, without(setting, released))) explanation.releases.push_back(as_release(setting, released));
            return explanation.releases.size() < Explanation::kMostReleases;
        });
        if (!explanation.releases.empty()) return;
        if (!finished) break;
    }
    explanation.releases.push_back(as_release(setting, release_that_cannot_shrink(train, setting)));
    explanation.releases_are_smallest = false;
}

std::vector<MemberIndex> members_that_could_drive(const Train& train, const Motion& motion) {
    std::vector<MemberIndex> members;
    const std::vector<Combination> rates = rates_on_frame(train, motion);
    for (std::size_t m = 0; m < rates.size(); ++m)
        if (needs_missing_driver(motion, rates[m])) members.push_back({static_cast<std::int32_t>(m)});
    return members;
}

// The drivers that cannot turn even alone.
std::vector<MemberIndex> blocked_drivers(const Train& train, const Setting& setting) {
    std::vector<MemberIndex> blocked;
    for (const Drive& drive : setting.drive) {
        Setting alone = setting;
        alone.drive = {{drive.member, 1}};
        if (!turns(train, alone)) blocked.push_back(drive.member);
    }
    return blocked;
}

}  // namespace

Explanation explain(const Train& train, const Setting& setting, const Motion& motion) {
    Explanation explanation;
    if (motion.outcome == Outcome::free) explanation.could_drive = members_that_could_drive(train, motion);
    if (motion.outcome == Outcome::locked) {
        explanation.blocked = blocked_drivers(train, setting);
        find_releases(explanation, train, setting);
    }
    return explanation;
}

}  // namespace couplet
