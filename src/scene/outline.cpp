#include "scene/outline.hpp"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "exact/decimal.hpp"
#include "scene/limits.hpp"

namespace couplet {

namespace {

bool is_bare_key(std::string_view key) {
    return !key.empty() && std::ranges::all_of(key, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
    });
}

// A character of a basic string (TOML 1.0, String): printed, or escaped where it must be.
std::string escaped(char c) {
    if (c == '"' || c == '\\') return {'\\', c};
    if (c == '\n') return "\\n";
    if (c == '\r') return "\\r";
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\t') || byte == 0x7F ? fmt::format("\\u{:04X}", byte) : std::string(1, c);
}

std::string on_one_line(std::string_view text) {
    std::string written = "\"";
    for (const char c : text) written += escaped(c);
    return written + '"';
}

std::string on_several_lines(std::string_view text) {
    std::string written = "\"\"\"\n";
    for (const char c : text) written += c == '\n' ? "\n" : escaped(c);
    return written + "\"\"\"";
}

std::string key_text(std::string_view key) {
    return is_bare_key(key) ? std::string(key) : on_one_line(key);
}

Value plain(std::string text) {
    return {std::move(text), {}, {}};
}
Value of(std::string_view text) {
    return plain(on_one_line(text));
}
Value of(bool flag) {
    return plain(flag ? "true" : "false");
}
Value of(int whole) {
    return plain(std::to_string(whole));
}
Value of(const Ratio& number) {
    std::string text = exact_text(number);
    if (text.find('/') != std::string::npos) throw std::invalid_argument("a scene holds decimals only, not " + text);
    return plain(std::move(text));
}

Value list_value(std::vector<Value> items) {
    std::string text = "[";
    for (const Value& item : items) text += (text.size() > 1 ? ", " : "") + item.text;
    return {text + "]", std::move(items), {}};
}

template <class Items>
Value list_of(const Items& items) {
    std::vector<Value> values;
    values.reserve(items.size());
    for (const auto& item : items) values.push_back(of(item));
    return list_value(std::move(values));
}

void add_tooth_fields(std::vector<Field>& fields, const ToothSpec& spec) {
    for (const ToothKey& tooth : kToothKeys)
        if (const auto& value = spec.*tooth.value) fields.push_back({std::string(tooth.key), of(*value)});
}

void add_if_given(std::vector<Field>& fields, const char* key, const std::optional<Ratio>& value) {
    if (value) fields.push_back({key, of(*value)});
}

std::vector<Field> top_fields(const Train& train) {
    const bool notes_in_lines = train.notes.find('\n') != std::string::npos;
    return {{"couplet", of(1)},
            {"title", of(train.title), train.title.empty()},
            {"notes", plain(notes_in_lines ? on_several_lines(train.notes) : on_one_line(train.notes)),
             train.notes.empty()}};
}

Entry gear_entry(const Gear& gear) {
    Entry entry{gear.name, {}, {}};
    if (!gear.name.empty()) entry.fields.push_back({"name", of(gear.name)});
    entry.fields.push_back({"teeth", of(gear.teeth)});
    entry.fields.push_back({"internal", of(gear.internal), !gear.internal});
    add_if_given(entry.fields, "shift", gear.shift);
    add_if_given(entry.fields, "bore", gear.bore);
    add_tooth_fields(entry.fields, gear.spec);
    return entry;
}

Entry member_entry(const Train& train, const Member& member) {
    Entry entry{member.name, {{"name", of(member.name)}}, {}};
    entry.fields.push_back({"on", of(name_of(train, member.rides_on)), member.rides_on == kFrame});
    entry.fields.push_back({"copies", of(member.copies), member.copies == 1 || !member.at_deg.empty()});
    if (!member.at_deg.empty()) entry.fields.push_back({"at", list_of(member.at_deg)});
    if (member.axis) entry.fields.push_back({"axis", list_of(*member.axis)});
    return entry;
}

std::vector<Entry> member_entries(const Train& train) {
    std::vector<Entry> entries;
    for (const Member& member : train.members) entries.push_back(member_entry(train, member));
    for (const Gear& gear : train.gears) entries[gear.member.position()].gears.push_back(gear_entry(gear));
    return entries;
}

Entry mesh_entry(const Train& train, const Mesh& mesh) {
    const Value gears = list_of(std::array{name_of(train, mesh.first), name_of(train, mesh.second)});
    Entry entry{gears.text, {{"gears", gears}}, {}};
    add_if_given(entry.fields, "centre_distance", mesh.centre_distance);
    return entry;
}

Entry setting_entry(const Train& train, const Setting& setting) {
    std::vector<Value> hold;
    for (const MemberIndex member : setting.hold) hold.push_back(of(name_of(train, member)));
    std::vector<Value> tie;
    for (const auto& [first, second] : setting.tie)
        tie.push_back(list_of(std::array{name_of(train, first), name_of(train, second)}));
    std::vector<Field> drive;
    for (const Drive& driver : setting.drive) drive.push_back({name_of(train, driver.member), of(driver.rpm)});
    return {setting.name,
            {{"name", of(setting.name)},
             {"hold", list_value(std::move(hold)), setting.hold.empty()},
             {"tie", list_value(std::move(tie)), setting.tie.empty()},
             {"drive", table_value(std::move(drive)), setting.drive.empty()}},
            {}};
}

Entry joint_entry(const Train& train, const Joint& joint) {
    const bool has_default_name = joint.name == default_joint_name(train, joint.turns, joint.against);
    return {joint.name,
            {{"name", of(joint.name), has_default_name},
             {"turns", of(name_of(train, joint.turns))},
             {"against", of(name_of(train, joint.against))},
             {"flipped", of(joint.flipped), !joint.flipped}},
            {}};
}

Entry coupling_entry(const CouplingEntry& coupling) {
    const Value joints = list_of(coupling.joints);
    Entry entry{joints.text, {{"joints", joints}}, {}};
    if (coupling.typed) entry.fields.push_back({"typed", list_of(*coupling.typed)});
    return entry;
}

Entry shot_entry(const Train& train, const Shot& shot) {
    const Value at = of(shot.at);
    Entry entry{at.text, {{"at", at}}, {}};
    add_if_given(entry.fields, "azimuth", shot.azimuth_deg);
    add_if_given(entry.fields, "elevation", shot.elevation_deg);
    add_if_given(entry.fields, "zoom", shot.zoom);
    if (shot.look_at) entry.fields.push_back({"look_at", of(name_of(train, *shot.look_at))});
    return entry;
}

template <class Items, class Make>
std::vector<Entry> entries_of(const Items& items, Make make) {
    std::vector<Entry> entries;
    entries.reserve(items.size());
    for (const auto& item : items) entries.push_back(make(item));
    return entries;
}

}  // namespace

Outline outline_of(const Train& train) {
    Outline outline{top_fields(train), {}, {}};
    add_tooth_fields(outline.teeth, train.teeth);
    outline.lists = {
        EntryList{"member", "[[member]]", member_entries(train)},
        EntryList{"mesh", "[[mesh]]",
                  entries_of(train.meshes, [&](const Mesh& mesh) { return mesh_entry(train, mesh); })},
        EntryList{"setting", "[[setting]]",
                  entries_of(train.settings, [&](const Setting& setting) { return setting_entry(train, setting); })},
        EntryList{"joint", "[[joint]]",
                  entries_of(train.joints, [&](const Joint& joint) { return joint_entry(train, joint); })},
        EntryList{"coupling", "[[coupling]]", entries_of(train.couplings, coupling_entry)},
        EntryList{"shot", "[[shot]]",
                  entries_of(train.shots, [&](const Shot& shot) { return shot_entry(train, shot); })}};
    return outline;
}

std::string lines_of(const std::vector<Field>& fields, std::string_view indentation) {
    std::string lines;
    for (const Field& field : fields)
        if (!field.is_default) lines += fmt::format("{}{} = {}\n", indentation, key_text(field.key), field.value.text);
    return lines;
}

Value table_value(std::vector<Field> fields) {
    std::string text;
    for (const Field& field : fields)
        if (!field.is_default)
            text += fmt::format("{}{} = {}", text.empty() ? " " : ", ", key_text(field.key), field.value.text);
    return {text.empty() ? "{}" : "{" + text + " }", {}, std::move(fields)};
}

std::string entry_text(std::string_view header, const Entry& entry) {
    std::string text = fmt::format("{}\n{}", header, lines_of(entry.fields));
    for (const Entry& gear : entry.gears) text += entry_text(kGearHeader, gear);
    return text;
}

}  // namespace couplet
