// Meshing: two sampled gears set at their centre distance and rolled, for tests that ask what really touches.
//
// The first gear stands at the origin, the second one's centre on the X axis; teeth of the first start centred on +X in
// a gap of the second. Contact of the first gear's upper flanks lies on one line, through the pitch point; places on it
// are counted as gear_pair.hpp counts them.
#pragma once

#include <vector>

#include "tooth/gear_pair.hpp"
#include "tooth/outline.hpp"
#include "tooth/profile.hpp"

namespace couplet {

class Meshing {
  public:
    Meshing(const GearSpec& first, const GearSpec& second, double operating_angle_rad, double tolerance_mm);

    [[nodiscard]] const PairSizes& pair() const { return pair_; }
    [[nodiscard]] const ToothProfile& first() const { return first_; }
    [[nodiscard]] const ToothProfile& second() const { return second_; }

    // Where a flank of the first gear and one of the second cross the line of contact, the second one's next beyond.
    struct Facing {
        double first_mm;
        double second_mm;
    };
    // After the first gear has turned.
    [[nodiscard]] std::vector<Facing> facing(double first_turned_rad) const;
    // Teeth in contact on average: flanks no farther apart than the tolerance, through one pitch.
    [[nodiscard]] double counted_contact_ratio(int steps, double tolerance_mm) const;

  private:
    ToothProfile first_;
    ToothProfile second_;
    PairSizes pair_;
    Outline first_upper_;
    Outline second_tooth_;
};

}  // namespace couplet
