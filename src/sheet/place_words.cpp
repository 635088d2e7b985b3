#include "sheet/place_words.hpp"

#include <fmt/format.h>

#include <numeric>
#include <utility>

#include "exact/decimal.hpp"
#include "sheet/numbers.hpp"

namespace couplet {

namespace {

bool stands_alone(const Placement& placement, MemberIndex member) {
    return placement.first_place[member.position() + 1] - placement.first_place[member.position()] == 1;
}

std::string with_copy(const std::string& name, const Placement& placement, PlaceIndex place) {
    const Place& p = placement[place];
    return stands_alone(placement, p.member) ? name : fmt::format("{} {}", name, p.copy);
}

// What one central gear adds to the sum: its teeth, times those of the other planet gear where they differ.
struct Term {
    std::string text;
    Ratio value;
};

Term term_of(const Train& train, const AssemblyCondition& condition, GearIndex central, GearIndex factor) {
    const int teeth = train[central].teeth;
    if (condition.form != AssemblyForm::stepped) return {std::to_string(teeth), teeth};
    return {fmt::format("{} * {}", teeth, train[factor].teeth), Ratio(teeth) * Ratio(train[factor].teeth)};
}

// Signs by assembly.hpp: a central gear inside counts one way, a ring the other, turned round for the first one.
bool counts_up(const Train& train, GearIndex central, bool as_second) {
    return train[central].internal == as_second;
}

std::string angle_text(const ShownAngle& angle) {
    return angle_cell(angle).shown + " deg";
}

}  // namespace

std::string place_name(const Train& train, const Placement& placement, PlaceIndex place) {
    return with_copy(name_of(train, placement[place].member), placement, place);
}

std::string gear_place_name(const Train& train, const Placement& placement, GearIndex gear, PlaceIndex place) {
    return with_copy(name_of(train, gear), placement, place);
}

std::string mesh_place_name(const Train& train, const Placement& placement, const PlacedMesh& mesh) {
    return gear_place_name(train, placement, train[mesh.mesh].first, mesh.first) + " with " +
           gear_place_name(train, placement, train[mesh.mesh].second, mesh.second);
}

Cell angle_cell(const ShownAngle& angle) {
    if (angle.exact_deg) return decimal_cell(*angle.exact_deg);
    return {fmt::format("{}", angle.value_deg), fmt::format("{:.6f}", angle.value_deg)};
}

std::string condition_arithmetic(const Train& train, const AssemblyCondition& condition) {
    const bool first_up = counts_up(train, condition.first_central, condition.form == AssemblyForm::paired);
    const bool second_up = counts_up(train, condition.second_central, true);
    Term larger = term_of(train, condition, condition.first_central, condition.second_planet);
    Term smaller = term_of(train, condition, condition.second_central, condition.first_planet);
    if (first_up != second_up && larger.value < smaller.value) std::swap(larger, smaller);
    const std::string sum = fmt::format("({} {} {})", larger.text, first_up == second_up ? '+' : '-', smaller.text);
    std::string divisor = std::to_string(condition.copies);
    if (condition.form == AssemblyForm::stepped) {
        const int shared = std::gcd(train[condition.first_planet].teeth, train[condition.second_planet].teeth);
        divisor = fmt::format("({} * {})", divisor, shared);
    }
    return fmt::format("{} / {} = {}", sum, divisor, fraction_cell(condition.sum / Ratio(condition.copies)).shown);
}

std::string condition_text(const Train& train, const AssemblyCondition& condition) {
    std::string text = fmt::format("{} by way of {} to {}, {} planets: {}", name_of(train, condition.first_central),
                                   name_of(train, condition.first_planet), name_of(train, condition.second_central),
                                   form_name(condition.form), condition_arithmetic(train, condition));
    if (condition.quotient)
        text += condition.quotient->is_whole() ? ", whole: equal spacing assembles."
                                               : ", not whole: equal spacing does not assemble.";
    else
        text += condition.holds ? "; the places given suit." : "; the places given do not suit.";
    if (condition.least_mesh_angle_deg)
        text += fmt::format(" Copies may stand at whole multiples of {} deg.",
                            decimal_cell(*condition.least_mesh_angle_deg).shown);
    else
        text += " Every place suits.";
    return text;
}

std::string misplaced_text(const Train& train, const Placement& placement, const MisplacedCopy& copy) {
    const std::string name = place_name(train, placement, copy.place);
    const std::string stands = decimal_cell(copy.stands_at_deg).shown;
    if (!copy.below || !copy.above)
        return fmt::format("{} at {} deg from the first copy: no place round the centre suits all its meshes.", name,
                           stands);
    return fmt::format(
        "{} stands at {} deg from the first copy and misses by {}. The nearest places that suit are {} and {}.", name,
        stands, angle_text(copy.misses_by), angle_text(*copy.below), angle_text(*copy.above));
}

std::string hunting_text(const Train& train, const Hunting& hunting) {
    const Mesh& mesh = train[hunting.mesh];
    const std::string again =
        fmt::format("the same teeth meet again after {} turns of {} and {} of {}, against the arm", hunting.first_turns,
                    name_of(train, mesh.first), hunting.second_turns, name_of(train, mesh.second));
    const std::string pair = fmt::format("{} with {}", name_of(train, mesh.first), name_of(train, mesh.second));
    if (hunting.phases == 1) return fmt::format("{}: hunting, each tooth meets all others; {}.", pair, again);
    return fmt::format("{}: each tooth meets just one in {} teeth of the other gear; {}.", pair, hunting.phases, again);
}

std::string_view mesh_verdict_name(MeshVerdict verdict) {
    switch (verdict) {
        case MeshVerdict::meshes:
            return "meshes";
        case MeshVerdict::off_centre:
            return "off centre";
        case MeshVerdict::overlaps:
            return "overlaps";
        case MeshVerdict::no_contact:
            return "no contact";
        case MeshVerdict::no_profile:
            return "no profile";
    }
    return "";
}

std::string_view gap_place_name(GapPlace place) {
    switch (place) {
        case GapPlace::flank_ahead:
            return "flank ahead";
        case GapPlace::flank_behind:
            return "flank behind";
        case GapPlace::elsewhere:
            return "elsewhere";
    }
    return "";
}

std::string_view outcome_name(AssemblyOutcome outcome) {
    return outcome == AssemblyOutcome::assembles ? "assembles" : "does not assemble";
}

std::string_view form_name(AssemblyForm form) {
    switch (form) {
        case AssemblyForm::simple:
            return "simple";
        case AssemblyForm::stepped:
            return "stepped";
        case AssemblyForm::paired:
            return "paired";
    }
    return "";
}

}  // namespace couplet
