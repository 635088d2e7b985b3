// Train builder: members, gears and meshes in any order, put together into a Train.
//
// A Train keeps its gears grouped by member; a test names them as they come up. Gears of a member with several are
// named by their order on it, from "1".
#pragma once

#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

class TrainBuilder {
  public:
    MemberIndex member(std::string name, MemberIndex rides_on = kFrame);
    void set_rides_on(MemberIndex member, MemberIndex carrier);

    // The member's gear of that kind: the one it has, else a new one.
    GearIndex gear(MemberIndex member, int teeth, bool internal = false);
    void mesh(GearIndex first, GearIndex second);
    // Two external gears.
    void external(MemberIndex a, int teeth_a, MemberIndex b, int teeth_b);
    // A gear inside a ring.
    void internal(MemberIndex planet, int planet_teeth, MemberIndex ring, int ring_teeth);

    [[nodiscard]] const std::vector<Member>& members() const { return members_; }
    // Gears in the order in which they were made, as the indices of `gear` count them.
    [[nodiscard]] const std::vector<Gear>& gears() const { return gears_; }
    [[nodiscard]] const std::vector<Mesh>& meshes() const { return meshes_; }

    // The Train's gears stand in another order than gears().
    [[nodiscard]] Train build() const;

  private:
    std::vector<Member> members_;
    std::vector<Gear> gears_;
    std::vector<std::vector<GearIndex>> gears_of_member_;
    std::vector<Mesh> meshes_;
};

}  // namespace couplet
