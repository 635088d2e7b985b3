#include "export/flat_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numbers>

#include "export/plain_names.hpp"
#include "place/copy_places.hpp"
#include "sheet/words.hpp"
#include "solid/anatomy.hpp"

namespace couplet {

namespace {

constexpr double kMmPerInch = 25.4;

// Gears of one kind share their chain: copies are drawn from one fit.
class FlatGears {
  public:
    FlatGears(const ExportModel& model, double tolerance_mm) : model_(model), tolerance_mm_(tolerance_mm) {}

    FlatGear gear(GearIndex index, double turned_rad, const PlanePoint& at) {
        FlatGear gear{turned_and_moved(arcs_of(index), turned_rad, at), at, std::nullopt, 0.0};
        gear.reach_mm = outer_diameter_mm(model_.teeth, index) / 2.0;
        if (model_.train[index].internal)
            gear.circle_mm = outer_diameter_mm(model_.teeth, index);
        else if (model_.train[index].bore)
            gear.circle_mm = most_bore_mm(model_.train, model_.teeth, index);
        return gear;
    }

  private:
    const ArcLoop& arcs_of(GearIndex index) {
        const auto [known, is_new] = arcs_.try_emplace(index);
        if (!is_new) return known->second;
        const std::optional<ToothProfile>& profile = model_.teeth.profiles[index.position()].profile;
        if (!profile)
            throw ExportRefused(
                fmt::format("the teeth of '{0}' cannot be made, so there is no profile to draw; 'couplet size' says "
                            "what would mend them",
                            name_of(model_.train, index)));
        known->second = gear_arcs(*profile, tolerance_mm_);
        return known->second;
    }

    const ExportModel& model_;
    double tolerance_mm_;
    std::map<GearIndex, ArcLoop> arcs_;
};

// A few names mean something to programs: what lies on "defpoints" is not printed.
std::vector<std::string> layer_names(const Train& train) {
    std::vector<std::string> names = {"defpoints"};
    for (const Member& member : train.members) names.push_back(member.name);
    names = plain_names(names);
    names.erase(names.begin());
    return names;
}

void draw_in_place(const ExportModel& model, MemberIndex member, FlatGears& gears, FlatLayer& layer) {
    const std::vector<int>& first = model.placement.first_place;
    for (PlaceIndex place{first[member.position()]}; place.value < first[member.position() + 1]; ++place.value) {
        const PlanePoint& at = model.placement[place].centre_mm;
        layer.axes.push_back(at);
        for (const GearIndex gear : gears_of(model.train, member)) {
            const double turns = model.rotations.of(gear, place).tooth.value(model.placement.direction_turns);
            layer.gears.push_back(gears.gear(gear, 2.0 * std::numbers::pi * turns, at));
        }
    }
}

void draw_at_origin(const ExportModel& model, MemberIndex member, FlatGears& gears, FlatLayer& layer) {
    layer.axes.push_back({0.0, 0.0});
    for (const GearIndex gear : gears_of(model.train, member)) layer.gears.push_back(gears.gear(gear, 0.0, {0.0, 0.0}));
}

}  // namespace

std::vector<FlatLayer> flat_drawing(const ExportModel& model, const FlatOptions& options) {
    FlatGears gears(model, options.tolerance_mm);
    const std::vector<std::string> names = layer_names(model.train);
    std::vector<FlatLayer> layers;
    layers.reserve(names.size());
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(names.size()); ++m) {
        layers.push_back({names[static_cast<std::size_t>(m)], {}, {}});
        const auto draw = options.at == DrawnAt::place ? draw_in_place : draw_at_origin;
        draw(model, {m}, gears, layers.back());
    }
    return layers;
}

FlatBox box_of(const std::vector<FlatLayer>& layers) {
    std::optional<FlatBox> box;
    const auto take = [&](const PlanePoint& at, double reach_mm) {
        if (!box) box = {at, at};
        box->low = {std::min(box->low.x_mm, at.x_mm - reach_mm), std::min(box->low.y_mm, at.y_mm - reach_mm)};
        box->high = {std::max(box->high.x_mm, at.x_mm + reach_mm), std::max(box->high.y_mm, at.y_mm + reach_mm)};
    };
    for (const FlatLayer& layer : layers) {
        for (const PlanePoint& axis : layer.axes) take(axis, 0.0);
        for (const FlatGear& gear : layer.gears) take(gear.centre, gear.reach_mm);
    }
    return box.value_or(FlatBox{{0.0, 0.0}, {0.0, 0.0}});
}

std::string length_text(double mm, LengthUnit unit) {
    std::string text = fmt::format("{:.9f}", unit == LengthUnit::inch ? mm / kMmPerInch : mm);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text += '0';
    return text == "-0.0" ? "0.0" : text;
}

}  // namespace couplet
