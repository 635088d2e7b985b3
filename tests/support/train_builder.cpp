#include "support/train_builder.hpp"

#include <algorithm>
#include <utility>

#include "support/train_parts.hpp"

namespace couplet {

MemberIndex TrainBuilder::member(std::string name, MemberIndex rides_on) {
    const MemberIndex index{static_cast<std::int32_t>(members_.size())};
    members_.push_back(couplet::member(std::move(name), rides_on));
    gears_of_member_.emplace_back();
    return index;
}

void TrainBuilder::set_rides_on(MemberIndex member, MemberIndex carrier) {
    members_[member.position()].rides_on = carrier;
}

GearIndex TrainBuilder::gear(MemberIndex member, int teeth, bool internal) {
    std::vector<GearIndex>& own = gears_of_member_[member.position()];
    const auto same = std::ranges::find_if(own, [&](GearIndex index) {
        const Gear& gear = gears_[index.position()];
        return gear.teeth == teeth && gear.internal == internal;
    });
    if (same != own.end()) return *same;
    const GearIndex index{static_cast<std::int32_t>(gears_.size())};
    gears_.push_back(couplet::gear(member, teeth));
    gears_.back().internal = internal;
    own.push_back(index);
    return index;
}

void TrainBuilder::mesh(GearIndex first, GearIndex second) {
    meshes_.push_back({first, second, std::nullopt});
}

void TrainBuilder::external(MemberIndex a, int teeth_a, MemberIndex b, int teeth_b) {
    mesh(gear(a, teeth_a), gear(b, teeth_b));
}

void TrainBuilder::internal(MemberIndex planet, int planet_teeth, MemberIndex ring, int ring_teeth) {
    mesh(gear(planet, planet_teeth), gear(ring, ring_teeth, true));
}

Train TrainBuilder::build() const {
    Train train;
    train.members = members_;
    std::vector<GearIndex> placed(gears_.size());
    for (const std::vector<GearIndex>& own : gears_of_member_) {
        for (std::size_t order = 0; order < own.size(); ++order) {
            placed[own[order].position()] = {static_cast<std::int32_t>(train.gears.size())};
            Gear& gear = train.gears.emplace_back(gears_[own[order].position()]);
            if (own.size() > 1) gear.name = std::to_string(order + 1);
        }
    }
    for (const Mesh& mesh : meshes_)
        train.meshes.push_back({placed[mesh.first.position()], placed[mesh.second.position()], std::nullopt});
    return train;
}

}  // namespace couplet
