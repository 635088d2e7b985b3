#include "sheet/outcome_words.hpp"

#include <fmt/format.h>

#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::vector<std::string> advice_when_free(const Train& train, const CouplingSheet& sheet) {
    const auto missing = static_cast<std::size_t>(sheet.motion.missing_drivers);
    std::vector<std::string> advice = {
        fmt::format("Free: {} missing, so some joints can still turn as they like.", counted(missing, "driver"))};
    if (!sheet.explanation || sheet.explanation->could_drive.empty()) return advice;
    const std::string members = list_text(names_of(train, sheet.explanation->could_drive), "or");
    advice.push_back(missing == 1
                         ? fmt::format("Drive or hold one more member: {}.", members)
                         : fmt::format("Drive or hold {} more members; the first may be {}.", missing, members));
    return advice;
}

std::string release_text(const Train& train, const Setting& setting, const Release& release) {
    std::vector<std::string> parts;
    for (const std::size_t hold : release.holds) parts.push_back("the hold on " + name_of(train, setting.hold[hold]));
    for (const std::size_t tie : release.ties) parts.push_back("the tie " + tie_text(train, setting.tie[tie]));
    return list_text(parts);
}

std::vector<std::string> advice_when_locked(const Train& train, const CouplingSheet& sheet) {
    if (!sheet.explanation) return {"Locked: the drivers cannot turn."};
    const Explanation& explanation = *sheet.explanation;
    const std::string blocked = list_text(names_of(train, explanation.blocked));
    std::vector<std::string> advice = {
        fmt::format("Locked: {} cannot turn.", blocked.empty() ? "the drivers" : blocked)};
    if (explanation.releases.empty()) {
        advice.emplace_back("The meshes alone lock it: no hold or tie is to blame. Take a mesh or a gear away.");
        return advice;
    }
    std::vector<std::string> choices;
    for (const Release& release : explanation.releases) choices.push_back(release_text(train, sheet.setting, release));
    advice.push_back(fmt::format("Let go of {}{}.", choices.size() > 1 ? "one of these: " : "",
                                 choices.size() > 1 ? fmt::format("{}", fmt::join(choices, "; or ")) : choices[0]));
    if (!explanation.releases_are_smallest)
        advice.emplace_back("The search was cut short: letting go of fewer may do as well.");
    return advice;
}

// The last driver of a contradiction that counts, with the speed that would agree with the others.
Drive agreeing_drive(const Motion& motion, const Contradiction& contradiction) {
    std::size_t last = 0;
    for (std::size_t i = 0; i < contradiction.coefficients.size(); ++i)
        if (!contradiction.coefficients[i].is_zero()) last = i;
    const Ratio& rpm = motion.drivers[last].rpm;
    return {motion.drivers[last].member, rpm - contradiction.excess_rpm / contradiction.coefficients[last]};
}

std::string contradiction_text(const Train& train, const Motion& motion, const Contradiction& contradiction) {
    const Drive agreeing = agreeing_drive(motion, contradiction);
    std::vector<std::string> others;
    Ratio given;
    for (std::size_t i = 0; i < contradiction.coefficients.size(); ++i) {
        const Drive& driver = motion.drivers[i];
        if (driver.member == agreeing.member)
            given = driver.rpm;
        else if (!contradiction.coefficients[i].is_zero())
            others.push_back(drive_text(train, driver));
    }
    const std::string because = others.empty() ? "" : fmt::format("With {}, ", list_text(others));
    return fmt::format(
        "{}{} has to turn at {} rpm but is driven at {} rpm, {} rpm too {}: change its speed or leave "
        "that driver out.",
        because, name_of(train, agreeing.member), decimal_cell(agreeing.rpm).shown, decimal_cell(given).shown,
        decimal_cell((given - agreeing.rpm).magnitude()).shown, given > agreeing.rpm ? "many" : "few");
}

std::vector<std::string> advice_when_conflicting(const Train& train, const Motion& motion) {
    std::vector<std::string> advice = {"Conflicting: the drivers contradict each other."};
    for (const Contradiction& contradiction : motion.contradictions)
        advice.push_back(contradiction_text(train, motion, contradiction));
    return advice;
}

}  // namespace

std::string outcome_line(const Motion& motion) {
    std::string line = fmt::format("{}: freedom {}, {}", outcome_name(motion.outcome), motion.freedom,
                                   counted(motion.drivers.size(), "driver"));
    if (motion.missing_drivers > 0) line += fmt::format(", {} missing", motion.missing_drivers);
    return line;
}

std::vector<std::string> outcome_advice(const Train& train, const CouplingSheet& sheet) {
    switch (sheet.motion.outcome) {
        case Outcome::moves:
            return {};
        case Outcome::free:
            return advice_when_free(train, sheet);
        case Outcome::locked:
            return advice_when_locked(train, sheet);
        case Outcome::conflicting:
            return advice_when_conflicting(train, sheet.motion);
    }
    return {};
}

std::string obstacle_text(const Train& train, const Coupling& coupling) {
    switch (coupling.obstacle) {
        case Obstacle::none:
            return "";
        case Obstacle::first_stands_still:
            return fmt::format("{} stands still while {} turns: couple it from a joint that turns.",
                               joint_name(train, coupling.first), joint_name(train, coupling.second));
        case Obstacle::independent: {
            const std::string holds = list_text(names_of(train, coupling.holds_to_exist), "or");
            return fmt::format("{} and {} can turn independently of each other, so no two angles couple them{}.",
                               joint_name(train, coupling.first), joint_name(train, coupling.second),
                               holds.empty() ? "" : fmt::format("; holding {} would", holds));
        }
        case Obstacle::undetermined:
            return "There is no motion in this setting, so nothing can be coupled.";
    }
    return "";
}

}  // namespace couplet
