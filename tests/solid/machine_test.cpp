// Parts are measured by their shapes' own numbers (machine_bands.hpp), in the start pose.
#include "solid/machine.hpp"

#include <gtest/gtest.h>

#include <map>
#include <numbers>
#include <set>

#include "solid/machine_bands.hpp"
#include "support/random_trains.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

Train with_module(Train train) {
    train.teeth.module_mm = Ratio(1);
    return train;
}

std::vector<MachineOf> usual_machines() {
    std::vector<MachineOf> machines;
    for (const std::filesystem::path& path : shipped_scenes()) machines.push_back(machine_of_scene(path));
    machines.push_back(machine_for(with_module(idler_chain(80).train)));
    machines.push_back(machine_for(with_module(compound_chain(40).train)));
    machines.push_back(machine_for(with_module(family_a(40).train)));
    machines.push_back(machine_for(with_module(family_b(30, DriverPlace::far_end).train)));
    machines.push_back(machine_for(with_module(many_small_sets(40).train)));
    machines.push_back(machine_for(simple_set(21, 24, 69, 3)));
    machines.push_back(machine_for(stepped_set(24, 40, 16, 80, 4)));
    return machines;
}

std::string name_of_part(const MachineOf& set, const Part& part) {
    static const std::array<const char*, 7> roles{"wheel", "planet", "ring", "carrier", "shaft", "fastener", "stand"};
    const std::string of =
        part.place.value < 0 ? "frame" : name_of(set.placed.train, set.placed.placement[part.place].member);
    return std::string(roles[static_cast<std::size_t>(part.role)]) + " of " + of;
}

// Two gears in mesh overlap by their teeth; copies of one gear may stand too close, which `check` tells.
bool may_meet(const MachineOf& set, const Part& a, const Part& b) {
    if (a.place == b.place) return true;
    return a.gear.value >= 0 && b.gear.value >= 0 &&
           (a.gear == b.gear || are_in_mesh(set.placed.train, a.gear, b.gear));
}

int count_meetings(const MachineOf& set, bool tell) {
    std::vector<std::pair<const Part*, PartBand>> bands;
    for (const Part& part : set.machine.parts)
        for (const PartBand& band : bands_of(set.placed.placement, set.machine, part)) bands.emplace_back(&part, band);
    int meetings = 0;
    for (std::size_t i = 0; i < bands.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            if (!meet(bands[i].second, bands[k].second) || may_meet(set, *bands[i].first, *bands[k].first)) continue;
            ++meetings;
            if (tell)
                ADD_FAILURE() << set.placed.train.title << ": " << name_of_part(set, *bands[i].first) << " meets "
                              << name_of_part(set, *bands[k].first);
        }
    return meetings;
}

bool has_long_gears(const MachineOf& set) {
    for (std::size_t g = 0; g < set.machine.stack.gears.size(); ++g) {
        const Span& span = set.machine.stack.gears[g];
        if (span.top_mm - span.bottom_mm > set.placed.teeth.gears[g].spec.face_width_mm + 1e-9) return true;
    }
    return false;
}

TEST(Machine, NothingMeetsWhatTurnsAgainstIt) {
    for (const MachineOf& set : usual_machines()) count_meetings(set, true);
}

TEST(Machine, TheTestSeesPartsThatMeet) {
    MachineOf set = machine_for(simple_set(21, 24, 69, 3));
    for (Part& part : set.machine.parts)
        if (part.role == PartRole::carrier) part.z_mm += set.machine.stack.gap_mm + 0.1;
    EXPECT_GT(count_meetings(set, false), 0);
}

// A gear that is in mesh in several layers may pass others on its way between them where their orders contradict each
// other; no other train has parts that meet.
TEST(Machine, NothingMeetsInRandomTrains) {
    int clean = 0;
    int with_long_gears = 0;
    for (std::uint64_t seed = 0; seed < 400; ++seed) {
        const MachineOf set = machine_for(with_module(random_train(seed, {.most_members = 12}).train));
        const int meetings = count_meetings(set, false);
        if (meetings == 0) {
            ++clean;
            continue;
        }
        ++with_long_gears;
        EXPECT_TRUE(has_long_gears(set)) << "random train " << seed << ": " << meetings << " meetings";
    }
    EXPECT_LE(with_long_gears, 8);
    EXPECT_GT(clean, 390);
}

TEST(Machine, EveryGearOfEveryPlaceIsThereOnceTurnedAsItStarts) {
    for (const MachineOf& set : usual_machines()) {
        std::map<std::pair<GearIndex, PlaceIndex>, const Part*> found;
        for (const Part& part : set.machine.parts)
            if (part.gear.value >= 0) {
                EXPECT_TRUE(found.try_emplace({part.gear, part.place}, &part).second) << name_of_part(set, part);
            }
        EXPECT_EQ(found.size(), set.placed.rotations.gears.size());
        for (const GearStart& start : set.placed.rotations.gears) {
            const auto entry = found.find({start.gear, start.place});
            ASSERT_NE(entry, found.end());
            const double off =
                entry->second->turned_rad / kTurn - start.tooth.value(set.placed.placement.direction_turns);
            EXPECT_NEAR(off, std::round(off), 1e-9) << name_of(set.placed.train, start.gear);
            EXPECT_GE(entry->second->turned_rad, 0.0);
            EXPECT_LT(entry->second->turned_rad, kTurn);
            EXPECT_DOUBLE_EQ(entry->second->z_mm, set.machine.stack.gears[start.gear.position()].bottom_mm);
        }
    }
}

TEST(Machine, CopiesShareTheirShapes) {
    for (const MachineOf& set : usual_machines()) {
        std::map<GearIndex, std::set<std::size_t>> shapes;
        for (const Part& part : set.machine.parts)
            if (part.gear.value >= 0) shapes[part.gear].insert(part.shape);
        for (const auto& [gear, used] : shapes) EXPECT_EQ(used.size(), 1U) << name_of(set.placed.train, gear);
    }
    EXPECT_EQ(machine_for(simple_set(20, 20, 60, 4)).machine.shapes.size(),
              machine_for(simple_set(20, 20, 60, 2)).machine.shapes.size());
}

TEST(Machine, EveryCarriedAxisHasAPinOfItsCarrier) {
    for (const MachineOf& set : usual_machines()) {
        std::size_t carried = 0;
        for (const Place& place : set.placed.placement.places) {
            if (place.under.value < 0) continue;
            ++carried;
            const auto pin = std::ranges::find_if(set.machine.parts, [&](const Part& part) {
                return part.place == place.under && part.role == PartRole::shaft &&
                       std::hypot(part.offset_mm.x_mm - place.centre_on_carrier_mm.x_mm,
                                  part.offset_mm.y_mm - place.centre_on_carrier_mm.y_mm) < 1e-9;
            });
            EXPECT_NE(pin, set.machine.parts.end())
                << name_of(set.placed.train, place.member) << " of " << set.placed.train.title;
        }
        if (!set.machine.stack.carriers.empty()) {
            EXPECT_GT(carried, 0U);
        }
    }
}

TEST(Machine, ItsBoundsHoldWhatTurnsAndItsHeightsHoldAll) {
    for (const MachineOf& set : usual_machines())
        for (const Part& part : set.machine.parts)
            for (const PartBand& band : bands_of(set.placed.placement, set.machine, part)) {
                EXPECT_GE(band.bottom_mm, set.machine.bottom_mm - 1e-9) << name_of_part(set, part);
                EXPECT_LE(band.top_mm, set.machine.top_mm + 1e-9) << name_of_part(set, part);
                if (part.place.value < 0) continue;
                EXPECT_GT(band.bottom_mm, 0.0) << name_of_part(set, part);
                EXPECT_LE(std::hypot(band.centre.x_mm - set.machine.middle_mm.x_mm,
                                     band.centre.y_mm - set.machine.middle_mm.y_mm) +
                              band.outer_mm,
                          set.machine.radius_mm * (1.0 + 1e-9))
                    << name_of_part(set, part);
            }
}

TEST(Machine, ShapesAreWhole) {
    for (const MachineOf& set : usual_machines())
        for (const Shape& shape : set.machine.shapes) {
            const std::vector<ShapeBand> bands = bands_of(shape);
            EXPECT_FALSE(bands.empty());
            for (const ShapeBand& band : bands) {
                EXPECT_GT(band.outer_mm, band.inner_mm);
                EXPECT_GT(band.top_mm, band.bottom_mm);
                EXPECT_TRUE(std::isfinite(band.outer_mm) && std::isfinite(band.top_mm));
            }
        }
}

TEST(Machine, LayersRiseWithTheGearsAndTheStandIsTheLowest) {
    for (const MachineOf& set : usual_machines()) {
        for (const Part& part : set.machine.parts) {
            EXPECT_EQ(part.role == PartRole::stand, part.layer == 0) << name_of_part(set, part);
            for (const Part& other : set.machine.parts)
                if (part.gear.value >= 0 && other.gear.value >= 0 && part.layer < other.layer && !has_long_gears(set)) {
                    EXPECT_LT(part.z_mm, other.z_mm);
                }
        }
    }
}

TEST(Machine, GearsStandOnKeyedShaftsAndPlanetsOnPins) {
    const MachineOf set = machine_for(simple_set(21, 24, 69, 3));
    for (const Part& part : set.machine.parts) {
        const auto* gear = std::get_if<GearShape>(&set.machine.shapes[part.shape]);
        if (gear == nullptr) continue;
        EXPECT_GT(gear->bore_mm, 0.0);
        EXPECT_LT(gear->bore_mm, gear->profile.sizes.root_diameter_mm);
        EXPECT_EQ(gear->key_width_mm > 0.0, part.role == PartRole::sun_or_wheel);
    }
    const auto key = std::ranges::find_if(set.machine.parts, [&](const Part& part) {
        return std::holds_alternative<BarShape>(set.machine.shapes[part.shape]);
    });
    ASSERT_NE(key, set.machine.parts.end());
    EXPECT_EQ(key->place, set.placed.place_of("sun"));
    EXPECT_DOUBLE_EQ(key->turned_rad, std::ranges::find(set.machine.parts, GearIndex{0}, &Part::gear)->turned_rad);
}

TEST(Machine, TheBoreThatASceneGivesIsKept) {
    Train train = simple_set(21, 24, 69, 3);
    train.gears[0].bore = Ratio(3);
    const MachineOf set = machine_for(train);
    const auto sun = std::ranges::find(set.machine.parts, GearIndex{0}, &Part::gear);
    EXPECT_DOUBLE_EQ(std::get<GearShape>(set.machine.shapes[sun->shape]).bore_mm, 3.0);
}

TEST(Machine, ARingStandsBetweenPostsOutsideOfIt) {
    const MachineOf set = machine_for(simple_set(21, 24, 69, 3));
    const auto ring = std::ranges::find(set.machine.parts, PartRole::ring, &Part::role);
    const double outside = std::get<RingShape>(set.machine.shapes[ring->shape]).outside_mm / 2.0;
    int posts = 0;
    for (const Part& part : set.machine.parts)
        if (part.role == PartRole::stand && std::hypot(part.offset_mm.x_mm, part.offset_mm.y_mm) > outside &&
            part.z_mm >= 0.0)
            ++posts;
    EXPECT_EQ(posts, 4);
}

TEST(Machine, WhatHidesAMeshOpens) {
    const MachineOf set = machine_for(stepped_set(24, 40, 16, 80, 4));
    for (const Part& part : set.machine.parts) {
        if (part.role == PartRole::ring) {
            EXPECT_TRUE(part.opens);
        }
        if (part.role == PartRole::carrier) {
            EXPECT_EQ(part.opens, part.z_mm > set.machine.stack.carriers.front().lower.bottom_mm);
        }
    }
}

// 99 and 100 teeth over one planet: one of the meshes does not fit.
TEST(Machine, AGeometryThatDoesNotCloseStillGivesAMachine) {
    const MachineOf set = machine_for(sized_train("a 99 x planet 20; planet 20 x b 100 (planet on arm)"));
    EXPECT_FALSE(set.placed.placement.findings.empty());
    count_meetings(set, true);
}

TEST(Machine, AGearWithoutAProfileIsADiscOfItsTipDiameter) {
    Train train = simple_set(21, 24, 69, 3);
    train.gears[0].spec.addendum = Ratio(4);  // pointed long before its tip
    const MachineOf set = machine_for(train);
    ASSERT_FALSE(set.placed.teeth.profiles[0].profile.has_value());
    const auto sun = std::ranges::find(set.machine.parts, GearIndex{0}, &Part::gear);
    ASSERT_TRUE(std::holds_alternative<TurnedShape>(set.machine.shapes[sun->shape]));
    EXPECT_DOUBLE_EQ(bands_of(set.machine.shapes[sun->shape])[1].outer_mm,
                     set.placed.teeth.gears[0].tip_diameter_mm / 2.0);
}

TEST(Machine, ATrainWithoutGearsGivesAnEmptyStand) {
    Train train;
    train.members = {{"arm", kFrame, 1, {}, {}}};
    EXPECT_TRUE(machine_for(train).machine.parts.empty());
}

TEST(Machine, AChainOfAThousandWheelsHasFewPartsAWheel) {
    const MachineOf set = machine_for(with_module(idler_chain(1000).train));
    EXPECT_LT(set.machine.parts.size(), 5000U);
}

}  // namespace
}  // namespace couplet
