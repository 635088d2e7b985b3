// Alike loop: the shortest motion after which the machine looks as it did, teeth and copies being all alike.
//
// A gear then looks the same one tooth further, and a planet may stand where another one of its copies stood; marks,
// keyways, holes and bolts, which tell them apart, are not looked at. A member without gears shows its turning only by
// what it carries off its own axis.
//
// METHOD    1  The turns of the reference driver after which all looks the same are the whole multiples of one: what is
//              sought. Some of them take every place to itself: those after which each carrier has made whole turns and
//              each body of gears a whole number of 1 / gcd of its tooth counts. They are the multiples of
//              1 / the common measure of these rates.
//           2  The loop is that over a whole number n. A carrier can look the same only after a whole number of 1 / s
//              turns, s being the symmetry of the directions in which its riders stand; so n divides the lcm of all s.
//           3  Each power of a prime in it is tried: riders move on to their next copies' places, carriers first, and
//              at each place every gear that comes must have its teeth where the gear that was there had them. n is the
//              product of the powers that pass.
//
// Teeth whose angles hold different directions (angle.hpp) count as different.
#pragma once

#include <optional>

#include "motion/motion.hpp"
#include "place/starting_rotation.hpp"

namespace couplet {

// In turns of the reference driver, above 0, all drivers running at the speeds given; the strict loop
// (motion/loop.hpp) is a whole multiple of it, and is the answer where nothing shows that anything turns. Nothing where
// there is no strict loop. Placement and rotations are the train's, the motion is one of its settings'.
[[nodiscard]] std::optional<Ratio> alike_loop_turns(const Train& train, const Placement& placement,
                                                    const StartingRotations& rotations, const Motion& motion);

}  // namespace couplet
