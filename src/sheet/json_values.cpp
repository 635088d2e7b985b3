#include "sheet/json_values.hpp"

#include <cmath>

#include "sheet/cautions.hpp"

namespace couplet {

Json double_json(const Ratio& value) {
    const double nearest = value.to_double();
    return std::isfinite(nearest) ? Json(nearest) : Json(nullptr);
}

Json exact_json(const Ratio& value) {
    return {{"exact", value.to_string()}, {"value", double_json(value)}};
}

Json exact_json(const std::optional<Ratio>& value) {
    return value ? exact_json(*value) : Json(nullptr);
}

Json whole_json(const Ratio& whole) {
    constexpr std::int64_t kMostExact = std::int64_t{1} << 53;
    return whole.magnitude() <= Ratio(kMostExact) ? Json(whole.small_numerator()) : Json(whole.to_string());
}

Json names_json(const Train& train, const std::vector<MemberIndex>& members) {
    Json names = Json::array();
    for (const MemberIndex member : members) names.push_back(name_of(train, member));
    return names;
}

Json ties_json(const Train& train, const std::vector<std::pair<MemberIndex, MemberIndex>>& ties) {
    Json pairs = Json::array();
    for (const auto& [a, b] : ties) pairs.push_back(Json::array({name_of(train, a), name_of(train, b)}));
    return pairs;
}

Json drivers_json(const Train& train, const std::vector<Drive>& drivers) {
    Json list = Json::array();
    for (const Drive& drive : drivers)
        list.push_back({{"name", name_of(train, drive.member)}, {"rpm", double_json(drive.rpm)}});
    return list;
}

Json cautions_json() {
    Json cautions = Json::array();
    for (const std::string_view caution : kCautions) cautions.push_back(caution);
    return cautions;
}

std::string json_text(const Json& sheet) {
    return sheet.dump(2, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace couplet
