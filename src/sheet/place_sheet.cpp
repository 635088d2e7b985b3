#include "sheet/place_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "motion/motion.hpp"
#include "sheet/cautions.hpp"
#include "sheet/findings.hpp"
#include "sheet/matched_shifts.hpp"
#include "sheet/numbers.hpp"
#include "sheet/outcome_words.hpp"
#include "sheet/page.hpp"
#include "sheet/place_words.hpp"
#include "sheet/quantity.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

Json point_json(const PlanePoint& point) {
    return Json::array({measured_json(point.x_mm), measured_json(point.y_mm)});
}

Json angle_json(const ShownAngle& angle) {
    return {{"exact", angle.exact_deg ? Json(angle.exact_deg->to_string()) : Json(nullptr)},
            {"value", measured_json(angle.value_deg)}};
}

Json angle_json(const std::optional<ShownAngle>& angle) {
    return angle ? angle_json(*angle) : Json(nullptr);
}

std::string_view drawn_name(Drawn drawn) {
    return drawn == Drawn::tooth ? "tooth" : "gap";
}

std::string_view copies_name(Copies copies) {
    return copies == Copies::alike ? "alike" : "timed each";
}

bool is_copied(const TrainPlaces& places, MemberIndex member) {
    const std::vector<int>& first = places.placement.first_place;
    return first[member.position() + 1] - first[member.position()] > 1;
}

// Where one of several copies has several gears, which tooth stands where matters: the loops close for one only.
bool is_marked(const TrainPlaces& places, MemberIndex member) {
    return is_copied(places, member) && gears_of(places.train, member).size() > 1;
}

Json members_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const Place& place : places.placement.places)
        list.push_back({{"member", name_of(places.train, place.member)},
                        {"copy", place.copy},
                        {"rides_on", name_of(places.train, rides_on(places.train, place.member))},
                        {"centre_mm", point_json(place.centre_mm)},
                        {"centre_on_carrier_mm", point_json(place.centre_on_carrier_mm)},
                        {"turn_round_centre_deg", exact_json(place.turns_from_first * Ratio(360))}});
    return list;
}

Json gears_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const GearStart& start : places.rotations.gears) {
        const Place& place = places.placement[start.place];
        list.push_back({{"gear", full_name(places.train, start.gear)},
                        {"copy", place.copy},
                        {"centre_mm", point_json(place.centre_mm)},
                        {"centre_on_carrier_mm", point_json(place.centre_on_carrier_mm)},
                        {"starting_rotation_deg", angle_json(start.starting_rotation)},
                        {"extra_turn_deg", angle_json(start.extra_turn)}});
    }
    return list;
}

Json bodies_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const BodyStart& body : places.rotations.bodies) {
        const Place& place = places.placement[body.place];
        list.push_back({{"member", name_of(places.train, place.member)},
                        {"copy", place.copy},
                        {"rotation_deg", angle_json(body.rotation)},
                        {"extra_turn_deg", angle_json(body.extra_turn)},
                        {"fits", body.fits}});
    }
    return list;
}

Json timing_marks_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const TimingMark& mark : places.rotations.timing_marks)
        list.push_back({{"gear", full_name(places.train, mark.gear)},
                        {"copy", places.placement[mark.place].copy},
                        {"relative_deg", angle_json(mark.relative)}});
    return list;
}

Json mesh_json(const TrainPlaces& places, const MeshGap& gap) {
    const PlacedMesh& placed = places.placement.meshes[gap.mesh.position()];
    const Mesh& mesh = places.train[placed.mesh];
    const bool proved = gap.verdict != MeshVerdict::no_profile;
    const auto length = [&](double mm) { return proved ? measured_json(mm) : Json(nullptr); };
    return {{"gears", Json::array({full_name(places.train, mesh.first), full_name(places.train, mesh.second)})},
            {"copy", placed.copy},
            {"gap_mm", length(gap.gap_mm)},
            {"at_driver_turns", exact_json(gap.at_driver_turns)},
            {"verdict", mesh_verdict_name(gap.verdict)},
            {"gap_ahead_mm", length(gap.ahead_mm)},
            {"gap_behind_mm", length(gap.behind_mm)},
            {"gap_elsewhere_mm", length(gap.elsewhere_mm)},
            {"expected_mm", length(gap.expected_mm)},
            {"centre_distance_mm", measured_json(placed.centre_distance_mm)},
            {"where", proved ? Json(gap_place_name(gap.where)) : Json(nullptr)},
            {"at_mm", proved ? point_json(gap.at_mm) : Json(nullptr)},
            {"at_first_gear_turns", exact_json(gap.at_first_gear_turns)},
            {"steps", gap.steps}};
}

Json conditions_json(const TrainPlaces& places) {
    const Train& train = places.train;
    Json list = Json::array();
    for (const AssemblyCondition& condition : places.assembly.conditions)
        list.push_back(
            {{"form", form_name(condition.form)},
             {"gears",
              Json::array({full_name(train, condition.first_central), full_name(train, condition.first_planet),
                           full_name(train, condition.second_planet), full_name(train, condition.second_central)})},
             {"arithmetic", condition_arithmetic(train, condition)},
             {"sum", whole_json(condition.sum)},
             {"copies", condition.copies},
             {"quotient", exact_json(condition.quotient)},
             {"holds", condition.holds},
             {"least_mesh_angle_deg", exact_json(condition.least_mesh_angle_deg)}});
    return list;
}

Json misplaced_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const MisplacedCopy& copy : places.assembly.misplaced)
        list.push_back({{"member", name_of(places.train, places.placement[copy.place].member)},
                        {"copy", places.placement[copy.place].copy},
                        {"stands_at_deg", exact_json(copy.stands_at_deg)},
                        {"misses_by_deg", angle_json(copy.misses_by)},
                        {"nearest_below_deg", angle_json(copy.below)},
                        {"nearest_above_deg", angle_json(copy.above)}});
    return list;
}

Json clearances_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const NeighbourClearance& clearance : places.assembly.clearances)
        list.push_back({{"first", place_name(places.train, places.placement, clearance.first)},
                        {"second", place_name(places.train, places.placement, clearance.second)},
                        {"clearance_mm", measured_json(clearance.clearance_mm)}});
    return list;
}

Json hunting_json(const TrainPlaces& places) {
    Json list = Json::array();
    for (const Hunting& hunting : places.assembly.hunting) {
        const Mesh& mesh = places.train[hunting.mesh];
        list.push_back(
            {{"gears", Json::array({full_name(places.train, mesh.first), full_name(places.train, mesh.second)})},
             {"phases", hunting.phases},
             {"first_turns", hunting.first_turns},
             {"second_turns", hunting.second_turns}});
    }
    return list;
}

std::string place_json(const TrainPlaces& places) {
    Json mesh_list = Json::array();
    for (const MeshGap& gap : places.proof.meshes) mesh_list.push_back(mesh_json(places, gap));
    return json_text({{"couplet", 1},
                      {"scene", places.train.title},
                      {"drawn", drawn_name(places.options.drawn)},
                      {"outcome", outcome_name(places.assembly.outcome)},
                      {"all_mesh", places.proof.all_mesh},
                      {"setting", places.setting ? Json(places.setting->name) : Json(nullptr)},
                      {"copies", copies_name(places.options.copies)},
                      {"gears", gears_json(places)},
                      {"meshes", std::move(mesh_list)},
                      {"members", members_json(places)},
                      {"bodies", bodies_json(places)},
                      {"timing_marks", timing_marks_json(places)},
                      {"conditions", conditions_json(places)},
                      {"misplaced", misplaced_json(places)},
                      {"clearances", clearances_json(places)},
                      {"hunting", hunting_json(places)},
                      {"matched_shifts", places.shifts ? shifts_json(places.train, *places.shifts) : Json(nullptr)},
                      {"findings", findings_json(findings_of(places))},
                      {"cautions", cautions_json()}});
}

const Column kMember{"part", "", Align::left};
const Column kTurnRound{"turn round centre", "deg", Align::right};

Table positions_table(const TrainPlaces& places) {
    Table table;
    table.columns = {kMember,
                     {"rides on", "", Align::left},
                     {"x there", "mm", Align::right},
                     {"y there", "mm", Align::right},
                     {"x", "mm", Align::right},
                     {"y", "mm", Align::right}};
    for (std::int32_t p = 0; p < static_cast<std::int32_t>(places.placement.places.size()); ++p) {
        const Place& place = places.placement[{p}];
        table.rows.push_back(
            {place_name(places.train, places.placement, {p}),
             place.under.value < 0 ? std::string("frame") : place_name(places.train, places.placement, place.under),
             measured_cell(place.centre_on_carrier_mm.x_mm, "mm"), measured_cell(place.centre_on_carrier_mm.y_mm, "mm"),
             measured_cell(place.centre_mm.x_mm, "mm"), measured_cell(place.centre_mm.y_mm, "mm")});
    }
    return table;
}

Table copies_table(const TrainPlaces& places) {
    Table table;
    table.columns = {kMember, kTurnRound, {"then on its own axis", "deg", Align::right}};
    for (const BodyStart& body : places.rotations.bodies) {
        const Place& place = places.placement[body.place];
        if (place.copy == 1 || !is_copied(places, place.member)) continue;
        table.rows.push_back({place_name(places.train, places.placement, body.place),
                              decimal_cell(place.turns_from_first * Ratio(360)), angle_cell(body.extra_turn)});
    }
    return table;
}

Table rotations_table(const TrainPlaces& places) {
    Table table;
    table.columns = {{"gear", "", Align::left},
                     {"teeth", "", Align::right},
                     {"TYPE turn", "deg", Align::right},
                     {"extra turn of a copy", "deg", Align::right}};
    for (const GearStart& start : places.rotations.gears)
        table.rows.push_back({gear_place_name(places.train, places.placement, start.gear, start.place),
                              std::to_string(places.train[start.gear].teeth), angle_cell(start.starting_rotation),
                              angle_cell(start.extra_turn)});
    return table;
}

Table marks_table(const TrainPlaces& places) {
    Table table;
    table.columns = {kMember, {"mark points to", "deg", Align::right}, {"fits", "", Align::left}};
    for (const BodyStart& body : places.rotations.bodies)
        if (is_marked(places, places.placement[body.place].member))
            table.rows.push_back({place_name(places.train, places.placement, body.place), angle_cell(body.rotation),
                                  body.fits ? "yes" : "NO"});
    return table;
}

Table relative_table(const TrainPlaces& places) {
    Table table;
    table.columns = {{"gear", "", Align::left}, {"turned on its body by", "deg", Align::right}};
    for (const TimingMark& mark : places.rotations.timing_marks)
        table.rows.push_back(
            {gear_place_name(places.train, places.placement, mark.gear, mark.place), angle_cell(mark.relative)});
    return table;
}

Table proof_table(const TrainPlaces& places) {
    Table table;
    table.columns = {
        {"mesh", "", Align::left},         {"gap ahead", "mm", Align::right}, {"gap behind", "mm", Align::right},
        {"elsewhere", "mm", Align::right}, {"expected", "mm", Align::right},  {"smallest", "", Align::left},
        {"at x", "mm", Align::right},      {"at y", "mm", Align::right},      {"when", "driver turns", Align::right},
        {"verdict", "", Align::left}};
    const auto length = [](double mm) { return Cell(fmt::format("{}", mm), fmt::format("{:.4f}", mm)); };
    for (const MeshGap& gap : places.proof.meshes) {
        const std::string mesh =
            mesh_place_name(places.train, places.placement, places.placement.meshes[gap.mesh.position()]);
        const std::string verdict(mesh_verdict_name(gap.verdict));
        if (gap.verdict == MeshVerdict::no_profile)
            table.rows.push_back({mesh, "", "", "", "", "", "", "", "", verdict});
        else
            table.rows.push_back({mesh, length(gap.ahead_mm), length(gap.behind_mm), length(gap.elsewhere_mm),
                                  length(gap.expected_mm), std::string(gap_place_name(gap.where)),
                                  measured_cell(gap.at_mm.x_mm, "mm"), measured_cell(gap.at_mm.y_mm, "mm"),
                                  gap.at_driver_turns ? fraction_cell(*gap.at_driver_turns) : Cell("", "none"),
                                  verdict});
    }
    return table;
}

Table clearance_table(const TrainPlaces& places) {
    Table table;
    table.columns = {{"closest neighbours", "", Align::left}, {"between tip circles", "mm", Align::right}};
    for (const NeighbourClearance& clearance : places.assembly.clearances)
        table.rows.push_back({place_name(places.train, places.placement, clearance.first) + " and " +
                                  place_name(places.train, places.placement, clearance.second),
                              measured_cell(clearance.clearance_mm, "mm")});
    return table;
}

void add_section(Page& page, std::string heading, std::string hint, Table table) {
    if (table.rows.empty()) return;
    page.blocks.emplace_back(Heading{std::move(heading)});
    if (!hint.empty()) page.blocks.emplace_back(Paragraph{std::move(hint)});
    page.blocks.emplace_back(std::move(table));
}

template <class Entry, class Say>
void add_bullets(Page& page, std::string heading, const std::vector<Entry>& entries, Say say) {
    if (entries.empty()) return;
    Bullets bullets;
    for (const Entry& entry : entries) bullets.items.push_back(say(entry));
    page.blocks.emplace_back(Heading{std::move(heading)});
    page.blocks.emplace_back(std::move(bullets));
}

Facts place_facts(const TrainPlaces& places) {
    Facts facts;
    facts.facts.push_back({"Gears as drawn", fmt::format("a {} on +X", drawn_name(places.options.drawn))});
    facts.facts.push_back({"Outcome", std::string(outcome_name(places.assembly.outcome))});
    facts.facts.push_back({"Proof of mesh", places.proof.all_mesh ? "every mesh stands in the middle of its gaps"
                                                                  : "NOT every mesh is right: see below"});
    if (places.setting) facts.facts.push_back({"Setting", places.setting->name});
    if (places.motion && places.motion->outcome != Outcome::moves)
        facts.facts.push_back({"Motion", outcome_line(*places.motion) + "; no instants by the driver's turns"});
    return facts;
}

void add_assembly(Page& page, const TrainPlaces& places) {
    const Train& train = places.train;
    const Assembly& assembly = places.assembly;
    add_bullets(page, "Assembly arithmetic", assembly.conditions,
                [&](const AssemblyCondition& condition) { return condition_text(train, condition); });
    add_bullets(page, "Copies that do not fit where they stand", assembly.misplaced,
                [&](const MisplacedCopy& copy) { return misplaced_text(train, places.placement, copy); });
    add_section(page, "Room between neighbours", "", clearance_table(places));
    add_section(page, "Proof of mesh: the smallest gaps through one full mesh cycle",
                "Expected is half of the normal backlash on either side. Ahead is counter-clockwise of the first "
                "gear's teeth; elsewhere are tips, fillets and roots.",
                proof_table(places));
    add_bullets(page, "Which teeth meet again", assembly.hunting,
                [&](const Hunting& hunting) { return hunting_text(train, hunting); });
}

Page place_page(const TrainPlaces& places) {
    Page page;
    page.title = places.train.title;
    if (!places.train.notes.empty()) page.blocks.emplace_back(Paragraph{places.train.notes});
    page.blocks.emplace_back(place_facts(places));
    if (places.shifts) add_shifts(page, places.train, *places.shifts);
    add_places(page, places);
    add_assembly(page, places);
    add_findings(page, findings_of(places));
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return page;
}

std::string place_csv(const TrainPlaces& places) {
    Table table;
    table.columns = {{"gear", "", Align::left},
                     {"copy", "", Align::right},
                     {"x", "mm", Align::right},
                     {"y", "mm", Align::right},
                     {"x on carrier", "mm", Align::right},
                     {"y on carrier", "mm", Align::right},
                     kTurnRound,
                     {"starting rotation", "deg", Align::right},
                     {"extra turn", "deg", Align::right}};
    for (const GearStart& start : places.rotations.gears) {
        const Place& place = places.placement[start.place];
        table.rows.push_back(
            {name_of(places.train, start.gear), std::to_string(place.copy), measured_cell(place.centre_mm.x_mm, "mm"),
             measured_cell(place.centre_mm.y_mm, "mm"), measured_cell(place.centre_on_carrier_mm.x_mm, "mm"),
             measured_cell(place.centre_on_carrier_mm.y_mm, "mm"), decimal_cell(place.turns_from_first * Ratio(360)),
             angle_cell(start.starting_rotation), angle_cell(start.extra_turn)});
    }
    return csv_table(table);
}

}  // namespace

void add_places(Page& page, const TrainPlaces& places) {
    add_section(page, "1. Positions of the axes",
                "'there' is the frame of what the part rides on, as it stands before motion starts.",
                positions_table(places));
    add_section(page, "2. Starting rotations",
                "Turn each gear by this, counter-clockwise seen from +Z, from how it is drawn. Whole teeth more do "
                "as well, but not for a copy with several gears: its mark is in 4.",
                rotations_table(places));
    add_section(page, "3. Copies: rotate the first one round the centre",
                "A part that was copied and rotated round the centre has turned with the copy; what is left to turn "
                "it on its own axis is this.",
                copies_table(places));
    add_section(page, "4. Timing marks of copies with several gears",
                "Mark what each gear of the part has on +X as drawn. In the start pose the mark points this way; with "
                "another tooth in its place the second gear would not mesh.",
                marks_table(places));
    add_section(page, "Gears that do not stand in line on their body", "", relative_table(places));
}

TrainPlaces train_places(Train train, bool match, const StartOptions& options, const std::optional<Setting>& setting) {
    TrainPlaces places;
    if (match) {
        MatchedTrain matched = match_shifts(train);
        places.train = std::move(matched.train);
        places.shifts = std::move(matched.shifts);
    } else {
        places.train = std::move(train);
    }
    places.options = options;
    places.setting = setting;
    places.teeth = teeth_of(places.train);
    places.placement = place_members(places.train, places.teeth);
    places.rotations = starting_rotations(places.train, places.placement, options);
    places.assembly = assembly_of(places.train, places.teeth, places.placement, places.rotations);
    if (setting) places.motion = solve(places.train, *setting);
    places.proof = prove_mesh(places.train, places.teeth, places.placement, places.rotations,
                              places.motion ? &*places.motion : nullptr);
    return places;
}

std::vector<Finding> findings_of(const TrainPlaces& places) {
    std::vector<Finding> findings = places.assembly.findings;
    const std::vector<Finding> suiting = suiting_copies(places.train, places.placement, places.rotations);
    findings.insert(findings.end(), suiting.begin(), suiting.end());
    findings.insert(findings.end(), places.proof.findings.begin(), places.proof.findings.end());
    return findings;
}

bool meshes(const TrainPlaces& places) {
    return places.assembly.outcome == AssemblyOutcome::assembles && !any_fails(places.proof.findings);
}

std::string place_sheet(const TrainPlaces& places, Format format) {
    switch (format) {
        case Format::json:
            return place_json(places);
        case Format::csv:
            return place_csv(places);
        case Format::md:
            return markdown_page(place_page(places));
        case Format::text:
            break;
    }
    return text_page(place_page(places));
}

}  // namespace couplet
