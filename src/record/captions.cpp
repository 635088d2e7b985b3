#include "record/captions.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr float kMargin = 0.03F;
constexpr float kTitleHeight = 0.045F;
constexpr float kLineHeight = 0.030F;
constexpr std::size_t kMostCounters = 8;
constexpr glm::vec4 kInk{0.09F, 0.10F, 0.12F, 1.0F};
constexpr glm::vec4 kHalo{0.97F, 0.96F, 0.93F, 0.35F};

bool is_driven(const Motion& motion, MemberIndex member) {
    return std::ranges::any_of(motion.drivers, [&](const Drive& drive) { return drive.member == member; });
}

bool carries(const Train& train, MemberIndex member) {
    return std::ranges::any_of(train.members, [&](const Member& other) { return other.rides_on == member; });
}

// Per turn of the leg's reference driver, against the frame.
Ratio turns_of(const Train& train, const Motion& motion, MemberIndex member) {
    return turns_per_driver_turn(motion, rate_on(train, motion, member, kFrame)).value_or(Ratio(0));
}

MemberIndex driver_of(const Motion& motion) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    return reference ? motion.drivers[*reference].member : kFrame;
}

std::string ratio_line(const Train& train, const Motion& motion) {
    const MemberIndex output = output_of(train, motion);
    if (output == kFrame) return {};
    return fmt::format("{}: {} turn per turn of {}", name_of(train, output),
                       turns_of(train, motion, output).to_string(), name_of(train, driver_of(motion)));
}

// Turns against the frame since the clip began, over all legs.
Ratio counted_turns(const Train& train, const Schedule& schedule, const Instant& instant, MemberIndex member) {
    Ratio turns;
    for (std::size_t i = 0; i <= instant.leg; ++i) {
        const Leg& leg = schedule.legs[i];
        if (leg.motion.outcome != Outcome::moves) continue;
        turns += turns_of(train, leg.motion, member) * (i == instant.leg ? instant.leg_turns : leg.turns);
    }
    return turns;
}

// Those that ever turn, drivers first.
std::vector<MemberIndex> counted_members(const Train& train, const Schedule& schedule) {
    std::vector<MemberIndex> members;
    const auto take = [&](bool driven) {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
            for (const Leg& leg : schedule.legs)
                if (leg.motion.outcome == Outcome::moves && is_driven(leg.motion, {m}) == driven &&
                    !turns_of(train, leg.motion, {m}).is_zero() &&
                    std::ranges::find(members, MemberIndex{m}) == members.end())
                    members.push_back({m});
    };
    take(true);
    take(false);
    if (members.size() > kMostCounters) members.resize(kMostCounters);
    return members;
}

}  // namespace

MemberIndex output_of(const Train& train, const Motion& motion) {
    MemberIndex output = kFrame;
    if (motion.outcome != Outcome::moves) return output;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        const MemberIndex member{m};
        if (rides_on(train, member) != kFrame || is_driven(motion, member) || turns_of(train, motion, member).is_zero())
            continue;
        output = member;
        if (carries(train, member)) break;
    }
    return output;
}

std::vector<Caption> captions_at(const Train& train, const Schedule& schedule, const Instant& instant,
                                 const CaptionChoice& choice) {
    std::vector<Caption> captions;
    float top = kMargin;
    const auto line = [&](const std::string& text, float height) {
        if (text.empty()) return;
        captions.push_back({text, {kMargin * 9 / 16, top}, height, kInk, Caption::Anchor::left, kHalo});
        top += height * 1.35F;
    };
    const Motion& motion = schedule.legs[instant.leg].motion;
    if (choice.title) line(train.title, kTitleHeight);
    if (choice.ratio && motion.outcome == Outcome::moves) line(ratio_line(train, motion), kLineHeight);
    if (!choice.turns) return captions;
    const std::vector<MemberIndex> members = counted_members(train, schedule);
    float bottom = 1.0F - kMargin - static_cast<float>(members.size()) * kLineHeight * 1.35F;
    for (const MemberIndex member : members) {
        const double turns = counted_turns(train, schedule, instant, member).to_double();
        const bool shows_zero = std::abs(turns) < 0.005;  // never as "-0.00"
        captions.push_back({fmt::format("{:.2f}", shows_zero ? 0.0 : turns),
                            {0.1F, bottom},
                            kLineHeight,
                            kInk,
                            Caption::Anchor::right,
                            kHalo});
        captions.push_back({fmt::format("turns  {}", name_of(train, member)),
                            {0.107F, bottom},
                            kLineHeight,
                            kInk,
                            Caption::Anchor::left,
                            kHalo});
        bottom += kLineHeight * 1.35F;
    }
    return captions;
}

}  // namespace couplet
