#include "scene/read.hpp"

namespace couplet {

namespace {

using namespace std::string_view_literals;

constexpr std::array kShotKeys = {"at"sv, "azimuth"sv, "elevation"sv, "zoom"sv, "look_at"sv};
constexpr TableForm kShotForm{"[[shot]]", kShotKeys};

void read_shot(SceneReading& scene, const TableReader& table, Shot& shot) {
    if (table.find("at") == nullptr)
        table.refuse_missing("at", "say at which part of the clip, from 0 to 1, the view is this one");
    shot.at = table.number("at", kPartLimits).value_or(Ratio());
    shot.azimuth_deg = table.number("azimuth", kDegrees);
    shot.elevation_deg = table.number("elevation", kElevationLimits);
    shot.zoom = table.number("zoom", kZoomLimits);
    shot.look_at = member_under(scene, table, "look_at");
}

}  // namespace

void read_shots(SceneReading& scene, const TableReader& root) {
    for (const TableReader& table : scene.open(root, "shot", kShotForm, TrainList::shots))
        read_shot(scene, table, scene.train.shots.emplace_back());
}

}  // namespace couplet
