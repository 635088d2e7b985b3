// Captions: what a clip says of itself: the title, the ratio, and counters of turns that follow the exact pose.
#pragma once

#include <vector>

#include "record/schedule.hpp"
#include "view/picture.hpp"

namespace couplet {

struct CaptionChoice {
    bool title = false;
    bool ratio = false;
    bool turns = false;

    friend bool operator==(const CaptionChoice&, const CaptionChoice&) = default;
};

// The member that a train is there to turn: of those that turn about an axis of the frame and are not driven, the first
// carrier, else the last one; kFrame where there is none.
[[nodiscard]] MemberIndex output_of(const Train& train, const Motion& motion);

[[nodiscard]] std::vector<Caption> captions_at(const Train& train, const Schedule& schedule, const Instant& instant,
                                               const CaptionChoice& choice);

}  // namespace couplet
