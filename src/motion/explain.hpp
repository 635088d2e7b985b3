// Explain: what to do about a setting that does not simply move.
//
// Solves variants of the setting, so it costs many solves: call it for a person, not in a loop.
#pragma once

#include <utility>
#include <vector>

#include "motion/motion.hpp"

namespace couplet {

// Holds and ties to let go of, as positions in the setting's lists.
struct Release {
    std::vector<std::size_t> holds;
    std::vector<std::size_t> ties;
};

struct Explanation {
    // free: members that could take one of the missing drivers, in the order of the train.
    std::vector<MemberIndex> could_drive;
    // locked: the drivers that cannot turn.
    std::vector<MemberIndex> blocked;
    // locked: every smallest set whose release lets all drivers turn (at most kMostReleases of them); empty where the
    // meshes alone lock the train.
    std::vector<Release> releases;
    // False where the search was cut short: the one set given works and no part of it can stay, but a smaller one may
    // exist.
    bool releases_are_smallest = true;

    static constexpr std::size_t kMostReleases = 6;
};

[[nodiscard]] Explanation explain(const Train& train, const Setting& setting, const Motion& motion);

}  // namespace couplet
