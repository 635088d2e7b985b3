// Machine bands: the parts of a machine as solids of revolution in the start pose, for tests.
//
// Worked out from the shapes' own numbers, apart from what the machine's builder believes of them.
#pragma once

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "place/placed_train.hpp"
#include "scene/scene.hpp"
#include "scene/scene_folder.hpp"
#include "solid/machine.hpp"

namespace couplet {

struct MachineOf {
    PlacedTrain placed;
    Machine machine;
};

[[nodiscard]] inline MachineOf machine_for(Train train) {
    MachineOf result{placed(std::move(train)), {}};
    const PlacedTrain& set = result.placed;
    result.machine = machine_of(set.train, set.teeth, set.placement, set.rotations);
    return result;
}

[[nodiscard]] inline MachineOf machine_of_scene(const std::filesystem::path& path) {
    return machine_for(read_scene(load_scene_text(path), path.filename().string()));
}

struct PartBand {
    PlanePoint centre;
    double inner_mm;
    double outer_mm;
    double bottom_mm;
    double top_mm;
};

struct ShapeBand {
    double inner_mm;
    double outer_mm;
    double bottom_mm;
    double top_mm;
};

// A turned part gives a band for each of its steps, everything else one.
[[nodiscard]] inline std::vector<ShapeBand> bands_of(const Shape& shape) {
    if (const auto* gear = std::get_if<GearShape>(&shape))
        return {{gear->bore_mm / 2.0, gear->profile.sizes.tip_diameter_mm / 2.0, 0.0, gear->face_width_mm}};
    if (const auto* ring = std::get_if<RingShape>(&shape))
        return {{ring->profile.sizes.tip_diameter_mm / 2.0, ring->outside_mm / 2.0, 0.0, ring->face_width_mm}};
    if (const auto* plate = std::get_if<PlateShape>(&shape)) {
        ShapeBand band{0.0, 0.0, 0.0, plate->thickness_mm};
        for (const Hole& lobe : plate->lobes)
            band.outer_mm =
                std::max(band.outer_mm, std::hypot(lobe.centre.x_mm, lobe.centre.y_mm) + lobe.diameter_mm / 2.0);
        for (const Hole& hole : plate->holes)
            if (std::hypot(hole.centre.x_mm, hole.centre.y_mm) == 0.0) band.inner_mm = hole.diameter_mm / 2.0;
        return {band};
    }
    if (const auto* turned = std::get_if<TurnedShape>(&shape)) {
        std::vector<ShapeBand> bands;
        for (std::size_t i = 1; i < turned->outline.size(); ++i) {
            const TurnedShape::Corner& low = turned->outline[i - 1];
            const TurnedShape::Corner& high = turned->outline[i];
            if (high.z_mm > low.z_mm)
                bands.push_back({turned->bore_mm / 2.0, std::max(low.radius_mm, high.radius_mm), low.z_mm, high.z_mm});
        }
        return bands;
    }
    const auto& bar = std::get<BarShape>(shape);
    return {{bar.from_mm[0], std::hypot(bar.to_mm[0], bar.to_mm[1]), bar.from_mm[2], bar.to_mm[2]}};
}

[[nodiscard]] inline std::vector<PartBand> bands_of(const Placement& placement, const Machine& machine,
                                                    const Part& part) {
    PlanePoint centre = part.offset_mm;
    if (part.place.value >= 0) {
        centre.x_mm += placement[part.place].centre_mm.x_mm;
        centre.y_mm += placement[part.place].centre_mm.y_mm;
    }
    std::vector<PartBand> bands;
    for (const ShapeBand& band : bands_of(machine.shapes[part.shape]))
        bands.push_back({centre, band.inner_mm, band.outer_mm, part.z_mm + band.bottom_mm, part.z_mm + band.top_mm});
    return bands;
}

[[nodiscard]] inline bool meet(const PartBand& a, const PartBand& b) {
    constexpr double kTouching_mm = 1e-5;
    const double away = std::hypot(a.centre.x_mm - b.centre.x_mm, a.centre.y_mm - b.centre.y_mm);
    return a.bottom_mm < b.top_mm - kTouching_mm && b.bottom_mm < a.top_mm - kTouching_mm &&
           away < a.outer_mm + b.outer_mm - kTouching_mm && away + a.outer_mm > b.inner_mm + kTouching_mm &&
           away + b.outer_mm > a.inner_mm + kTouching_mm;
}

[[nodiscard]] inline bool are_in_mesh(const Train& train, GearIndex a, GearIndex b) {
    return std::ranges::any_of(train.meshes, [&](const Mesh& mesh) {
        return (mesh.first == a && mesh.second == b) || (mesh.first == b && mesh.second == a);
    });
}

}  // namespace couplet
