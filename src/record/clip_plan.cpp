#include "record/clip_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <stdexcept>

#include "motion/loop.hpp"
#include "place/alike_loop.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

const Ratio kUsualRpm = 30;

// Seen from a member that turns, the frame must be back too.
Ratio alike_from(const Train& train, const Motion& motion, MemberIndex observer, Ratio alike) {
    for (MemberIndex member = observer; member != kFrame; member = rides_on(train, member)) {
        const auto turns = turns_per_driver_turn(motion, rate_on(train, motion, member, kFrame)).value_or(Ratio(0));
        alike *= (turns * alike).denominator();
    }
    return alike;
}

std::optional<Loops> loops_of(const Train& train, const Placement& placement, const StartingRotations& rotations,
                              const Motion& motion, MemberIndex observer) {
    const std::optional<Ratio> strict = strict_loop_turns(motion);
    if (!strict) return std::nullopt;
    const Ratio alike = alike_loop_turns(train, placement, rotations, motion).value_or(*strict);
    return Loops{*strict, alike_from(train, motion, observer, alike)};
}

Ratio driver_rpm(const Motion& motion) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    return reference ? motion.drivers[*reference].rpm : Ratio(0);
}

Pace wished_pace(const ClipWish& wish, const Motion& motion, const LegPlan& leg, int frames) {
    if (wish.turns)
        return {LoopKind::none, 0, wish.turns->magnitude(), is_followable(leg.teeth, wish.turns->magnitude(), frames)};
    const Ratio rpm = driver_rpm(motion).magnitude();
    return pace_of({wish.loop, frames, wish.fps, rpm.is_zero() ? kUsualRpm : rpm}, *leg.loops, leg.teeth);
}

int frames_per_leg(int frames, std::size_t legs) {
    return std::max(1, frames / static_cast<int>(legs));
}

int frames_in(const Ratio& seconds, const Ratio& fps) {
    const Ratio frames = (seconds * fps + Ratio(1, 2)).floor();
    if (frames < Ratio(1) || frames > Ratio(kMostFrames))
        throw std::invalid_argument(fmt::format("a clip has 1 to {} frames", kMostFrames));
    return static_cast<int>(frames.small_numerator());
}

// Long enough for one loop of each leg, where nobody asks for a length.
int frames_of(const ClipWish& wish, const std::vector<LegPlan>& legs) {
    if (wish.seconds) return frames_in(*wish.seconds, wish.fps);
    const int usual = frames_in(kUsualSeconds, wish.fps);
    const int longest = frames_in(kLongestUsualSeconds, wish.fps);
    int needed = usual;
    for (const LegPlan& leg : legs) {
        if (!leg.loops || wish.turns || wish.loop == LoopKind::none) continue;
        const Ratio& loop = wish.loop == LoopKind::strict ? leg.loops->strict : leg.loops->alike;
        const std::int64_t frames = std::int64_t{fewest_frames(leg.teeth, loop)} * static_cast<int>(legs.size());
        needed = static_cast<int>(std::clamp<std::int64_t>(frames, needed, longest + 1));
    }
    return needed <= longest ? needed : usual;
}

std::string seconds_text(const Ratio& fps, int frames, std::size_t legs) {
    const double seconds = static_cast<double>(frames) * static_cast<double>(legs) / fps.to_double();
    return fmt::format("{:g}", std::ceil(seconds * 10.0) / 10.0);
}

std::string driver_name(const Train& train, const Motion& motion) {
    const std::optional<std::size_t> reference = reference_driver(motion);
    return reference ? name_of(train, motion.drivers[*reference].member) : "nothing";
}

std::string pace_line(const Pace& pace) {
    if (pace.loop == LoopKind::none) return "no loop: the last frame does not flow into the first";
    const std::string loops = pace.loops == 1 ? "one loop" : fmt::format("{} loops", pace.loops);
    return loops + (pace.loop == LoopKind::strict ? ", every tooth back in its place"
                                                  : ", teeth and copies being alike: marks and holes are left off");
}

// What length would let the eye follow the teeth.
std::string advice(const ClipPlan& plan, const LegPlan& leg, std::string_view what, const Ratio& turns,
                   std::string_view option, PlanReader reader) {
    if (is_followable(leg.teeth, turns, frames_per_leg(plan.schedule.frames, plan.legs.size()))) return {};
    const std::string seconds = seconds_text(plan.schedule.fps, fewest_frames(leg.teeth, turns), plan.legs.size());
    const std::string options = reader == PlanReader::window ? "" : fmt::format(": {}--seconds {}", option, seconds);
    return fmt::format("The eye can follow {} in {} s or more{}.", what, seconds, options);
}

void add_leg_words(std::vector<std::string>& lines, const Train& train, const ClipPlan& plan, std::size_t i,
                   PlanReader reader) {
    const LegPlan& leg = plan.legs[i];
    const Motion& motion = plan.schedule.legs[i].motion;
    if (!leg.loops) {
        lines.push_back(
            fmt::format("The train stands: {}.", motion.outcome == Outcome::moves
                                                     ? "its setting turns nothing"
                                                     : fmt::format("its setting is {}", outcome_name(motion.outcome))));
        return;
    }
    const std::string driver = driver_name(train, motion);
    lines.push_back(fmt::format("{} makes {}: {}.", driver, turns_text(leg.pace.turns), pace_line(leg.pace)));
    lines.push_back(fmt::format("Loops: {} of {} until every tooth is back, {} until it looks alike.",
                                turns_text(leg.loops->strict), driver, turns_text(leg.loops->alike)));
    std::vector<std::string> more = {
        advice(plan, leg, "the loop with every tooth back", leg.loops->strict, "--loop strict ", reader)};
    if (leg.loops->alike != leg.loops->strict)
        more.push_back(advice(plan, leg, "the loop that looks alike", leg.loops->alike, "--loop alike ", reader));
    if (leg.pace.loop == LoopKind::none) more.push_back(advice(plan, leg, "so many turns", leg.pace.turns, "", reader));
    std::ranges::copy_if(more, std::back_inserter(lines), [](const std::string& line) { return !line.empty(); });
}

}  // namespace

ClipPlan plan_clip(const Train& train, const Placement& placement, const StartingRotations& rotations,
                   const ClipWish& wish) {
    if (wish.settings.empty()) throw std::invalid_argument("a clip needs a setting");
    ClipPlan plan;
    for (const Setting& setting : wish.settings) {
        Motion motion = solve(train, setting);
        LegPlan leg;
        if (motion.outcome == Outcome::moves) leg.loops = loops_of(train, placement, rotations, motion, wish.observer);
        if (leg.loops) leg.teeth = fastest_teeth(train, motion, wish.observer);
        leg.teeth.pitches_per_turn *= top_speed(wish.settings.size());
        plan.legs.push_back(std::move(leg));
        plan.schedule.legs.push_back({std::move(motion), 0});
    }
    plan.schedule.fps = wish.fps;
    plan.schedule.frames = frames_of(wish, plan.legs);
    const int frames = frames_per_leg(plan.schedule.frames, plan.legs.size());
    for (std::size_t i = 0; i < plan.legs.size(); ++i) {
        LegPlan& leg = plan.legs[i];
        if (!leg.loops) continue;
        Leg& scheduled = plan.schedule.legs[i];
        leg.pace = wished_pace(wish, scheduled.motion, leg, frames);
        const bool backwards = wish.turns ? wish.turns->sign() < 0 : driver_rpm(scheduled.motion).sign() < 0;
        scheduled.turns = backwards ? -leg.pace.turns : leg.pace.turns;
        plan.plain = plan.plain || leg.pace.loop == LoopKind::alike;
    }
    return plan;
}

std::string turns_text(const Ratio& turns) {
    const std::string exact = turns.to_string();
    if (turns.is_whole()) return exact + (turns == Ratio(1) ? " turn" : " turns");
    return fmt::format("{} turns ({:.4g})", exact, turns.to_double());
}

std::string time_text(double seconds) {
    const auto whole = static_cast<long>(std::lround(seconds));
    return whole < 100 ? fmt::format("{} s", whole) : fmt::format("{}:{:02} min", whole / 60, whole % 60);
}

std::vector<std::string> plan_words(const Train& train, const ClipPlan& plan, PlanReader reader) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < plan.legs.size(); ++i) add_leg_words(lines, train, plan, i, reader);
    return lines;
}

}  // namespace couplet
