// Exported: a shipped scene as an export model, and where the exact motion puts each of its places, for tests.
#pragma once

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "export/export_model.hpp"
#include "motion/pose.hpp"
#include "support/shipped_scenes.hpp"

namespace couplet {

[[nodiscard]] inline ExportModel exported(const std::string& scene, std::size_t setting = 0) {
    const Train train = shipped_train(scene);
    return export_model_of(train, train.settings.at(setting));
}

// A place in the frame: its axis and how far its member has turned.
struct Standing2 {
    double x_mm = 0.0;
    double y_mm = 0.0;
    double turned_rad = 0.0;
};

// After so many turns of the driver, by place: from the exact phases of motion/pose.hpp, carriers first.
[[nodiscard]] inline std::vector<Standing2> exact_standings(const ExportModel& model, const Ratio& driver_turns) {
    const std::vector<Ratio> joints = joint_phases_turns(model.motion, driver_turns);
    const std::vector<Ratio> phases = frame_phases_turns(model.train, joints);
    std::vector<Standing2> standings(model.placement.places.size());
    each_member_from_the_frame(model.train, [&](MemberIndex member) {
        for (int p = model.placement.first_place[member.position()];
             p < model.placement.first_place[member.position() + 1]; ++p) {
            const Place& place = model.placement.places[static_cast<std::size_t>(p)];
            Standing2& standing = standings[static_cast<std::size_t>(p)];
            const Standing2 under = place.under.value < 0 ? Standing2{} : standings[place.under.position()];
            const PlanePoint& at = place.centre_on_carrier_mm;
            standing.x_mm = under.x_mm + at.x_mm * std::cos(under.turned_rad) - at.y_mm * std::sin(under.turned_rad);
            standing.y_mm = under.y_mm + at.x_mm * std::sin(under.turned_rad) + at.y_mm * std::cos(under.turned_rad);
            standing.turned_rad = 2.0 * std::numbers::pi * phases[member.position()].to_double();
        }
    });
    return standings;
}

// How far apart two angles are, whole turns not counting.
[[nodiscard]] inline double angle_between(double a_rad, double b_rad) {
    return std::abs(std::remainder(a_rad - b_rad, 2.0 * std::numbers::pi));
}

}  // namespace couplet
