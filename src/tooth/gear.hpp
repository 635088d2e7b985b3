// Gear: the sizes of one involute cylindrical gear, external or internal, spur or helical.
//
// Lengths in mm, angles in radians, diameters in the transverse plane. The profile shift coefficient x moves the rack
// away from the axis where positive, for an internal gear too: its tooth spaces then are those of an external gear with
// the same x (the convention of the printed handbooks; ISO 21771 counts internal teeth negative instead). Formulas by
// ISO 21771:2007, clause 4 (from memory of the clause; the numbers are checked in tests/published).
#pragma once

#include "tooth/basic_rack.hpp"

namespace couplet {

struct GearSpec {
    int teeth = 0;
    bool internal = false;
    double module_mm = 1.0;        // normal
    BasicRack rack{};              // in the normal section
    double helix_angle_rad = 0.0;  // at the reference circle; positive: right-handed
    double shift = 0.0;            // x
    double tip_change = 0.0;       // k, x module: negative shortens the tooth
    double thinning_mm = 0.0;      // taken off the tooth's arc at the reference circle, transverse
    double face_width_mm = 0.0;
};

struct GearSizes {
    GearSpec spec;
    double transverse_module_mm;
    double transverse_angle_rad;  // alpha_t
    double base_helix_rad;        // beta_b, signed
    double pitch_diameter_mm;     // reference circle, d
    double base_diameter_mm;
    double tip_diameter_mm;
    double root_diameter_mm;
    double
        pitch_thickness_mm;   // arc of a tooth at the reference circle, transverse; of metal, for an internal gear too
    double tip_thickness_mm;  // arc at the tip; 0 or less: pointed
};

[[nodiscard]] GearSizes sizes_of(const GearSpec& spec);

// The pressure angle at a circle; 0 inside the base circle, where flanks run along the radius.
[[nodiscard]] double pressure_angle_at(const GearSizes& gear, double diameter_mm);

// Along a tangent of the base circle, from where it touches to where it meets a circle: the involute's radius of
// curvature there. 0 inside the base circle.
[[nodiscard]] double tangent_length_mm(const GearSizes& gear, double diameter_mm);

// Half the angle that a tooth's metal fills at a circle, seen from the axis; for both kinds of gear.
[[nodiscard]] double half_tooth_angle_at(const GearSizes& gear, double diameter_mm);

// Where the tooth comes to a point: the largest tip diameter (of the space, for an internal gear: the largest root).
// The base diameter where the flanks meet even there.
[[nodiscard]] double pointed_diameter(const GearSizes& gear);

// The fewest teeth that the rack cuts without undercut at the gear's shift and helix, not rounded, and the least shift
// for its teeth: z_min = 2 (h_fP - rho (1 - sin a) - x) cos(b) / sin^2(a_t), the straight part of the rack's flank
// counting (ISO 21771; for a sharp rack of unit addendum the 2 / sin^2(a) of the texts).
struct UndercutLimit {
    double fewest_teeth;
    double least_shift;
};
[[nodiscard]] UndercutLimit undercut_limit(const GearSpec& spec);

// ISO 54:1996: series I is preferred, series II the second choice.
enum class ModuleSeries { preferred, second_choice, none };
[[nodiscard]] ModuleSeries iso_54_series(double module_mm);
// The module of either series that is nearest by ratio.
[[nodiscard]] double nearest_iso_54_module(double module_mm);

}  // namespace couplet
