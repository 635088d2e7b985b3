#include "export/printable.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr double kSame_mm = 1e-6;
constexpr double kReach_mm = 0.2;        // into a shaft that sits tight
constexpr double kMostOfWall = 1.0 / 3;  // of a hollow one's
constexpr double kLeastWall_mm = 0.2;    // less cannot be printed

double outer_radius_mm(const TurnedShape& turned) {
    double outer = 0.0;
    for (const TurnedShape::Corner& corner : turned.outline) outer = std::max(outer, corner.radius_mm);
    return outer;
}

bool overlap_in_z(const Machine& machine, const Part& a, const Part& b) {
    const Extent ea = extent_of(machine.shapes[a.shape]);
    const Extent eb = extent_of(machine.shapes[b.shape]);
    return a.z_mm + ea.bottom_mm < b.z_mm + eb.top_mm && b.z_mm + eb.bottom_mm < a.z_mm + ea.top_mm;
}

bool same_axis(const Part& a, const Part& b) {
    return a.place == b.place && std::abs(a.offset_mm.x_mm - b.offset_mm.x_mm) < kSame_mm &&
           std::abs(a.offset_mm.y_mm - b.offset_mm.y_mm) < kSame_mm;
}

class Printing {
  public:
    Printing(const ExportModel& model, double clearance_mm) : model_(model), clearance_mm_(clearance_mm) {
        for (const Part& part : model.machine.parts)
            if (const auto* turned = std::get_if<TurnedShape>(&model.machine.shapes[part.shape]))
                if (part.role != PartRole::fastener) shafts_[part.place].push_back({&part, turned});
    }

    Machine machine() const {
        Machine result = model_.machine;
        std::erase_if(result.parts, [](const Part& part) { return part.role == PartRole::fastener; });
        std::vector<char> done(result.shapes.size(), 0);
        for (const Part& part : result.parts) {
            if (done[part.shape] != 0) continue;
            done[part.shape] = 1;
            std::visit([&](auto& shape) { change(shape, part); }, result.shapes[part.shape]);
        }
        return result;
    }

  private:
    struct Shaft {
        const Part* part;
        const TurnedShape* shape;
    };

    // By how much a bore of that radius grows where its part stands: less than 0 round its own member's shaft.
    double growth_mm(const Part& part, double radius_mm) const {
        const auto found = shafts_.find(part.place);
        if (found == shafts_.end()) return clearance_mm_;
        for (const Shaft& shaft : found->second) {
            if (std::abs(outer_radius_mm(*shaft.shape) - radius_mm) > kSame_mm || !same_axis(*shaft.part, part) ||
                !overlap_in_z(model_.machine, *shaft.part, part))
                continue;
            const double wall_mm = radius_mm - shaft.shape->bore_mm / 2.0;
            return -std::min(kReach_mm, kMostOfWall * wall_mm);
        }
        return clearance_mm_;
    }

    std::string owner(const Part& part) const {
        if (part.place == PlaceIndex{-1}) return "the stand";
        return fmt::format("'{}'", name_of(model_.train, model_.placement[part.place].member));
    }

    void require_room(bool has_room, const Part& part, std::string_view for_what) const {
        if (clearance_mm_ > 0.0 && !has_room)
            throw ExportRefused(
                fmt::format("{} has no room for {} with a clearance of {} mm; give a smaller "
                            "--clearance: 0.1 to 0.3 mm suit most printers",
                            owner(part), for_what, clearance_mm_));
    }

    ToothProfile thinned(const ToothProfile& profile, const Part& part) const {
        if (clearance_mm_ == 0.0) return profile;
        GearSpec spec = profile.sizes.spec;
        spec.thinning_mm += 2.0 * clearance_mm_ /
                            (std::cos(profile.sizes.transverse_angle_rad) * std::cos(profile.sizes.base_helix_rad));
        const GearSizes sizes = sizes_of(spec);
        const ProfileResult result = profile_of(sizes);
        require_room(result.profile.has_value() && sizes.tip_thickness_mm > 0.0, part, "its teeth");
        return *result.profile;
    }

    void change(GearShape& gear, const Part& part) const {
        gear.profile = thinned(gear.profile, part);
        gear.key_width_mm = 0.0;
        if (gear.bore_mm <= 0.0) return;
        gear.bore_mm += 2.0 * growth_mm(part, gear.bore_mm / 2.0);
        const double metal_mm =
            gear.web_mm > 0.0 && gear.web_mm < gear.face_width_mm ? gear.hub_mm : gear.profile.sizes.root_diameter_mm;
        require_room(gear.bore_mm / 2.0 + kLeastWall_mm < metal_mm / 2.0, part, "its bore");
    }

    void change(RingShape& ring, const Part& part) const { ring.profile = thinned(ring.profile, part); }

    void change(PlateShape& plate, const Part& part) const {
        for (Hole& hole : plate.holes) {
            const bool in_middle = std::hypot(hole.centre.x_mm, hole.centre.y_mm) < kSame_mm;
            hole.diameter_mm += 2.0 * (in_middle ? growth_mm(part, hole.diameter_mm / 2.0) : clearance_mm_);
            const bool has_room = std::ranges::none_of(plate.lobes, [&](const Hole& lobe) {
                return std::hypot(lobe.centre.x_mm - hole.centre.x_mm, lobe.centre.y_mm - hole.centre.y_mm) <
                           kSame_mm &&
                       hole.diameter_mm / 2.0 + kLeastWall_mm > lobe.diameter_mm / 2.0;
            });
            require_room(has_room, part, "its bore");
        }
    }

    void change(TurnedShape& turned, const Part& part) const {
        if (turned.bore_mm <= 0.0) return;
        const double old_mm = turned.bore_mm / 2.0;
        const double new_mm = old_mm + growth_mm(part, old_mm);
        turned.bore_mm = 2.0 * new_mm;
        for (TurnedShape::Corner& corner : turned.outline)
            if (std::abs(corner.radius_mm - old_mm) < kSame_mm) corner.radius_mm = new_mm;
        const bool has_room = std::ranges::all_of(turned.outline, [&](const TurnedShape::Corner& corner) {
            return corner.radius_mm == new_mm || corner.radius_mm > new_mm + (new_mm > old_mm ? kLeastWall_mm : 0.0);
        });
        require_room(has_room, part, "its bore");
    }

    void change(BarShape& /*bar*/, const Part& /*part*/) const {}

    const ExportModel& model_;
    double clearance_mm_;
    std::map<PlaceIndex, std::vector<Shaft>> shafts_;
};

}  // namespace

Machine printable(const ExportModel& model, double clearance_mm) {
    return Printing(model, clearance_mm).machine();
}

}  // namespace couplet
