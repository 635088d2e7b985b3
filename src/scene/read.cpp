#include "scene/read.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "scene/names.hpp"

namespace couplet {

namespace {

using namespace std::string_view_literals;

constexpr std::array kTopKeys = {"couplet"sv, "title"sv,   "notes"sv, "teeth"sv,    "member"sv,
                                 "mesh"sv,    "setting"sv, "joint"sv, "coupling"sv, "shot"sv};

constexpr TableForm kTopForm{"the scene", kTopKeys};

constexpr std::string_view kFormatVersion = "couplet = 1, the version of the format";

void read_format_version(const TableReader& root) {
    const toml::node* node = root.find("couplet");
    if (node == nullptr)
        return root.reading().errors.add(1, "'couplet' is missing",
                                         fmt::format("start the scene with {}", kFormatVersion));
    const auto* version = node->as_integer();
    if (version == nullptr || version->get() != 1) root.refuse_kind("couplet", *node, "1, the version of the format");
}

constexpr auto kToothKeyNames = [] {
    std::array<std::string_view, kToothKeys.size()> names;
    std::ranges::transform(kToothKeys, names.begin(), &ToothKey::key);
    return names;
}();
constexpr TableForm kTeethForm{"[teeth]", kToothKeyNames};

void read_teeth(SceneReading& scene, const TableReader& root) {
    const toml::table* table = root.table("teeth", "start the defaults of all gears with [teeth]");
    if (table == nullptr) return;
    const TableReader teeth(scene, *table, kTeethForm);
    read_tooth_spec(teeth, scene.train.teeth);
}

bool has_control_character(std::string_view text) {
    return std::ranges::any_of(text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

// Adds what makes no sense as a train, each in the line of the key at fault.
void refuse_faults(SceneReading& scene) {
    for (const TrainFault& fault : faults(scene.train))
        scene.entries_of(fault.list)[fault.position].refuse(fault.key, fault.wrong, fault.right);
}

}  // namespace

const std::vector<TableReader>& SceneReading::open(const TableReader& root, std::string_view key, const TableForm& form,
                                                   TrainList list) {
    std::vector<TableReader>& readers = entries_of(list);
    for (const toml::table* table : root.tables(key, fmt::format("start each entry with {}", form.header)))
        readers.emplace_back(*this, *table, form);
    return readers;
}

void read_tooth_spec(const TableReader& table, ToothSpec& spec) {
    for (const ToothKey& tooth : kToothKeys) spec.*tooth.value = table.number(tooth.key, tooth.limits);
    const bool module_first = table.line_of_key("module") <= table.line_of_key("diametral_pitch");
    if (table.find("module") != nullptr && table.find("diametral_pitch") != nullptr)
        table.refuse(module_first ? "diametral_pitch" : "module",
                     fmt::format("{} stands beside {}", table.named(module_first ? "diametral_pitch" : "module"),
                                 module_first ? "'module'" : "'diametral_pitch'"),
                     "give one of the two");
}

std::optional<MemberIndex> member_named(SceneReading& scene, const TableReader& table, std::string_view key,
                                        std::string_view name, int line) {
    if (name == "frame") return kFrame;
    if (const auto entry = scene.members.find(name)) return MemberIndex{static_cast<std::int32_t>(entry->position)};
    if (scene.errors.wants(line))
        scene.errors.add(line, fmt::format("{} names {}, which is no member", table.named(key), in_quotes(name)),
                         suggestion(name, scene.members.names(), "the members are", "this scene has no members"));
    return std::nullopt;
}

std::optional<MemberIndex> member_at(SceneReading& scene, const TableReader& table, std::string_view key,
                                     const toml::node& node) {
    const auto name = table.text_at(key, node);
    return name ? member_named(scene, table, key, *name, line_of(node)) : std::nullopt;
}

std::optional<MemberIndex> member_under(SceneReading& scene, const TableReader& table, std::string_view key) {
    const toml::node* node = table.find(key);
    return node == nullptr ? std::nullopt : member_at(scene, table, key, *node);
}

std::string read_name(NameTable& names, const TableReader& table, std::string_view whose, std::size_t position) {
    const auto name = table.text("name");
    if (!name) return "";
    const std::string own = fmt::format("give each {} a name of its own", whose);
    if (name->empty()) {
        table.refuse("name", fmt::format("{} is empty", table.named("name")), own);
    } else if (has_control_character(*name)) {
        table.refuse("name", fmt::format("{} is {}", table.named("name"), in_quotes(*name)),
                     "a name is one line without control characters");
    } else if (name->size() > kMostNameBytes) {
        table.refuse("name", fmt::format("{} has {} bytes", table.named("name"), name->size()),
                     fmt::format("a name has at most {} bytes", kMostNameBytes));
    } else if (const auto taken = names.find(*name)) {
        table.refuse("name",
                     fmt::format("two {}s are named {}, here and in line {}", whose, in_quotes(*name), taken->line),
                     own);
    }
    names.add(*name, {position, table.line_of_key("name")});
    return std::string(*name);
}

Train read_scene(std::string_view text, const std::string& file_name) {
    return read_train(parse_toml(text, file_name), text, file_name);
}

Train read_train(const toml::table& table, std::string_view text, const std::string& file_name) {
    SceneReading scene{{SourceText(text), FirstError(file_name)}, {}, {}, {}, {}, {}};
    const TableReader root(scene, table, kTopForm);
    read_format_version(root);
    scene.train.title = root.text("title").value_or("");
    scene.train.notes = root.text("notes").value_or("");
    read_teeth(scene, root);
    read_members(scene, root);
    read_meshes(scene, root);
    read_settings(scene, root);
    read_joints(scene, root);
    read_couplings(scene, root);
    read_shots(scene, root);
    scene.errors.raise();
    refuse_faults(scene);
    scene.errors.raise();
    return std::move(scene.train);
}

}  // namespace couplet
