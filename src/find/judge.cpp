#include "find/judge.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "exact/decimal.hpp"
#include "motion/motion.hpp"
#include "place/assembly.hpp"
#include "tooth/mesh_checks.hpp"

namespace couplet {

namespace {

// The gear of each count: trains are made with their gears in the order of their members, where a carrier with the next
// set's sun comes before the planets.
std::vector<std::size_t> gears_by_count(Arrangement arrangement, std::size_t counts) {
    if (arrangement == Arrangement::two_rings) return {0, 1, 3, 2, 4};
    if (arrangement == Arrangement::in_series) return {0, 2, 3, 1, 4, 5};
    std::vector<std::size_t> gears(counts);
    std::iota(gears.begin(), gears.end(), 0U);
    return gears;
}

void set_choice(Train& train, const SearchWish& wish) {
    if (central_members(wish.arrangement).empty()) return;
    const CentralChoice choice = choice_of(wish);
    const Ratio rpm = train.settings.front().drive.front().rpm;
    train.settings.front() = {
        choice.held + " held", {*find_member(train, choice.held)}, {}, {{*find_member(train, choice.driver), rpm}}};
}

Rule rule_of(const Finding& finding) {
    if (finding.rule == "undercut") return Rule::undercut;
    if (finding.rule.ends_with("interference") || finding.rule.starts_with("ring tip")) return Rule::interference;
    if (finding.rule == "transverse contact ratio") return Rule::contact_ratio;
    if (finding.rule.starts_with("centre distance") || finding.rule == "operating angle" ||
        finding.rule == "triangle of axes")
        return Rule::centre_distance;
    if (finding.rule == "neighbour clearance") return Rule::neighbour_clearance;
    if (finding.rule == "assembly condition" || finding.rule == "teeth meet gaps all round" ||
        finding.rule == "copies on one axis" || finding.rule == "copies in mesh")
        return Rule::assembly;
    return Rule::other_teeth;
}

// A slight undercut is a caution of a train that someone has; nobody who has the choice looks for one.
bool breaks(const Finding& finding) {
    return finding.verdict == Verdict::fails || (finding.verdict == Verdict::caution && finding.rule == "undercut");
}

// The rule broken first in the order of rules; notes the cautions of the others.
std::optional<Rule> broken_rule(const std::vector<Finding>& findings, std::vector<std::string>& cautions) {
    std::optional<Rule> broken;
    for (const Finding& finding : findings) {
        if (breaks(finding)) broken = std::min(broken.value_or(rule_of(finding)), rule_of(finding));
        const bool is_new = std::ranges::find(cautions, finding.rule) == cautions.end();
        if (finding.verdict == Verdict::caution && is_new) cautions.push_back(finding.rule);
    }
    return broken;
}

// Every external gear that would be undercut gets the least shift that avoids it, in thousandths.
void shift_against_undercut(Train& train) {
    const TrainTeeth teeth = teeth_of(train);
    for (std::size_t g = 0; g < train.gears.size(); ++g) {
        if (train.gears[g].internal) continue;
        const double least = undercut_limit(teeth.gears[g].spec).least_shift;
        if (least > 0.0) train.gears[g].shift = Ratio(std::llround(std::ceil(least * 1e3)), 1000);
    }
}

bool is_undercut(int teeth, const Ratio& module_mm) {
    constexpr int kAnyPartner = 60;
    Train pair = train_of(Arrangement::pairs, {teeth, kAnyPartner});
    pair.teeth.module_mm = module_mm;
    const std::vector<Finding> findings = mesh_findings(pair, teeth_of(pair));
    const std::string pinion = name_of(pair, GearIndex{0});
    return std::ranges::any_of(findings, [&](const Finding& finding) {
        return finding.rule == "undercut" && finding.where == pinion && breaks(finding);
    });
}

// The carriers of planets, rising.
std::vector<MemberIndex> carriers_of(const Train& train) {
    std::vector<MemberIndex> carriers;
    for (const Member& member : train.members)
        if (member.rides_on != kFrame && std::ranges::find(carriers, member.rides_on) == carriers.end())
            carriers.push_back(member.rides_on);
    std::ranges::sort(carriers);
    return carriers;
}

std::vector<Ratio> equal_places(int copies) {
    std::vector<Ratio> places;
    for (int copy = 0; copy < copies; ++copy) places.push_back(rounded(Ratio(360 * copy, copies), kPlaceDecimals));
    return places;
}

// Of every carrier the places nearest to equal ones at which its copies can be put in; nothing where a copy has none
// that is exact.
std::vector<std::vector<Ratio>> suiting_places(const Train& train, int copies, const Placement& placement,
                                               const Assembly& assembly) {
    const std::vector<MemberIndex> carriers = carriers_of(train);
    std::vector<std::vector<Ratio>> places;
    for (std::size_t carrier = 0; carrier < carriers.size(); ++carrier) places.push_back(equal_places(copies));
    for (const MisplacedCopy& copy : assembly.misplaced) {
        const std::optional<Ratio> nearest_deg = nearest_place_deg(copy);
        if (!nearest_deg) return {};
        const Place& place = placement[copy.place];
        const auto carrier = std::ranges::find(carriers, train[place.member].rides_on) - carriers.begin();
        places[static_cast<std::size_t>(carrier)][static_cast<std::size_t>(place.own_copy - 1)] =
            rounded(*nearest_deg, kPlaceDecimals);
    }
    return places;
}

// Of the copies between the two central gears of a condition.
CopiesBalance balance_of(const Train& train, const Placement& placement, const AssemblyCondition& condition) {
    std::vector<Ratio> places;
    for (const Place& place : placement.places)
        if (place.member == train[condition.first_planet].member) places.push_back(place.turns_from_first);
    return couplet::balance_of(places, train[condition.first_central].teeth);
}

double least_contact_ratio(const TrainTeeth& teeth) {
    double least = std::numeric_limits<double>::infinity();
    for (const MeshSizes& mesh : teeth.meshes) least = std::min(least, mesh.active ? mesh.active->contact_ratio : 0.0);
    return least;
}

}  // namespace

Train train_of(const SearchWish& wish, const SearchRow& row) {
    Train train = train_of(wish.arrangement, row.teeth, row.copies);
    train.teeth.module_mm = wish.module_mm;
    const std::vector<std::size_t> gears = gears_by_count(wish.arrangement, row.teeth.size());
    for (std::size_t count = 0; count < row.shifts.size(); ++count)
        if (!row.shifts[count].is_zero()) train.gears[gears[count]].shift = row.shifts[count];
    if (!row.places_deg.empty()) {
        // Planets in mesh with these follow them.
        const std::vector<MemberIndex> carriers = carriers_of(train);
        for (std::size_t carrier = 0; carrier < carriers.size(); ++carrier)
            std::ranges::find(train.members, carriers[carrier], &Member::rides_on)->at_deg = row.places_deg[carrier];
    }
    set_choice(train, wish);
    return train;
}

Judge::Judge(const SearchWish& wish) : wish_(wish), places_(count_places(wish)) {}

void Judge::require_ratio(const Train& train, const Ratio& ratio) const {
    const Motion motion = solve(train, train.settings.front());
    const CentralChoice choice = choice_of(wish_);
    const std::optional<Ratio> output_turns =
        motion.outcome == Outcome::moves
            ? turns_per_driver_turn(motion, rate_on(train, motion, *find_member(train, choice.output), kFrame))
            : std::nullopt;
    if (!output_turns || *output_turns * ratio != Ratio(1))
        throw std::logic_error("the closed form of a ratio disagrees with the solver");
}

Judge::Judged Judge::judge_teeth(const std::vector<int>& counts, int copies, const Ratio& ratio) const {
    Judged judged;
    SearchRow& row = judged.row;
    row.teeth = counts;
    row.copies = copies;
    row.ratio = ratio;
    row.error_ppm = error_in_ppm(ratio, wish_.target);
    Train train = train_of(wish_, row);
    require_ratio(train, ratio);
    if (wish_.shift == ShiftUse::allowed) {
        try {
            shift_against_undercut(train);
            train = match_shifts(train).train;
        } catch (const TeethError&) {  // no shift brings the ring to its planet
            judged.broken = Rule::centre_distance;
            return judged;
        }
    }
    for (const std::size_t gear : gears_by_count(wish_.arrangement, counts.size()))
        row.shifts.push_back(train.gears[gear].shift.value_or(Ratio(0)));
    judged.teeth = teeth_of(train);
    judged.broken = broken_rule(mesh_findings(train, judged.teeth), row.cautions);
    row.contact_ratio = least_contact_ratio(judged.teeth);
    const std::vector<std::size_t>& rings = places_.rings;
    int largest = 0;
    for (std::size_t count = 0; count < counts.size(); ++count)
        if (rings.empty() || std::ranges::find(rings, count) != rings.end()) largest = std::max(largest, counts[count]);
    row.ring_diameter_mm = (Ratio(largest) * wish_.module_mm).to_double();
    row.hunting = std::ranges::all_of(
        places_.meshes, [&](const auto& mesh) { return std::gcd(counts[mesh.first], counts[mesh.second]) == 1; });
    return judged;
}

std::optional<Rule> Judge::judge_places(SearchRow& row) const {
    const Train train = train_of(wish_, row);
    const Placement placement = place_members(train, judged_.teeth);
    const Assembly assembly = assembly_of(train, judged_.teeth, placement, starting_rotations(train, placement));
    if (wish_.spacing == SpacingUse::free && row.places_deg.empty() && !assembly.misplaced.empty()) {
        row.places_deg = suiting_places(train, row.copies, placement, assembly);
        if (!row.places_deg.empty()) return judge_places(row);
    }
    for (const AssemblyCondition& condition : assembly.conditions) {
        const CopiesBalance balance = balance_of(train, placement, condition);
        row.balance.residual = std::max(row.balance.residual, balance.residual);
        row.balance.in_step = std::max(row.balance.in_step, balance.in_step);
    }
    return broken_rule(assembly.findings, row.cautions);
}

std::variant<SearchRow, Rule> Judge::judge(const std::vector<int>& counts, int copies, const Ratio& ratio) {
    if (judged_.row.teeth != counts) judged_ = judge_teeth(counts, copies, ratio);
    if (judged_.broken) return *judged_.broken;
    SearchRow row = judged_.row;
    row.copies = copies;
    const std::optional<Rule> broken = judge_places(row);
    if (broken) return *broken;
    return row;
}

int Judge::fewest_teeth_without_undercut() {
    if (fewest_teeth_) return *fewest_teeth_;
    int undercut = kFewestTeeth - 1;
    int sound = 100;  // whatever the rack: the standard one's limit is 17.1
    while (sound - undercut > 1) {
        const int middle = (undercut + sound) / 2;
        (is_undercut(middle, wish_.module_mm) ? undercut : sound) = middle;
    }
    return *(fewest_teeth_ = sound);
}

}  // namespace couplet
