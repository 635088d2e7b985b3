#include <fmt/format.h>

#include "scene/names.hpp"
#include "scene/read.hpp"

namespace couplet {

namespace {

using namespace std::string_view_literals;

constexpr std::array kJointKeys = {"name"sv, "turns"sv, "against"sv, "flipped"sv};
constexpr std::array kCouplingKeys = {"joints"sv, "typed"sv};
constexpr TableForm kJointForm{"[[joint]]", kJointKeys};
constexpr TableForm kCouplingForm{"[[coupling]]", kCouplingKeys};
constexpr std::string_view kOn = " on ";

bool is_member(const SceneReading& scene, std::string_view name) {
    return name == "frame" || scene.members.find(name).has_value();
}

// How the text reads as "a on b" of two members; a member's own name may contain " on ".
std::vector<std::pair<std::string_view, std::string_view>> readings_as_pair(const SceneReading& scene,
                                                                            std::string_view name) {
    std::vector<std::pair<std::string_view, std::string_view>> readings;
    if (name.size() > 2 * kMostNameBytes + kOn.size()) return readings;
    for (std::size_t at = name.find(kOn); at != std::string_view::npos; at = name.find(kOn, at + 1)) {
        const std::pair pair(name.substr(0, at), name.substr(at + kOn.size()));
        if (pair.first != pair.second && is_member(scene, pair.first) && is_member(scene, pair.second))
            readings.push_back(pair);
    }
    return readings;
}

// A joint's own name must not be what some other joint is called by default.
void refuse_name_of_others(const SceneReading& scene, const TableReader& table, const Joint& joint) {
    for (const auto& [turns, against] : readings_as_pair(scene, joint.name)) {
        if (turns == name_of(scene.train, joint.turns) && against == name_of(scene.train, joint.against)) continue;
        table.refuse("name",
                     fmt::format("{} is {}, which is the joint of {} against {}", table.named("name"),
                                 in_quotes(joint.name), in_quotes(turns), in_quotes(against)),
                     "choose another name, or change what it turns against");
    }
}

MemberIndex read_side(SceneReading& scene, const TableReader& table, std::string_view key) {
    if (table.find(key) == nullptr)
        table.refuse_missing(key, "a joint names both members: the one that turns, and what it turns against");
    return member_under(scene, table, key).value_or(kFrame);
}

void read_joint(SceneReading& scene, const TableReader& table, Joint& joint) {
    joint.turns = read_side(scene, table, "turns");
    joint.against = read_side(scene, table, "against");
    joint.flipped = table.flag("flipped").value_or(false);
    const std::size_t position = scene.train.joints.size() - 1;
    if (table.find("name") != nullptr) {
        joint.name = read_name(scene.joints, table, "joint", position);
    } else {
        joint.name = default_joint_name(scene.train, joint.turns, joint.against);
        if (const auto taken = scene.joints.find(joint.name))
            table.refuse(
                "", fmt::format("two joints are named {}, here and in line {}", in_quotes(joint.name), taken->line),
                "give this one a name of its own");
        scene.joints.add(joint.name, {position, table.line()});
    }
    refuse_name_of_others(scene, table, joint);
}

// "crank on drum" for "crank on drumm": each side taken as the member that it is nearest to.
std::optional<std::string> nearest_pair(std::string_view name, const std::vector<std::string_view>& members) {
    const std::size_t at = name.find(kOn);
    if (at == std::string_view::npos) return std::nullopt;
    const auto turns = nearest_name(name.substr(0, at), members);
    const auto against = nearest_name(name.substr(at + kOn.size()), members);
    if (!turns || !against || *turns == *against) return std::nullopt;
    return fmt::format("{}{}{}", *turns, kOn, *against);
}

std::string suggested_joint(const SceneReading& scene, std::string_view name) {
    std::vector<std::string_view> members = scene.members.names();
    members.emplace_back("frame");
    if (const auto pair = nearest_pair(name, members)) return fmt::format("did you mean {}?", in_quotes(*pair));
    std::vector<std::string> defaults;
    for (const Member& member : scene.train.members) {
        std::string joint = fmt::format("{}{}{}", member.name, kOn, name_of(scene.train, member.rides_on));
        if (!scene.joints.find(joint)) defaults.push_back(std::move(joint));
    }
    std::vector<std::string_view> names = scene.joints.names();
    names.insert(names.end(), defaults.begin(), defaults.end());
    return suggestion(name, names, "name a joint, or two members as 'a on b'; the joints are",
                      "this scene has no members");
}

std::optional<std::string> read_joint_name(SceneReading& scene, const TableReader& table, const toml::node& node) {
    const auto name = table.text_at("joints", node);
    if (!name) return std::nullopt;
    if (scene.joints.find(*name)) return std::string(*name);
    const auto readings = readings_as_pair(scene, *name);
    if (readings.size() == 1) return std::string(*name);
    if (!scene.errors.wants(line_of(node))) return std::nullopt;
    if (readings.empty())
        scene.errors.add(line_of(node),
                         fmt::format("{} names {}, which is no joint", table.named("joints"), in_quotes(*name)),
                         suggested_joint(scene, *name));
    else
        scene.errors.add(
            line_of(node),
            fmt::format("{} names {}, which could be the joint of {} against {} or of {} against {}",
                        table.named("joints"), in_quotes(*name), in_quotes(readings[0].first),
                        in_quotes(readings[0].second), in_quotes(readings[1].first), in_quotes(readings[1].second)),
            "describe the one you mean as a [[joint]] with a name of its own");
    return std::nullopt;
}

void read_coupling(SceneReading& scene, const TableReader& table, CouplingEntry& coupling) {
    if (auto typed = table.numbers("typed", kDegrees, 2))
        coupling.typed = {std::move((*typed)[0]), std::move((*typed)[1])};
    if (table.find("joints") == nullptr) table.refuse_missing("joints", "name the two joints that are coupled");
    const toml::array* joints = table.list("joints", 2, "a list of two joints");
    if (joints == nullptr) return;
    const auto first = read_joint_name(scene, table, (*joints)[0]);
    const auto second = read_joint_name(scene, table, (*joints)[1]);
    if (first && second && *first == *second)
        table.refuse("joints", fmt::format("{} names {} twice", table.named("joints"), in_quotes(*first)),
                     "a coupling joins two different joints");
    coupling.joints = {first.value_or(""), second.value_or("")};
}

}  // namespace

void read_joints(SceneReading& scene, const TableReader& root) {
    for (const TableReader& table : scene.open(root, "joint", kJointForm, TrainList::joints)) {
        read_joint(scene, table, scene.train.joints.emplace_back());
    }
}

void read_couplings(SceneReading& scene, const TableReader& root) {
    for (const toml::table* table : root.tables("coupling", "start each coupling with [[coupling]]"))
        read_coupling(scene, TableReader(scene, *table, kCouplingForm), scene.train.couplings.emplace_back());
}

}  // namespace couplet
