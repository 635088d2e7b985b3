#include "motion/speeds.hpp"

#include <algorithm>
#include <stdexcept>

#include "motion/choices.hpp"

namespace couplet {

namespace {

constexpr std::size_t kMostSpeedRows = 200000;

std::vector<MemberIndex> members_on_frame(const Train& train) {
    std::vector<MemberIndex> members;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
        if (rides_on(train, {m}) == kFrame) members.push_back({m});
    return members;
}

bool contains(const std::vector<MemberIndex>& members, MemberIndex member) {
    return std::ranges::find(members, member) != members.end();
}

// The rows of one choice of held members; with one freedom left, every rate is a multiple of one parameter.
void add_rows(std::vector<SpeedRow>& rows, const Train& train, const std::vector<MemberIndex>& members,
              const Setting& setting) {
    const Motion motion = solve(train, setting);
    if (motion.freedom != 1) return;
    const std::vector<Combination> rates = rates_on_frame(train, motion);
    const auto rate = [&](MemberIndex member) -> const Ratio& { return rates[member.position()].front(); };
    for (const MemberIndex driver : members) {
        if (contains(setting.hold, driver) || rate(driver).is_zero()) continue;
        for (const MemberIndex output : members) {
            if (output == driver || contains(setting.hold, output) || rate(output).is_zero()) continue;
            rows.push_back({setting.hold, driver, output, rate(driver) / rate(output)});
            if (rows.size() > kMostSpeedRows)
                throw std::length_error("the train offers more than 200000 choices; name the members to choose among");
        }
    }
}

// The members that turn in the setting with the rates that they have, or nothing where it does not move.
std::optional<std::vector<Combination>> rates_where_it_moves(const Train& train, const Setting& setting) {
    const Motion motion = solve(train, setting);
    if (motion.outcome != Outcome::moves) return std::nullopt;
    std::vector<Combination> rates = rates_on_frame(train, motion);
    for (Combination& rate : rates) rate = {turns_per_driver_turn(motion, rate).value_or(Ratio())};
    return rates;
}

}  // namespace

std::vector<SpeedRow> speed_rows(const Train& train, const SpeedChoices& choices) {
    const std::vector<MemberIndex> members = choices.members.empty() ? members_on_frame(train) : choices.members;
    Setting setting;
    setting.tie = choices.ties;
    const int freedom = solve(train, setting).freedom;
    std::vector<SpeedRow> rows;
    if (freedom == 0) return rows;

    std::size_t solves = 0;
    each_choice(members.size(), static_cast<std::size_t>(freedom - 1), [&](const std::vector<std::size_t>& held) {
        if (++solves > kMostSpeedSolves)
            throw std::length_error("the train can be held in more than 20000 ways; name the members to choose among");
        setting.hold.clear();
        for (const std::size_t position : held) setting.hold.push_back(members[position]);
        add_rows(rows, train, members, setting);
        return true;
    });
    return rows;
}

std::vector<SettingRow> setting_rows(const Train& train, MemberIndex output) {
    std::vector<SettingRow> rows;
    for (std::int32_t s = 0; s < static_cast<std::int32_t>(train.settings.size()); ++s) {
        SettingRow row;
        row.setting = {s};
        row.motion = solve(train, train[row.setting]);
        if (const std::optional<std::size_t> reference = reference_driver(row.motion)) {
            row.driver = row.motion.drivers[*reference].member;
            const std::optional<Ratio> turns =
                turns_per_driver_turn(row.motion, rate_on(train, row.motion, output, kFrame));
            if (row.motion.outcome == Outcome::moves && turns && !turns->is_zero())
                row.driver_per_output = turns->inverse();
        }
        rows.push_back(std::move(row));
    }
    for (std::size_t i = 0; i + 1 < rows.size(); ++i)
        if (rows[i].driver_per_output && rows[i + 1].driver_per_output)
            rows[i].step_to_next = *rows[i].driver_per_output / *rows[i + 1].driver_per_output;
    return rows;
}

std::optional<MemberIndex> common_output(const Train& train) {
    std::vector<MemberIndex> candidates = members_on_frame(train);
    for (const Setting& setting : train.settings) {
        std::erase_if(candidates, [&](MemberIndex member) {
            return contains(setting.hold, member) ||
                   std::ranges::find(setting.drive, member, &Drive::member) != setting.drive.end();
        });
    }
    std::vector<std::vector<Combination>> moving;
    for (const Setting& setting : train.settings)
        if (std::optional<std::vector<Combination>> rates = rates_where_it_moves(train, setting))
            moving.push_back(*std::move(rates));
    const auto rate = [](const std::vector<Combination>& rates, MemberIndex member) -> const Ratio& {
        return rates[member.position()].front();
    };
    std::erase_if(candidates, [&](MemberIndex member) {
        return std::ranges::any_of(moving, [&](const auto& rates) { return rate(rates, member).is_zero(); });
    });
    if (candidates.empty()) return std::nullopt;
    // Candidates that turn alike in every setting are one output.
    const MemberIndex output = candidates.front();
    const bool alike = std::ranges::all_of(candidates, [&](MemberIndex member) {
        return std::ranges::all_of(moving,
                                   [&](const auto& rates) { return rate(rates, member) == rate(rates, output); });
    });
    return alike ? std::optional(output) : std::nullopt;
}

}  // namespace couplet
