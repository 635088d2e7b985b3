#include <algorithm>

#include <fmt/format.h>

#include "scene/names.hpp"
#include "scene/read.hpp"

namespace couplet {

namespace {

using namespace std::string_view_literals;

constexpr std::array kMemberKeys = {"name"sv, "on"sv, "copies"sv, "at"sv, "axis"sv, "gear"sv};
constexpr std::array kMeshKeys = {"gears"sv, "centre_distance"sv};

constexpr std::array kOwnGearKeys = {"name"sv, "teeth"sv, "internal"sv, "shift"sv, "bore"sv};
constexpr auto kGearKeys = [] {
    std::array<std::string_view, kOwnGearKeys.size() + kToothKeys.size()> keys;
    const auto rest = std::ranges::copy(kOwnGearKeys, keys.begin()).out;
    std::ranges::transform(kToothKeys, rest, &ToothKey::key);
    return keys;
}();

constexpr TableForm kMemberForm{"[[member]]", kMemberKeys};
constexpr TableForm kGearForm{"[[member.gear]]", kGearKeys};
constexpr TableForm kMeshForm{"[[mesh]]", kMeshKeys};

void refuse_slash(const TableReader& table, const std::string& name, std::string_view whose) {
    if (name.find('/') != std::string::npos)
        table.refuse("name", fmt::format("{} is {}", table.named("name"), in_quotes(name)),
                     fmt::format("a {}'s name has no '/', which stands between a member and its gear", whose));
}

std::string read_member_name(SceneReading& scene, const TableReader& table, std::size_t position) {
    if (table.find("name") == nullptr) table.refuse_missing("name", "give each member a name of its own");
    std::string name = read_name(scene.members, table, "member", position);
    if (name == "frame")
        table.refuse("name", fmt::format("{} is 'frame'", table.named("name")),
                     "frame is the fixed member, which every scene has: choose another name");
    refuse_slash(table, name, "member");
    return name;
}

void read_copies(const TableReader& table, Member& member) {
    if (const auto copies = table.whole("copies", 1, kMostMembers)) member.copies = *copies;
    auto at_deg = table.numbers("at", kDegrees, 0);
    if (!at_deg) return;
    if (at_deg->empty() || at_deg->size() > static_cast<std::size_t>(kMostMembers))
        return table.refuse("at", fmt::format("{} is a list of {}", table.named("at"), at_deg->size()),
                            fmt::format("give one angle for each copy, from 1 to {}", kMostMembers));
    const auto places = static_cast<int>(at_deg->size());
    if (table.find("copies") != nullptr && member.copies != places)
        table.refuse("at", fmt::format("{} gives {} places for {} copies", table.named("at"), places, member.copies),
                     "give one angle for each copy, or leave out copies");
    member.copies = places;
    member.at_deg = std::move(*at_deg);
}

void read_member(SceneReading& scene, const TableReader& table, Member& member) {
    if (const auto carrier = member_under(scene, table, "on")) member.rides_on = *carrier;
    read_copies(table, member);
    if (auto axis = table.numbers("axis", kAnyNumber, 3))
        member.axis = {std::move((*axis)[0]), std::move((*axis)[1]), std::move((*axis)[2])};
}

Gear read_gear(const TableReader& table, MemberIndex member) {
    Gear gear;
    gear.member = member;
    if (table.find("teeth") == nullptr)
        table.refuse_missing("teeth", fmt::format("give the gear from {} to {} teeth", kFewestTeeth, kMostTeeth));
    gear.teeth = table.whole("teeth", kFewestTeeth, kMostTeeth).value_or(kFewestTeeth);
    gear.internal = table.flag("internal").value_or(false);
    gear.shift = table.number("shift", kShiftLimits);
    gear.bore = table.number("bore", kBoreLimits);
    read_tooth_spec(table, gear.spec);
    return gear;
}

// A gear's name is its own among the gears of its member.
std::string read_gear_name(NameTable& names, const TableReader& table, std::size_t position, bool is_only_one,
                           const std::string& member) {
    std::string name = read_name(names, table, "gear", position);
    refuse_slash(table, name, "gear");
    if (!is_only_one && table.find("name") == nullptr)
        table.refuse_missing("name", fmt::format("{} has several gears: give each a name", in_quotes(member)));
    return name;
}

void read_gears(SceneReading& scene, const TableReader& member_table, MemberIndex member) {
    const std::string& member_name = name_of(scene.train, member);
    const std::size_t first = scene.train.gears.size();
    const auto tables = member_table.tables("gear", "start each gear of a member with [[member.gear]]");
    NameTable names;
    for (const toml::table* table : tables) {
        const TableReader& reader = scene.entries_of(TrainList::gears).emplace_back(scene, *table, kGearForm);
        const std::size_t position = scene.train.gears.size();
        Gear gear = read_gear(reader, member);
        gear.name = read_gear_name(names, reader, position, tables.size() == 1, member_name);
        if (!gear.name.empty())
            scene.gears.add(fmt::format("{}/{}", member_name, gear.name), {position, reader.line()});
        scene.train.gears.push_back(std::move(gear));
    }
    if (tables.size() == 1) scene.gears.add(member_name, {first, member_table.line()});
}

// Why a mesh's text names no gear: "which is no member", with what would be right.
std::pair<std::string, std::string> no_gear(const SceneReading& scene, std::string_view name) {
    const std::size_t slash = name.find('/');
    const auto member = scene.members.find(name.substr(0, slash));
    if (!member)
        return {"which is no member", suggestion(name.substr(0, slash), scene.members.names(), "the members are",
                                                 "this scene has no members")};
    std::vector<std::string_view> own;
    const auto gears = gears_of(scene.train, {static_cast<std::int32_t>(member->position)});
    own.reserve(gears.size());
    for (const GearIndex gear : gears) own.push_back(scene.train[gear].name);
    if (gears.empty()) return {"which has no gear", "give that member a [[member.gear]]"};
    if (slash == std::string_view::npos)
        return {"which has several gears", suggestion("", own, "add '/' and one of", "")};
    if (gears.size() == 1 && own[0].empty())
        return {"but its gear has no name", fmt::format("write {}", in_quotes(name.substr(0, slash)))};
    return {"which is no gear of that member", suggestion(name.substr(slash + 1), own, "its gears are", "")};
}

std::optional<GearIndex> read_mesh_gear(SceneReading& scene, const TableReader& table, const toml::node& node) {
    const auto name = table.text_at("gears", node);
    if (!name) return std::nullopt;
    if (const auto gear = scene.gears.find(*name)) return GearIndex{static_cast<std::int32_t>(gear->position)};
    if (scene.errors.wants(line_of(node))) {
        auto [why, right] = no_gear(scene, *name);
        scene.errors.add(line_of(node), fmt::format("{} names {}, {}", table.named("gears"), in_quotes(*name), why),
                         std::move(right));
    }
    return std::nullopt;
}

}  // namespace

void read_members(SceneReading& scene, const TableReader& root) {
    const std::vector<TableReader>& tables = scene.open(root, "member", kMemberForm, TrainList::members);
    const auto most_members = static_cast<std::size_t>(kMostMembers);
    if (tables.size() > most_members)
        tables[most_members].refuse("", fmt::format("the scene has {} members", tables.size()),
                                    fmt::format("a scene has at most {} members", kMostMembers));
    scene.train.members.resize(tables.size());
    for (std::size_t i = 0; i < tables.size(); ++i) scene.train.members[i].name = read_member_name(scene, tables[i], i);
    for (std::size_t i = 0; i < tables.size(); ++i) {
        read_member(scene, tables[i], scene.train.members[i]);
        read_gears(scene, tables[i], {static_cast<std::int32_t>(i)});
    }
}

void read_meshes(SceneReading& scene, const TableReader& root) {
    for (const TableReader& table : scene.open(root, "mesh", kMeshForm, TrainList::meshes)) {
        Mesh& mesh = scene.train.meshes.emplace_back();
        mesh.centre_distance = table.number("centre_distance", kCentreDistanceLimits);
        if (table.find("gears") == nullptr) table.refuse_missing("gears", "name the two gears in contact");
        const toml::array* gears = table.list("gears", 2, "a list of two gears");
        if (gears == nullptr) continue;
        mesh.first = read_mesh_gear(scene, table, (*gears)[0]).value_or(GearIndex{});
        mesh.second = read_mesh_gear(scene, table, (*gears)[1]).value_or(GearIndex{});
    }
}

}  // namespace couplet
