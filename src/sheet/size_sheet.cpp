#include "sheet/size_sheet.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <tuple>

#include "place/copy_places.hpp"
#include "sheet/cautions.hpp"
#include "sheet/findings.hpp"
#include "sheet/matched_shifts.hpp"
#include "sheet/page.hpp"
#include "sheet/words.hpp"
#include "tooth/measure.hpp"
#include "tooth/mesh_checks.hpp"

namespace couplet {

namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;

std::string_view hand_of(double helix_rad) {
    return helix_rad == 0.0 ? "straight" : helix_rad > 0.0 ? "right" : "left";
}

std::string_view series_of(double module_mm) {
    switch (iso_54_series(module_mm)) {
        case ModuleSeries::preferred:
            return "series I";
        case ModuleSeries::second_choice:
            return "series II";
        case ModuleSeries::none:
            break;
    }
    return "not listed";
}

// Collects quantities with as little ado as each deserves.
class Quantities {
  public:
    void add(Quantity quantity) { list_.push_back(std::move(quantity)); }
    void length(std::string key, std::string label, const std::optional<double>& mm) {
        list_.push_back({std::move(key), std::move(label), "mm", measured_json(mm)});
    }
    void angle(std::string key, std::string label, double rad) {
        list_.push_back({std::move(key), std::move(label), "deg", measured_json(rad * kDegrees)});
    }
    void number(std::string key, std::string label, const std::optional<double>& value) {
        list_.push_back({std::move(key), std::move(label), "", measured_json(value)});
    }
    void other(std::string key, std::string label, Json value) {
        list_.push_back({std::move(key), std::move(label), "", std::move(value)});
    }
    [[nodiscard]] std::vector<Quantity> take() { return std::move(list_); }

  private:
    std::vector<Quantity> list_;
};

void add_measurements(Quantities& list, const GearSizes& gear) {
    const std::optional<SpanMeasurement> span = span_of(gear);
    const std::optional<PinMeasurement> pins = over_pins_of(gear);
    list.other("span_teeth", "teeth spanned by the caliper", span ? Json(span->teeth) : Json(nullptr));
    list.length("span_mm", "span measurement", span ? std::optional(span->span_mm) : std::nullopt);
    list.length("pin_mm", "pin diameter", pins ? std::optional(pins->pin_mm) : std::nullopt);
    list.length("over_pins_mm", gear.spec.internal ? "measurement between pins" : "measurement over pins",
                pins ? std::optional(pins->over_pins_mm) : std::nullopt);
}

void add_thicknesses(Quantities& list, const GearSizes& gear) {
    const double at_pitch = std::cos(gear.spec.helix_angle_rad);
    list.length("tooth_thickness_mm", "tooth thickness at the pitch circle, transverse", gear.pitch_thickness_mm);
    list.length("normal_tooth_thickness_mm", "tooth thickness at the pitch circle, normal",
                gear.pitch_thickness_mm * at_pitch);
    list.length("tip_thickness_mm", "tooth thickness at the tip", gear.tip_thickness_mm);
    const ChordalThickness chord = chordal_thickness_of(gear);
    list.length("chordal_thickness_mm", "chordal thickness", chord.chord_mm);
    list.length("chordal_height_mm", "  measured from the tip at", chord.height_mm);
}

void add_profile(Quantities& list, const GearSizes& gear, const ProfileResult& result) {
    const std::optional<ToothProfile>& profile = result.profile;
    const auto of_profile = [&](auto value) { return profile ? std::optional<double>(value(*profile)) : std::nullopt; };
    list.length("inner_form_diameter_mm", "involute begins at diameter",
                of_profile([](const ToothProfile& p) { return p.inner_form_diameter_mm(); }));
    list.length("outer_form_diameter_mm", "involute ends at diameter",
                of_profile([](const ToothProfile& p) { return p.outer_form_diameter_mm(); }));
    list.length("root_fillet_radius_mm", gear.spec.internal ? "root fillet radius" : "fillet radius of the rack",
                of_profile([](const ToothProfile& p) { return p.root_fillet_radius_mm; }));
    list.length("pointed_diameter_mm",
                gear.spec.internal ? "spaces come to a point at diameter" : "teeth come to a point at diameter",
                pointed_diameter(gear));
    if (gear.spec.internal) {
        list.other("undercut", "", nullptr);
        list.number("fewest_teeth_without_undercut", "", std::nullopt);
        list.number("least_shift_without_undercut", "", std::nullopt);
        return;
    }
    const UndercutLimit limit = undercut_limit(gear.spec);
    list.other("undercut", "undercut", profile ? Json(profile->undercut) : Json(nullptr));
    list.number("fewest_teeth_without_undercut", "fewest teeth without undercut", limit.fewest_teeth);
    list.number("undercut_margin_teeth", "  teeth above that limit", gear.spec.teeth - limit.fewest_teeth);
    list.number("least_shift_without_undercut", "least shift without undercut", limit.least_shift);
}

void add_blank(Quantities& list, const Train& train, const TrainTeeth& teeth, GearIndex index) {
    const GearSizes& gear = teeth.gears[index.position()];
    if (gear.spec.internal) {
        list.length("blank_bore_mm", "blank: bore", gear.tip_diameter_mm);
        list.length("rim_diameter_mm", "blank: outside, with the recommended rim", outer_diameter_mm(teeth, index));
    } else {
        list.length("blank_diameter_mm", "blank: outside", gear.tip_diameter_mm);
    }
    const std::optional<Ratio>& bore = train[index].bore;
    const double inch = train.teeth.diametral_pitch || train[index].spec.diametral_pitch ? 25.4 : 1.0;
    list.length("bore_mm", bore ? "bore" : "", bore ? std::optional(bore->to_double() * inch) : std::nullopt);
}

}  // namespace

std::vector<Quantity> gear_quantities(const Train& train, const TrainTeeth& teeth, GearIndex index) {
    const GearSizes& gear = teeth.gears[index.position()];
    const GearSpec& spec = gear.spec;
    Quantities list;
    list.other("gear", "", full_name(train, index));
    list.other("teeth", "teeth", spec.teeth);
    list.other("internal", "internal", spec.internal);
    list.length("module_mm", spec.helix_angle_rad == 0.0 ? "module" : "module, normal", spec.module_mm);
    list.number("shift", "profile shift x", spec.shift);
    list.length("pitch_diameter_mm", "pitch diameter", gear.pitch_diameter_mm);
    list.length("base_diameter_mm", "base diameter", gear.base_diameter_mm);
    list.length("tip_diameter_mm", "tip diameter", gear.tip_diameter_mm);
    list.length("root_diameter_mm", "root diameter", gear.root_diameter_mm);
    list.length("operating_pitch_diameter_mm", "operating pitch diameter",
                teeth.operating_diameters_mm[index.position()]);
    add_measurements(list, gear);
    add_thicknesses(list, gear);
    add_blank(list, train, teeth, index);
    list.length("face_width_mm", "face width", spec.face_width_mm);
    add_profile(list, gear, teeth.profiles[index.position()]);
    list.other("module_series", "module in ISO 54", series_of(spec.module_mm));
    list.number("diametral_pitch", "diametral pitch, per inch", 25.4 / spec.module_mm);
    list.angle("pressure_angle_deg", "pressure angle, normal", spec.rack.pressure_angle_rad);
    const bool helical = spec.helix_angle_rad != 0.0;
    list.other("hand", helical ? "hand of helix" : "", hand_of(spec.helix_angle_rad));
    list.angle("helix_angle_deg", helical ? "helix angle" : "", spec.helix_angle_rad);
    list.angle("base_helix_angle_deg", helical ? "helix angle at the base" : "", gear.base_helix_rad);
    list.length(
        "lead_mm", helical ? "lead" : "",
        helical ? std::optional(std::numbers::pi * gear.pitch_diameter_mm / std::abs(std::tan(spec.helix_angle_rad)))
                : std::nullopt);
    list.length("transverse_module_mm", helical ? "module, transverse" : "", gear.transverse_module_mm);
    list.angle("transverse_pressure_angle_deg", helical ? "pressure angle, transverse" : "", gear.transverse_angle_rad);
    list.number("addendum", "addendum, x module", spec.rack.addendum);
    list.number("dedendum", "dedendum, x module", spec.rack.dedendum);
    list.number("tip_change", "tip change k, x module", spec.tip_change);
    return list.take();
}

std::vector<Quantity> mesh_quantities(const Train& train, const TrainTeeth& teeth, MeshIndex index) {
    const Mesh& mesh = train[index];
    const MeshSizes& sizes = teeth.meshes[index.position()];
    const std::string names[2] = {name_of(train, mesh.first), name_of(train, mesh.second)};
    // The pair's first gear is the external one, whichever was written first.
    const bool swapped = external_gear_of(train, mesh) != mesh.first;
    const auto of_pair = [&](double PairSizes::*field) {
        return sizes.pair ? std::optional((*sizes.pair).*field) : std::nullopt;
    };
    Quantities list;
    const auto both = [&](const std::string& key, const std::string& label, const std::string& unit,
                          const std::optional<double>& first, const std::optional<double>& second) {
        const auto& [own, other] = swapped ? std::tie(second, first) : std::tie(first, second);
        list.add({"first_" + key, label + names[0], unit, measured_json(own)});
        list.add({"second_" + key, label + names[1], unit, measured_json(other)});
    };
    const auto degrees = [](const std::optional<double>& rad) {
        return rad ? std::optional(*rad * kDegrees) : std::nullopt;
    };
    const std::optional<double> active = sizes.active ? std::optional(sizes.active->contact_ratio) : std::nullopt;
    const std::optional<double> transverse = active ? active : of_pair(&PairSizes::transverse_contact_ratio);
    const std::optional<double> overlap = of_pair(&PairSizes::overlap_ratio);

    list.other("gears", "", Json::array({full_name(train, mesh.first), full_name(train, mesh.second)}));
    list.length("centre_distance_mm", "centre distance", of_pair(&PairSizes::centre_distance_mm));
    list.add({"operating_angle_deg", "operating pressure angle", "deg",
              measured_json(degrees(of_pair(&PairSizes::operating_angle_rad)))});
    list.number("contact_ratio", "contact ratio, transverse", transverse);
    list.number("overlap_ratio", "overlap ratio", overlap);
    list.number("total_contact_ratio", "contact ratio, total",
                transverse && overlap ? std::optional(*transverse + *overlap) : std::nullopt);
    list.length("reference_centre_distance_mm", "reference centre distance", of_pair(&PairSizes::reference_centre_mm));
    both("operating_diameter_mm", "operating pitch diameter, ", "mm", of_pair(&PairSizes::first_operating_diameter_mm),
         of_pair(&PairSizes::second_operating_diameter_mm));
    list.length("circular_backlash_mm", "backlash, circular", of_pair(&PairSizes::circular_backlash_mm));
    list.length("normal_backlash_mm", "backlash, normal", of_pair(&PairSizes::normal_backlash_mm));
    both("backlash_deg", "backlash, play of ", "deg", degrees(of_pair(&PairSizes::first_backlash_rad)),
         degrees(of_pair(&PairSizes::second_backlash_rad)));
    both("root_clearance_mm", "clearance at the root of ", "mm", of_pair(&PairSizes::first_root_clearance_mm),
         of_pair(&PairSizes::second_root_clearance_mm));
    both("sliding", "largest specific sliding, ", "", sizes.active ? sizes.active->first_sliding : std::nullopt,
         sizes.active ? sizes.active->second_sliding : std::nullopt);
    return list.take();
}

namespace {

template <class List>
std::int32_t count(const List& list) {
    return static_cast<std::int32_t>(list.size());
}

std::string mesh_name(const Train& train, const Mesh& mesh) {
    return name_of(train, mesh.first) + " with " + name_of(train, mesh.second);
}

std::string_view outcome_of(const TrainSizes& sizes) {
    return any_fails(sizes.findings) ? "fails" : "holds";
}

std::string size_json(const TrainSizes& sizes) {
    const Train& train = sizes.train;
    Json gears = Json::array();
    Json meshes = Json::array();
    for (GearIndex g{0}; g.value < count(train.gears); ++g.value)
        gears.push_back(quantities_json(gear_quantities(train, sizes.teeth, g)));
    for (MeshIndex m{0}; m.value < count(train.meshes); ++m.value)
        meshes.push_back(quantities_json(mesh_quantities(train, sizes.teeth, m)));
    return json_text({{"couplet", 1},
                      {"scene", train.title},
                      {"outcome", outcome_of(sizes)},
                      {"gears", std::move(gears)},
                      {"meshes", std::move(meshes)},
                      {"matched_shifts", sizes.shifts ? shifts_json(train, *sizes.shifts) : Json(nullptr)},
                      {"findings", findings_json(sizes.findings)},
                      {"cautions", cautions_json()}});
}

std::string size_csv(const TrainSizes& sizes) {
    const Train& train = sizes.train;
    Table list = quantities_list();
    for (GearIndex g{0}; g.value < count(train.gears); ++g.value)
        add_quantities(list, "gear", full_name(train, g), gear_quantities(train, sizes.teeth, g));
    for (MeshIndex m{0}; m.value < count(train.meshes); ++m.value)
        add_quantities(list, "mesh", mesh_name(train, train[m]), mesh_quantities(train, sizes.teeth, m));
    add_findings(list, sizes.findings);
    return csv_table(list);
}

Page size_page(const TrainSizes& sizes) {
    const Train& train = sizes.train;
    Page page;
    page.title = train.title;
    if (!train.notes.empty()) page.blocks.emplace_back(Paragraph{train.notes});
    Facts facts;
    facts.facts = {
        {"Sizes", fmt::format("{} gears and {} meshes; lengths in mm", train.gears.size(), train.meshes.size())},
        {"Outcome", fmt::format("{}: of the findings {}", outcome_of(sizes), findings_summary(sizes.findings))}};
    page.blocks.emplace_back(std::move(facts));
    if (sizes.shifts) add_shifts(page, train, *sizes.shifts);
    page.blocks.emplace_back(Heading{"Gears"});
    for (GearIndex g{0}; g.value < count(train.gears); ++g.value)
        page.blocks.emplace_back(quantities_table(name_of(train, g), gear_quantities(train, sizes.teeth, g)));
    page.blocks.emplace_back(Heading{"Meshes"});
    for (MeshIndex m{0}; m.value < count(train.meshes); ++m.value)
        page.blocks.emplace_back(quantities_table(mesh_name(train, train[m]), mesh_quantities(train, sizes.teeth, m)));
    add_findings(page, sizes.findings);
    page.blocks.emplace_back(Heading{"Cautions"});
    page.blocks.emplace_back(Bullets{{kCautions.begin(), kCautions.end()}});
    return page;
}

}  // namespace

TrainSizes train_sizes(Train train, bool match) {
    TrainSizes sizes;
    if (match) {
        MatchedTrain matched = match_shifts(train);
        sizes.train = std::move(matched.train);
        sizes.shifts = std::move(matched.shifts);
    } else {
        sizes.train = std::move(train);
    }
    sizes.teeth = teeth_of(sizes.train);
    sizes.findings = mesh_findings(sizes.train, sizes.teeth);
    return sizes;
}

std::string size_sheet(const TrainSizes& sizes, Format format) {
    switch (format) {
        case Format::json:
            return size_json(sizes);
        case Format::csv:
            return size_csv(sizes);
        case Format::md:
            return markdown_page(size_page(sizes));
        case Format::text:
            break;
    }
    return text_page(size_page(sizes));
}

}  // namespace couplet
