#include "sheet/drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "place/copy_places.hpp"
#include "place/placement.hpp"
#include "place/starting_rotation.hpp"
#include "sheet/paper.hpp"
#include "sheet/place_words.hpp"
#include "sheet/quantity.hpp"
#include "sheet/size_sheet.hpp"
#include "tooth/measure.hpp"

namespace couplet {

namespace {

constexpr double kDegrees = 180.0 / std::numbers::pi;
constexpr double kLeft_mm = 12.0;
constexpr std::size_t kLongestLabel = 30;
constexpr std::size_t kLongestTitle = 70;

// What fits beside a drawing.
std::string cut(const std::string& text, std::size_t most) {
    if (display_width(text) <= most) return text;
    std::string kept = text;
    while (display_width(kept) > most - 3) kept.pop_back();
    while (!kept.empty() && (static_cast<unsigned char>(kept.back()) & 0xC0U) == 0x80U) kept.pop_back();
    if (!kept.empty() && static_cast<unsigned char>(kept.back()) >= 0xC0U) kept.pop_back();
    return kept + "...";
}

std::string shape_id(GearIndex gear) {
    return fmt::format("gear{}", gear.value);
}

PlanePoint beside(const PlanePoint& centre, double radius_mm, double direction_rad) {
    return {centre.x_mm + radius_mm * std::cos(direction_rad), centre.y_mm - radius_mm * std::sin(direction_rad)};
}

class Drawing {
  public:
    Drawing(const Train& train, const TrainTeeth& teeth)
        : train_(train),
          teeth_(teeth),
          placement_(place_members(train, teeth)),
          rotations_(starting_rotations(train, placement_)) {}

    std::string run() {
        const auto gears = static_cast<std::int32_t>(train_.gears.size());
        for (GearIndex gear{0}; gear.value < gears; ++gear.value) define(gear);
        draw_assembly();
        for (GearIndex gear{0}; gear.value < gears; ++gear.value) draw_gear(gear);
        return paper_.document(1 + (gears + kGearsOnSheet - 1) / kGearsOnSheet);
    }

  private:
    static constexpr int kGearsOnSheet = 2;
    static constexpr double kGearRoom_mm = 112.0;

    [[nodiscard]] const GearSizes& sizes(GearIndex gear) const { return teeth_.gears[gear.position()]; }

    [[nodiscard]] double gear_scale(GearIndex gear) const {
        return scale_into(outer_diameter_mm(teeth_, gear), kGearRoom_mm);
    }

    void define(GearIndex gear) {
        const GearSizes& size = sizes(gear);
        const double module_mm = size.spec.module_mm;
        const double scale = gear_scale(gear);
        // Finer teeth than this are a grey ring on paper.
        constexpr double kFinestModule_mm = 0.08;
        const std::optional<ToothProfile>& profile = teeth_.profiles[gear.position()].profile;
        const double tolerance_mm = std::max(0.001 * module_mm, 0.005 / scale);
        std::string path = profile && module_mm * scale >= kFinestModule_mm
                               ? polygon_path(gear_polygon(*profile, tolerance_mm))
                               : circle_path(std::max(size.tip_diameter_mm, 0.0) / 2.0);
        if (size.spec.internal)
            path += circle_path(outer_diameter_mm(teeth_, gear) / 2.0);
        else if (const double bore = bore_mm(gear); bore > 0.0)
            path += circle_path(bore / 2.0);
        paper_.define(shape_id(gear), path);
    }

    [[nodiscard]] double bore_mm(GearIndex gear) const {
        for (const Quantity& quantity : gear_quantities(train_, teeth_, gear))
            if (quantity.key == "bore_mm" && quantity.value.is_number()) return quantity.value.get<double>();
        return 0.0;
    }

    // The train on the first sheet.

    struct Picture {
        double scale;
        PlanePoint middle_mm;  // of the train
        PlanePoint at_mm;      // where that is on paper
        [[nodiscard]] PlanePoint on_paper(const PlanePoint& p) const {
            return {at_mm.x_mm + (p.x_mm - middle_mm.x_mm) * scale, at_mm.y_mm - (p.y_mm - middle_mm.y_mm) * scale};
        }
    };

    [[nodiscard]] Picture picture() const {
        constexpr double kWidth_mm = 124.0;
        constexpr double kHeight_mm = 176.0;
        double low_x = 0.0, high_x = 0.0, low_y = 0.0, high_y = 0.0;
        bool begins = true;
        for (const GearStart& start : rotations_.gears) {
            const PlanePoint& centre = placement_[start.place].centre_mm;
            const double reach = outer_diameter_mm(teeth_, start.gear) / 2.0;
            low_x = begins ? centre.x_mm - reach : std::min(low_x, centre.x_mm - reach);
            high_x = begins ? centre.x_mm + reach : std::max(high_x, centre.x_mm + reach);
            low_y = begins ? centre.y_mm - reach : std::min(low_y, centre.y_mm - reach);
            high_y = begins ? centre.y_mm + reach : std::max(high_y, centre.y_mm + reach);
            begins = false;
        }
        const double scale =
            begins ? 1.0 : std::min(scale_into(high_x - low_x, kWidth_mm), scale_into(high_y - low_y, kHeight_mm));
        return {scale,
                {(low_x + high_x) / 2.0, (low_y + high_y) / 2.0},
                {kLeft_mm + kWidth_mm / 2.0, 30.0 + kHeight_mm / 2.0}};
    }

    void draw_assembly() {
        const Picture view = picture();
        paper_.frame(0);
        paper_.text({kLeft_mm, 16.0}, cut(train_.title, 50), 5.5, true);
        paper_.text({kLeft_mm, 22.5},
                    fmt::format("The train in its start pose, scale {}; a tooth of every gear is drawn on +X, then "
                                "turned as told.",
                                scale_text(view.scale)));
        draw_carriers(view);
        std::vector<const GearStart*> order;
        for (const GearStart& start : rotations_.gears) order.push_back(&start);
        std::ranges::stable_sort(order, std::greater{}, [&](const GearStart* start) {
            return std::pair(sizes(start->gear).spec.internal, outer_diameter_mm(teeth_, start->gear));
        });
        for (const GearStart* start : order)
            paper_.put(shape_id(start->gear), view.on_paper(placement_[start->place].centre_mm), view.scale,
                       360.0 * start->tooth.value(placement_.direction_turns));
        for (const BodyStart& body : rotations_.bodies)
            paper_.cross(view.on_paper(placement_[body.place].centre_mm), 3.0);
        paper_.callouts(assembly_callouts(view), {150.0, 34.0, 206.0, 10.5});
        list_meshes();
    }

    void draw_carriers(const Picture& view) {
        for (const Place& place : placement_.places) {
            if (place.under.value < 0) continue;
            const PlanePoint& carrier = placement_[place.under].centre_mm;
            paper_.line({view.on_paper(carrier), view.on_paper(place.centre_mm)}, 0.25, "2 1");
        }
    }

    // Just inside the rim of the first copy of each gear.
    [[nodiscard]] std::vector<Callout> assembly_callouts(const Picture& view) const {
        std::vector<Callout> callouts;
        const auto gears = static_cast<double>(train_.gears.size());
        for (const GearStart& start : rotations_.gears) {
            if (placement_[start.place].copy != 1) continue;
            const GearSizes& size = sizes(start.gear);
            const double rim = size.spec.internal
                                   ? (size.root_diameter_mm + outer_diameter_mm(teeth_, start.gear)) / 4.0
                                   : 0.46 * size.root_diameter_mm;
            const double direction = (60.0 - 120.0 * (start.gear.value + 0.5) / gears) / kDegrees;
            const std::string turn = angle_cell(start.starting_rotation).shown;
            callouts.push_back({beside(view.on_paper(placement_[start.place].centre_mm), rim * view.scale, direction),
                                cut(gear_place_name(train_, placement_, start.gear, start.place), kLongestLabel),
                                cut(fmt::format("{} teeth, turned {} deg", size.spec.teeth, turn), kLongestLabel + 2)});
        }
        return callouts;
    }

    void list_meshes() {
        constexpr double kTop_mm = 220.0;
        constexpr double kLine_mm = 5.2;
        constexpr std::size_t kMostLines = 12;
        paper_.text({kLeft_mm, kTop_mm}, "Centre distances in mm", Paper::kText_mm, true);
        const std::size_t shown = train_.meshes.size() > kMostLines ? kMostLines - 1 : train_.meshes.size();
        double y = kTop_mm;
        for (std::size_t m = 0; m < shown; ++m) {
            const Mesh& mesh = train_.meshes[m];
            const std::optional<PairSizes>& pair = teeth_.meshes[m].pair;
            y += kLine_mm;
            paper_.text({kLeft_mm, y},
                        cut(name_of(train_, mesh.first) + " with " + name_of(train_, mesh.second), kLongestTitle));
            paper_.text({165.0, y}, pair ? fmt::format("{:.3f}", pair->centre_distance_mm) : "none");
        }
        if (shown < train_.meshes.size())
            paper_.text({kLeft_mm, y + kLine_mm}, fmt::format("and {} more", train_.meshes.size() - shown));
    }

    // One gear on half a sheet.

    void draw_gear(GearIndex gear) {
        const int sheet = 1 + gear.value / kGearsOnSheet;
        const bool upper = gear.value % kGearsOnSheet == 0;
        const double top = sheet * kSheetHeight_mm + (upper ? 10.0 : 150.0);
        if (upper) paper_.frame(sheet);
        const double scale = gear_scale(gear);
        const PlanePoint centre{kLeft_mm + kGearRoom_mm / 2.0, top + 14.0 + kGearRoom_mm / 2.0};
        paper_.text({kLeft_mm, top + 6.0},
                    fmt::format("{}: {} teeth, scale {}", cut(name_of(train_, gear), kLongestTitle),
                                sizes(gear).spec.teeth, scale_text(scale)),
                    4.5, true);
        paper_.put(shape_id(gear), centre, scale, 0.0);
        paper_.cross(centre, outer_diameter_mm(teeth_, gear) / 2.0 * scale + 3.0);
        draw_diameters(gear, centre, scale, top);
        list_data(gear, top + 84.0);
    }

    struct Diameter {
        std::string name;
        double mm;
        std::string dashes;
    };

    [[nodiscard]] std::vector<Diameter> diameters(GearIndex gear) const {
        const GearSizes& size = sizes(gear);
        const std::optional<double>& operating = teeth_.operating_diameters_mm[gear.position()];
        std::vector<Diameter> list = {{"tip", size.tip_diameter_mm, "0.4 0.9"},
                                      {"pitch", size.pitch_diameter_mm, "4 0.8 0.6 0.8"},
                                      {"base", size.base_diameter_mm, "1.4 0.9"},
                                      {"root", size.root_diameter_mm, "0.4 0.9"}};
        if (operating && std::abs(*operating - size.pitch_diameter_mm) > 5e-4)
            list.push_back({"operating pitch", *operating, "2.5 0.7"});
        if (size.spec.internal) list.push_back({"rim", outer_diameter_mm(teeth_, gear), ""});
        if (const double bore = bore_mm(gear); bore > 0.0) list.push_back({"bore", bore, ""});
        std::erase_if(list, [](const Diameter& diameter) { return !(diameter.mm > 0.0); });
        std::ranges::stable_sort(list, std::greater{}, &Diameter::mm);
        return list;
    }

    void draw_diameters(GearIndex gear, const PlanePoint& centre, double scale, double top) {
        const std::vector<Diameter> list = diameters(gear);
        std::vector<Callout> callouts;
        for (std::size_t i = 0; i < list.size(); ++i) {
            const double radius = list[i].mm / 2.0 * scale;
            const double direction = (62.0 - 14.0 * static_cast<double>(i)) / kDegrees;
            paper_.circle(centre, radius, 0.13, list[i].dashes);
            callouts.push_back(
                {beside(centre, radius, direction), fmt::format("{} {:.3f} mm", list[i].name, list[i].mm), ""});
        }
        paper_.callouts(std::move(callouts), {144.0, top + 14.0, top + 78.0, 7.0});
    }

    void list_data(GearIndex gear, double y) {
        const GearSizes& size = sizes(gear);
        std::vector<std::string> lines = {
            fmt::format("module {} mm", measured_cell(size.spec.module_mm, "").shown),
            fmt::format("pressure angle {} deg", measured_cell(size.spec.rack.pressure_angle_rad * kDegrees, "").shown),
            fmt::format("profile shift {}", measured_cell(size.spec.shift, "").shown)};
        if (size.spec.helix_angle_rad != 0.0)
            lines.push_back(fmt::format("helix {} deg, {}-handed",
                                        measured_cell(std::abs(size.spec.helix_angle_rad) * kDegrees, "").shown,
                                        size.spec.helix_angle_rad > 0.0 ? "right" : "left"));
        if (const auto span = span_of(size))
            lines.push_back(fmt::format("span over {}: {:.3f} mm", span->teeth, span->span_mm));
        if (const auto pins = over_pins_of(size)) {
            lines.push_back(
                fmt::format("{} pins of {:.3f} mm:", size.spec.internal ? "between" : "over", pins->pin_mm));
            lines.push_back(fmt::format("  {:.3f} mm", pins->over_pins_mm));
        }
        lines.push_back(fmt::format("face width {} mm", measured_cell(size.spec.face_width_mm, "").shown));
        for (const std::string& words : lines) {
            paper_.text({144.0, y}, words);
            y += 5.2;
        }
    }

    const Train& train_;
    const TrainTeeth& teeth_;
    Placement placement_;
    StartingRotations rotations_;
    Paper paper_;
};

}  // namespace

std::string size_drawing(const Train& train, const TrainTeeth& teeth) {
    return Drawing(train, teeth).run();
}

}  // namespace couplet
