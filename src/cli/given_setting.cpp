#include "cli/given_setting.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/options.hpp"
#include "exact/decimal.hpp"
#include "scene/error.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

// The name may itself hold a '=', so a name that is one as it stands is taken first.
Drive drive_of(const Train& train, const std::string& text) {
    const std::size_t equals = text.rfind('=');
    if (equals == std::string::npos || find_member(train, text)) return {turning_member_of(train, text), 1};
    const MemberIndex member = turning_member_of(train, text.substr(0, equals));
    return {member, number_of("--drive " + text.substr(0, equals) + "=", text.substr(equals + 1), "30 or -4.5 (rpm)")};
}

std::pair<MemberIndex, MemberIndex> tie_of(const Train& train, const std::string& text) {
    for (std::size_t equals = text.find('='); equals != std::string::npos; equals = text.find('=', equals + 1)) {
        const std::optional<MemberIndex> a = find_member(train, text.substr(0, equals));
        const std::optional<MemberIndex> b = find_member(train, text.substr(equals + 1));
        if (a && b) return {*a, *b};
    }
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos)
        throw UsageError(fmt::format("--tie {} names one member; write two, A=B", in_quotes(text)));
    return {member_of(train, text.substr(0, equals)), member_of(train, text.substr(equals + 1))};
}

// Throws what the rules for settings in a file would say.
void check_setting(const Train& train, const Setting& setting) {
    Train alone = train;
    alone.settings = {setting};
    const std::vector<TrainFault> found = faults(alone);
    const auto fault = std::ranges::find(found, TrainList::settings, &TrainFault::list);
    if (fault != found.end()) throw UsageError(fmt::format("{}; {}", fault->wrong, fault->right));
}

}  // namespace

Setting setting_of(const Train& train, const GivenSetting& given) {
    Setting setting;
    for (const std::string& name : given.hold) setting.hold.push_back(turning_member_of(train, name));
    for (const std::string& pair : given.tie) setting.tie.push_back(tie_of(train, pair));
    for (const std::string& drive : given.drive) setting.drive.push_back(drive_of(train, drive));
    check_setting(train, setting);
    return setting;
}

}  // namespace couplet
