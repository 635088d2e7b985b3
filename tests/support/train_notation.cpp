#include "support/train_notation.hpp"

#include <algorithm>
#include <charconv>
#include <stdexcept>
#include <utility>
#include <vector>

#include "exact/decimal.hpp"
#include "support/train_builder.hpp"

namespace couplet {

namespace {

[[noreturn]] void refuse(std::string_view text, const std::string& right) {
    throw std::invalid_argument("'" + std::string(text) + "' is not train notation; " + right);
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \n");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \n") - first + 1);
}

// The parts between separators, without the spaces around them; none where the text is blank.
std::vector<std::string_view> parts(std::string_view text, char separator) {
    std::vector<std::string_view> found;
    if (trimmed(text).empty()) return found;
    while (true) {
        const std::size_t end = text.find(separator);
        found.push_back(trimmed(text.substr(0, end)));
        if (end == std::string_view::npos) return found;
        text.remove_prefix(end + 1);
    }
}

// The text before and after the only `separator`.
std::pair<std::string, std::string> halves(std::string_view text, std::string_view separator,
                                           const std::string& right) {
    const std::size_t at = text.find(separator);
    if (at == std::string_view::npos || text.find(separator, at + separator.size()) != std::string_view::npos)
        refuse(text, right);
    const std::pair<std::string, std::string> split{trimmed(text.substr(0, at)),
                                                    trimmed(text.substr(at + separator.size()))};
    if (split.first.empty() || split.second.empty()) refuse(text, right);
    return split;
}

// "ring out 87": the name and what stands behind its last space.
std::pair<std::string, std::string> name_and_last_word(std::string_view text, const std::string& right) {
    const std::size_t space = text.find_last_of(' ');
    if (space == std::string_view::npos) refuse(text, right);
    return {std::string(trimmed(text.substr(0, space))), std::string(text.substr(space + 1))};
}

class NotationReader {
  public:
    void read_mesh(std::string_view text) {
        const bool inside = text.find(" in ") != std::string_view::npos;
        const auto [first, second] =
            halves(text, inside ? " in " : " x ", "a mesh is written 'a 20 x b 30' or 'a 20 in ring 60'");
        const GearIndex first_gear = read_gear(first, false);
        builder_.mesh(first_gear, read_gear(second, inside));
    }

    void read_riding(std::string_view text) {
        const auto [rider, carrier] = halves(text, " on ", "riding is written 'planet on carrier'");
        const MemberIndex member = member_of(rider);
        builder_.set_rides_on(member, carrier == "frame" ? kFrame : member_of(carrier));
    }

    [[nodiscard]] Train train() const { return builder_.build(); }

  private:
    MemberIndex member_of(const std::string& name) {
        const auto known = std::ranges::find(builder_.members(), name, &Member::name);
        if (known == builder_.members().end()) return builder_.member(name);
        return {static_cast<std::int32_t>(known - builder_.members().begin())};
    }

    GearIndex read_gear(std::string_view text, bool internal) {
        const std::string right = "a gear is written as its member's name and its tooth count";
        const auto [name, count] = name_and_last_word(text, right);
        int teeth = 0;
        const auto [end, error] = std::from_chars(count.data(), count.data() + count.size(), teeth);
        if (error != std::errc{} || end != count.data() + count.size()) refuse(text, right);
        return builder_.gear(member_of(name), teeth, internal);
    }

    TrainBuilder builder_;
};

Drive drive_from(const Train& train, std::string_view text) {
    const std::string right = "a driver is written as its member's name and its speed";
    const auto [name, speed] = name_and_last_word(text, right);
    const std::optional<Ratio> rpm = parse_ratio(speed);
    if (!rpm) refuse(text, right);
    return {member_named(train, name), *rpm};
}

}  // namespace

Train train_from(std::string_view meshes) {
    NotationReader reader;
    const std::size_t open = meshes.find('(');
    for (const std::string_view mesh : parts(meshes.substr(0, open), ';')) reader.read_mesh(mesh);
    if (open == std::string_view::npos) return reader.train();
    const std::size_t close = meshes.find(')', open);
    if (close == std::string_view::npos || !trimmed(meshes.substr(close + 1)).empty())
        refuse(meshes, "what rides on what stands in parentheses at the end");
    for (const std::string_view riding : parts(meshes.substr(open + 1, close - open - 1), ','))
        reader.read_riding(riding);
    return reader.train();
}

MemberIndex member_named(const Train& train, const std::string& name) {
    const std::optional<MemberIndex> member = find_member(train, name);
    if (!member) throw std::invalid_argument("the train has no member '" + name + "'");
    return *member;
}

Setting setting_from(const Train& train, std::string_view text) {
    Setting setting;
    for (const std::string_view clause : parts(text, ';')) {
        const std::size_t space = std::min(clause.find(' '), clause.size());
        const std::string_view verb = clause.substr(0, space);
        for (const std::string_view entry : parts(clause.substr(space), ',')) {
            if (verb == "hold") {
                setting.hold.push_back(member_named(train, std::string(entry)));
            } else if (verb == "tie") {
                const auto [a, b] = halves(entry, "=", "a tie is written 'a=b'");
                setting.tie.emplace_back(member_named(train, a), member_named(train, b));
            } else if (verb == "drive") {
                setting.drive.push_back(drive_from(train, entry));
            } else {
                refuse(clause, "a setting is made of hold, tie and drive");
            }
        }
    }
    return setting;
}

Ratio at_driver_speeds(const Motion& motion, const Combination& combination) {
    Ratio total;
    for (std::size_t k = 0; k < motion.drivers.size(); ++k) total += combination[k] * motion.drivers[k].rpm;
    return total;
}

Ratio SolvedTrain::turns(const std::string& member, const std::string& against) const {
    const Combination rate = rate_on(train, motion, member_named(train, member), member_named(train, against));
    const auto needs_missing_driver = [](const Ratio& coefficient) { return !coefficient.is_zero(); };
    if (rate.size() != motion.parameter_count() ||
        std::any_of(rate.begin() + static_cast<std::ptrdiff_t>(motion.drivers.size()), rate.end(),
                    needs_missing_driver))
        throw std::logic_error("the rate of '" + member + "' is not determined");
    return at_driver_speeds(motion, rate);
}

SolvedTrain solved(Train train, Setting setting) {
    Motion motion = solve(train, setting);
    return {std::move(train), std::move(setting), std::move(motion)};
}

SolvedTrain solved(std::string_view meshes, std::string_view setting) {
    Train train = train_from(meshes);
    Setting read = setting_from(train, setting);
    return solved(std::move(train), std::move(read));
}

}  // namespace couplet
