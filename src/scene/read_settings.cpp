#include <algorithm>

#include <fmt/format.h>

#include "scene/names.hpp"
#include "scene/read.hpp"

namespace couplet {

namespace {

using namespace std::string_view_literals;

constexpr std::array kSettingKeys = {"name"sv, "hold"sv, "tie"sv, "drive"sv};
constexpr TableForm kSettingForm{"[[setting]]", kSettingKeys};
constexpr TableForm kDriveForm{"'drive' of [[setting]]", {}};

void read_hold(SceneReading& scene, const TableReader& table, Setting& setting) {
    const toml::array* hold = table.list("hold", 0, "a list of members");
    if (hold == nullptr) return;
    for (const toml::node& node : *hold)
        if (const auto member = member_at(scene, table, "hold", node)) setting.hold.push_back(*member);
}

void read_tie(SceneReading& scene, const TableReader& table, Setting& setting) {
    constexpr std::string_view kExpected = R"(a list of pairs of members, [["crank", "drum"]])";
    const toml::array* tie = table.list("tie", 0, kExpected);
    if (tie == nullptr) return;
    for (const toml::node& node : *tie) {
        const toml::array* pair = node.as_array();
        if (pair == nullptr || pair->size() != 2) {
            scene.errors.add(line_of(node), fmt::format("an entry of {} is no pair", table.named("tie")),
                             fmt::format("'tie' must be {}", kExpected));
            continue;
        }
        const auto first = member_at(scene, table, "tie", (*pair)[0]);
        const auto second = member_at(scene, table, "tie", (*pair)[1]);
        if (first && second) setting.tie.emplace_back(*first, *second);
    }
}

// The library sorts a table's keys by name; the order of the drivers is the order written.
std::vector<const toml::key*> keys_as_written(const toml::table& table) {
    std::vector<const toml::key*> keys;
    for (const auto& [key, node] : table) keys.push_back(&key);
    std::ranges::sort(
        keys, {}, [](const toml::key* key) { return std::pair(key->source().begin.line, key->source().begin.column); });
    return keys;
}

void read_drive(SceneReading& scene, const TableReader& table, Setting& setting) {
    const toml::table* drive = table.table("drive", "write drive = { member = rpm }");
    if (drive == nullptr) return;
    const TableReader speeds(scene, *drive, kDriveForm);
    for (const toml::key* key : keys_as_written(*drive)) {
        const auto member = member_named(scene, table, "drive", key->str(), static_cast<int>(key->source().begin.line));
        const auto rpm = speeds.number(key->str(), kRpm);
        if (member && rpm) setting.drive.push_back({*member, *rpm});
    }
}

}  // namespace

void read_settings(SceneReading& scene, const TableReader& root) {
    NameTable names;
    for (const TableReader& table : scene.open(root, "setting", kSettingForm, TrainList::settings)) {
        Setting& setting = scene.train.settings.emplace_back();
        if (table.find("name") == nullptr) table.refuse_missing("name", "give each setting a name of its own");
        setting.name = read_name(names, table, "setting", scene.train.settings.size() - 1);
        read_hold(scene, table, setting);
        read_tie(scene, table, setting);
        read_drive(scene, table, setting);
    }
}

}  // namespace couplet
