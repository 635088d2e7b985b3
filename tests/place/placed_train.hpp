// Placed train: a train in one line of text with everything that `place` makes of it, for tests.
#pragma once

#include <string>
#include <string_view>

#include "place/assembly.hpp"
#include "place/mesh_proof.hpp"
#include "support/train_notation.hpp"

namespace couplet {

struct PlacedTrain {
    Train train;
    TrainTeeth teeth;
    Placement placement;
    StartingRotations rotations;

    [[nodiscard]] PlaceIndex place_of(const std::string& member, int copy = 1) const {
        return {placement.first_place[member_named(train, member).position()] + copy - 1};
    }
    [[nodiscard]] const Place& place(const std::string& member, int copy = 1) const {
        return placement[place_of(member, copy)];
    }
    // Of the member's gear, counted from 0.
    [[nodiscard]] const GearStart& start(const std::string& member, int copy = 1, std::size_t gear = 0) const {
        return rotations.of(gears_of(train, member_named(train, member))[gear], place_of(member, copy));
    }
    [[nodiscard]] Ratio rotation_deg(const std::string& member, int copy = 1, std::size_t gear = 0) const {
        return start(member, copy, gear).starting_rotation.exact_deg.value();
    }
    [[nodiscard]] Ratio extra_deg(const std::string& member, int copy = 1, std::size_t gear = 0) const {
        return start(member, copy, gear).extra_turn.exact_deg.value();
    }
    [[nodiscard]] Assembly assembly() const { return assembly_of(train, teeth, placement, rotations); }
    [[nodiscard]] MeshProof proof(const Motion* motion = nullptr) const {
        return prove_mesh(train, teeth, placement, rotations, motion);
    }
};

[[nodiscard]] inline PlacedTrain placed(Train train, const StartOptions& options = {}) {
    PlacedTrain result{std::move(train), {}, {}, {}};
    result.teeth = teeth_of(result.train);
    result.placement = place_members(result.train, result.teeth);
    result.rotations = starting_rotations(result.train, result.placement, options);
    return result;
}

// The notation of support/train_notation.hpp with module 1 and a backlash of 0.04.
[[nodiscard]] inline Train sized_train(std::string_view meshes) {
    Train train = train_from(meshes);
    train.teeth.module_mm = Ratio(1);
    train.teeth.backlash = Ratio(1, 25);
    return train;
}

inline void set_copies(Train& train, const std::string& member, int copies, std::vector<Ratio> at_deg = {}) {
    Member& entry = train.members[member_named(train, member).position()];
    entry.copies = copies;
    entry.at_deg = std::move(at_deg);
}

// "sun", "planet" with copies on "carrier", and "ring".
[[nodiscard]] inline Train simple_set(int sun, int planet, int ring, int copies, std::vector<Ratio> at_deg = {}) {
    Train train = sized_train("sun " + std::to_string(sun) + " x planet " + std::to_string(planet) + "; planet " +
                              std::to_string(planet) + " in ring " + std::to_string(ring) + " (planet on carrier)");
    set_copies(train, "planet", copies, std::move(at_deg));
    return train;
}

// A stepped planet: `first` teeth in mesh with the sun, `second` in the ring.
[[nodiscard]] inline Train stepped_set(int sun, int first, int second, int ring, int copies) {
    Train train = sized_train("sun " + std::to_string(sun) + " x planet " + std::to_string(first) + "; planet " +
                              std::to_string(second) + " in ring " + std::to_string(ring) + " (planet on carrier)");
    set_copies(train, "planet", copies);
    return train;
}

}  // namespace couplet
