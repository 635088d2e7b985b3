#include "export/loop_animation.hpp"

#include <fmt/format.h>

#include <cmath>

#include "motion/loop.hpp"
#include "motion/pose.hpp"
#include "place/alike_loop.hpp"

namespace couplet {

namespace {

const Ratio kUsualRpm = 30;
const Ratio kSlowestRpm(1, 1000);
const Ratio kUsualSeconds = 10;
const Ratio kFewestSeconds(1, 100);

Ratio driver_rpm(const Motion& motion) {
    const Ratio& rpm = motion.drivers[*reference_driver(motion)].rpm;
    if (rpm.magnitude() >= kSlowestRpm) return rpm;
    return rpm.sign() < 0 ? -kUsualRpm : kUsualRpm;
}

// Turns of each member's joint per turn of the driver, without their sense.
std::vector<Ratio> paces_of(const ExportModel& model) {
    std::vector<Ratio> paces;
    paces.reserve(model.train.members.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m)
        paces.push_back(
            turns_per_driver_turn(model.motion, model.motion.joint_rate({m})).value_or(Ratio(0)).magnitude());
    return paces;
}

Ratio steps_in(const Ratio& turns) {
    return -(-turns * Ratio(kKeysPerTurn)).floor();
}

bool fits(const std::vector<Ratio>& paces, const Ratio& driver_turns) {
    Ratio keys;
    for (const Ratio& pace : paces)
        if (!pace.is_zero()) keys += steps_in(pace * driver_turns) + Ratio(1);
    return keys <= Ratio(kMostKeys);
}

// As many of the driver's turns as there are keys for.
Ratio open_turns(const ExportModel& model, const std::vector<Ratio>& paces) {
    Ratio usual = driver_rpm(model.motion).magnitude() / Ratio(60) * kUsualSeconds;
    if (fits(paces, usual)) return usual;
    Ratio sum;
    for (const Ratio& pace : paces) sum += pace;
    const Ratio ends(2 * static_cast<std::int64_t>(paces.size()));
    return (Ratio(kMostKeys) - ends) / (sum * Ratio(kKeysPerTurn));
}

// Whether a strict loop of so many turns is what is wished for.
bool suits(const ExportModel& model, LoopWish wish, const Ratio& turns) {
    if (wish != LoopWish::usual) return wish == LoopWish::strict;
    return turns * Ratio(60) <= Ratio(kLongestUsualLoop_s) * driver_rpm(model.motion).magnitude();
}

[[noreturn]] void refuse_strict(const Ratio& turns) {
    const std::string text = turns.to_string();
    constexpr std::size_t kLongest = 40;
    throw ExportRefused(
        fmt::format("every tooth is back only after {} turns of the driver, more than an animation can hold; take the "
                    "loop that looks alike: --loop alike",
                    text.size() <= kLongest ? text : fmt::format("{:.3g}", turns.to_double())));
}

Ratio exact_of(float value) {
    constexpr int kMantissa = 24;
    constexpr int kMostShift = 62;
    int exponent = 0;
    const float mantissa = std::frexp(value, &exponent);
    Ratio exact(static_cast<std::int64_t>(std::ldexp(mantissa, kMantissa)));
    for (exponent -= kMantissa; exponent > 0; exponent -= std::min(exponent, kMostShift))
        exact *= Ratio(std::int64_t{1} << std::min(exponent, kMostShift));
    for (; exponent < 0; exponent += std::min(-exponent, kMostShift))
        exact /= Ratio(std::int64_t{1} << std::min(-exponent, kMostShift));
    return exact;
}

}  // namespace

std::optional<LoopAnimation> loop_animation_of(const ExportModel& model, LoopWish wish) {
    const std::optional<Ratio> strict = strict_loop_turns(model.motion);
    if (!strict) return std::nullopt;
    const std::vector<Ratio> paces = paces_of(model);
    LoopAnimation animation;
    Ratio turns = *strict;
    animation.end = LoopEnd::every_tooth_back;
    if (!suits(model, wish, turns) || !fits(paces, turns)) {
        if (wish == LoopWish::strict) refuse_strict(turns);
        turns = alike_loop_turns(model.train, model.placement, model.rotations, model.motion).value_or(*strict);
        if (turns != *strict) animation.end = LoopEnd::looks_alike;
    }
    if (!fits(paces, turns)) {
        turns = open_turns(model, paces);
        animation.end = LoopEnd::open;
    }
    const Ratio rpm = driver_rpm(model.motion);
    animation.seconds = turns / rpm.magnitude() * Ratio(60);
    if (animation.seconds < kFewestSeconds) animation.seconds = kUsualSeconds;
    animation.driver_turns = rpm.sign() < 0 ? -turns : turns;
    for (const Ratio& pace : paces)
        animation.steps.push_back(pace.is_zero() ? 0 : static_cast<int>(steps_in(pace * turns).small_numerator()));
    return animation;
}

std::vector<JointKey> keys_of(const ExportModel& model, const LoopAnimation& animation, MemberIndex member) {
    const int steps = animation.steps[member.position()];
    const Ratio rate =
        turns_per_driver_turn(model.motion, model.motion.joint_rate(member)).value() * animation.driver_turns;
    const auto phase_at = [&](const Ratio& part) { return (rate * part / Ratio(2)).fraction() * Ratio(2); };
    const double seconds = animation.seconds.to_double();
    std::vector<JointKey> keys;
    keys.reserve(static_cast<std::size_t>(steps) + 1);
    for (int k = 0; k < steps; ++k) {
        const auto time = static_cast<float>(seconds * k / steps);
        keys.push_back({time, phase_at(exact_of(time) / animation.seconds)});
    }
    keys.push_back({static_cast<float>(seconds), phase_at(Ratio(1))});
    return keys;
}

}  // namespace couplet
