#include "train/train.hpp"

#include <algorithm>

namespace couplet {

namespace {

template <class Entry, class Found>
std::optional<Found> find_by_name(const std::vector<Entry>& entries, const std::string& name, Found) {
    const auto found = std::ranges::find(entries, name, &Entry::name);
    if (found == entries.end()) return std::nullopt;
    return Found{static_cast<std::int32_t>(found - entries.begin())};
}

}  // namespace

bool is_held(const Setting& setting, MemberIndex member) {
    return std::ranges::find(setting.hold, member) != setting.hold.end();
}

bool is_driven(const Setting& setting, MemberIndex member) {
    return std::ranges::find(setting.drive, member, &Drive::member) != setting.drive.end();
}

const std::string& name_of(const Train& train, MemberIndex member) {
    static const std::string frame = "frame";
    return member == kFrame ? frame : train[member].name;
}

std::vector<GearIndex> gears_of(const Train& train, MemberIndex member) {
    const auto first = std::ranges::lower_bound(train.gears, member, {}, &Gear::member);
    std::vector<GearIndex> gears;
    for (auto gear = first; gear != train.gears.end() && gear->member == member; ++gear)
        gears.push_back({static_cast<std::int32_t>(gear - train.gears.begin())});
    return gears;
}

std::string name_of(const Train& train, GearIndex gear) {
    const MemberIndex member = train[gear].member;
    const std::string& member_name = name_of(train, member);
    return gears_of(train, member).size() == 1 ? member_name : member_name + "/" + train[gear].name;
}

std::string default_joint_name(const Train& train, MemberIndex turns, MemberIndex against) {
    return name_of(train, turns) + " on " + name_of(train, against);
}

std::optional<MemberIndex> find_member(const Train& train, const std::string& name) {
    if (name == "frame") return kFrame;
    return find_by_name(train.members, name, MemberIndex{});
}

std::optional<SettingIndex> find_setting(const Train& train, const std::string& name) {
    return find_by_name(train.settings, name, SettingIndex{});
}

}  // namespace couplet
