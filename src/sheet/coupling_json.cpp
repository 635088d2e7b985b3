#include "sheet/coupling_json.hpp"

#include "exact/decimal.hpp"
#include "sheet/audit_words.hpp"
#include "sheet/json_values.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

Json degrees_json(const DegreePair& degrees) {
    return Json::array({exact_text(degrees[0]), exact_text(degrees[1])});
}

// Coefficients by parameter; `parameters` is empty where the turns per turn of the driver tell everything.
void add_combination(Json& entry, const Combination& combination, const std::vector<std::string>& parameters) {
    if (parameters.empty()) return;
    Json coefficients = combination.empty() ? Json(nullptr) : Json::object();
    for (std::size_t i = 0; i < combination.size(); ++i) coefficients[parameters[i]] = exact_json(combination[i]);
    entry["combination"] = std::move(coefficients);
}

Json member_json(const Train& train, const MemberRate& rate, const std::vector<std::string>& parameters) {
    Json entry = {{"name", name_of(train, rate.member)},
                  {"rides_on", name_of(train, rides_on(train, rate.member))},
                  {"turns", exact_json(rate.turns_per_driver_turn)},
                  {"rpm", rate.rpm ? double_json(*rate.rpm) : Json(nullptr)},
                  {"copies", train[rate.member].copies}};
    add_combination(entry, rate.combination, parameters);
    return entry;
}

Json joint_json(const Train& train, const JointRate& rate, const std::vector<std::string>& parameters) {
    Json entry = {{"name", joint_name(train, rate.joint)},
                  {"turns", name_of(train, rate.joint.turns)},
                  {"against", name_of(train, rate.joint.against)},
                  {"per_driver_turn", exact_json(rate.turns_per_driver_turn)},
                  {"flipped", rate.joint.flipped}};
    add_combination(entry, rate.combination, parameters);
    return entry;
}

Json audit_json(const Train& train, const Coupling& coupling) {
    if (!coupling.audit) return nullptr;
    const Audit& audit = *coupling.audit;
    return {{"verdict", verdict_name(audit)},
            {"mistake", mistake_name(audit.mistake)},
            {"explanation", audit_explanation(train, coupling)},
            {"off_deg_per_turn", exact_json(audit.off_deg_per_turn)},
            {"drift_deg_per_1000_turns", exact_json(audit.drift_deg_per_1000_turns)},
            {"turns_to_quarter_tooth", exact_json(audit.turns_to_quarter_tooth)},
            {"corrected", degrees_json(audit.corrected)}};
}

Json correction_json(const std::optional<CarrierCorrection>& correction) {
    if (!correction) return nullptr;
    return {{"bare_tooth_ratio", exact_json(correction->bare_second_per_first)},
            {"needed", exact_json(correction->second_per_first)},
            {"difference_deg_per_turn", exact_json(correction->difference_deg_per_turn)}};
}

Json to_type_json(const Coupling& coupling) {
    return {{"degrees", degrees_json(coupling.to_type.degrees)},
            {"exact", coupling.to_type.exact},
            {"drift_deg_per_1000_turns", exact_json(coupling.to_type.drift_deg_per_1000_turns)},
            {"turns_to_quarter_tooth", exact_json(coupling.turns_to_quarter_tooth)}};
}

std::string_view obstacle_name(Obstacle obstacle) {
    switch (obstacle) {
        case Obstacle::none:
            return "none";
        case Obstacle::first_stands_still:
            return "first_stands_still";
        case Obstacle::independent:
            return "independent";
        case Obstacle::undetermined:
            return "undetermined";
    }
    return "";
}

Json coupling_entry(const Train& train, const Coupling& coupling) {
    const bool exists = coupling.second_per_first.has_value();
    const auto where_exists = [exists](Json value) { return exists ? std::move(value) : Json(nullptr); };
    return {{"first", joint_name(train, coupling.first)},
            {"second", joint_name(train, coupling.second)},
            {"second_per_first", exact_json(coupling.second_per_first)},
            {"degrees", where_exists(degrees_json(coupling.degrees))},
            {"whole_degrees",
             where_exists(Json::array({whole_json(coupling.whole_degrees[0]), whole_json(coupling.whole_degrees[1])}))},
            {"opposite", where_exists(coupling.opposite)},
            {"expression", where_exists(coupling.expression)},
            {"typed", coupling.typed ? degrees_json(*coupling.typed) : Json(nullptr)},
            {"audit", audit_json(train, coupling)},
            {"to_type", where_exists(to_type_json(coupling))},
            {"carrier_correction", correction_json(coupling.correction)},
            {"obstacle", exists ? Json(nullptr) : Json(obstacle_name(coupling.obstacle))},
            {"reason", exists ? Json(nullptr) : Json(obstacle_text(train, coupling))},
            {"holds_to_exist", names_json(train, coupling.holds_to_exist)}};
}

Json release_json(const Train& train, const Setting& setting, const Release& release) {
    Json holds = Json::array();
    std::vector<std::pair<MemberIndex, MemberIndex>> ties;
    for (const std::size_t hold : release.holds) holds.push_back(name_of(train, setting.hold[hold]));
    for (const std::size_t tie : release.ties) ties.push_back(setting.tie[tie]);
    return {{"holds", std::move(holds)}, {"ties", ties_json(train, ties)}};
}

Json contradiction_json(const Train& train, const Motion& motion, const Contradiction& contradiction) {
    Json coefficients = Json::object();
    for (std::size_t i = 0; i < contradiction.coefficients.size(); ++i)
        coefficients[name_of(train, motion.drivers[i].member)] = exact_json(contradiction.coefficients[i]);
    return {{"coefficients", std::move(coefficients)}, {"excess_rpm", exact_json(contradiction.excess_rpm)}};
}

Json explanation_json(const Train& train, const CouplingSheet& sheet) {
    if (!sheet.explanation) return nullptr;
    const Explanation& explanation = *sheet.explanation;
    Json releases = Json::array();
    for (const Release& release : explanation.releases) releases.push_back(release_json(train, sheet.setting, release));
    Json contradictions = Json::array();
    for (const Contradiction& contradiction : sheet.motion.contradictions)
        contradictions.push_back(contradiction_json(train, sheet.motion, contradiction));
    return {{"missing_drivers", sheet.motion.missing_drivers},
            {"could_drive", names_json(train, explanation.could_drive)},
            {"blocked", names_json(train, explanation.blocked)},
            {"release", std::move(releases)},
            {"release_is_smallest", explanation.releases_are_smallest},
            {"contradictions", std::move(contradictions)},
            {"advice", outcome_advice(train, sheet)}};
}

template <class Entries, class ToJson>
Json list_json(const Entries& entries, ToJson to_json) {
    Json list = Json::array();
    for (const auto& entry : entries) list.push_back(to_json(entry));
    return list;
}

}  // namespace

std::string coupling_json(const Train& train, const CouplingSheet& sheet) {
    std::vector<std::string> parameters = parameter_names(train, sheet.motion);
    if (parameters.size() == 1 && sheet.motion.free_joints.empty()) parameters.clear();
    const Setting& setting = sheet.setting;
    return json_text({
        {"couplet", 1},
        {"scene", train.title},
        {"setting", setting.name.empty() ? Json(nullptr) : Json(setting.name)},
        {"outcome", outcome_name(sheet.motion.outcome)},
        {"freedom", sheet.motion.freedom},
        {"driver", sheet.reference_driver ? Json(name_of(train, sheet.reference_driver->member)) : Json(nullptr)},
        {"held", names_json(train, setting.hold)},
        {"tied", ties_json(train, setting.tie)},
        {"drivers", drivers_json(train, setting.drive)},
        {"members", list_json(sheet.members, [&](const auto& rate) { return member_json(train, rate, parameters); })},
        {"joints", list_json(sheet.joints, [&](const auto& rate) { return joint_json(train, rate, parameters); })},
        {"couplings", list_json(sheet.couplings, [&](const auto& entry) { return coupling_entry(train, entry); })},
        {"explanation", explanation_json(train, sheet)},
        {"cautions", cautions_json()},
    });
}

}  // namespace couplet
