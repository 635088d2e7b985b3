#include "support/train_families.hpp"

#include <array>
#include <string>
#include <vector>

#include "support/dice.hpp"
#include "support/train_builder.hpp"

namespace couplet {

namespace {

constexpr std::uint64_t kSeed = 20240229;

struct StageCounts {
    int sun;
    int planet;
    [[nodiscard]] int ring() const { return sun + 2 * planet; }
};

StageCounts random_counts(Dice& dice) {
    return {dice.between(12, 60), dice.between(12, 60)};
}

std::string numbered(const char* name, int number) {
    return name + std::to_string(number);
}

// A planet on the carrier, between the sun and the ring.
void add_planet(TrainBuilder& builder, int number, MemberIndex sun, MemberIndex carrier, MemberIndex ring,
                StageCounts counts) {
    const MemberIndex planet = builder.member(numbered("planet", number), carrier);
    builder.external(sun, counts.sun, planet, counts.planet);
    builder.internal(planet, counts.planet, ring, counts.ring());
}

template <class Counts>
FamilyTrain stages_in_series(int members, Counts next_counts) {
    TrainBuilder builder;
    Setting setting;
    MemberIndex sun = builder.member("sun1");
    setting.drive.push_back({sun, 1});
    for (int stage = 1; 3 * stage + 1 <= members; ++stage) {
        const MemberIndex carrier = builder.member(numbered("carrier", stage));
        const MemberIndex ring = builder.member(numbered("ring", stage));
        add_planet(builder, stage, sun, carrier, ring, next_counts());
        setting.hold.push_back(ring);
        sun = carrier;
    }
    return {builder.build(), setting};
}

}  // namespace

FamilyTrain family_a(int members) {
    Dice dice(kSeed);
    return stages_in_series(members, [&] { return random_counts(dice); });
}

FamilyTrain family_c(int members) {
    return stages_in_series(members, [] { return StageCounts{30, 18}; });
}

FamilyTrain family_b(int members, DriverPlace place) {
    Dice dice(kSeed);
    TrainBuilder builder;
    std::vector<MemberIndex> coaxial{builder.member("shaft1"), builder.member("shaft2")};
    for (int stage = 1; 2 * stage + 2 <= members; ++stage) {
        coaxial.push_back(builder.member(numbered("shaft", stage + 2)));
        std::array<MemberIndex, 3> roles{coaxial[coaxial.size() - 3], coaxial[coaxial.size() - 2], coaxial.back()};
        std::swap(roles[1], roles[dice.position_in(roles.size())]);
        add_planet(builder, stage, roles[0], roles[1], roles[2], random_counts(dice));
    }
    Setting setting;
    setting.hold.push_back(coaxial.front());
    setting.drive.push_back({place == DriverPlace::beside_the_held ? coaxial[1] : coaxial.back(), 1});
    return {builder.build(), setting};
}

FamilyTrain compound_chain(int meshes) {
    Dice dice(kSeed);
    TrainBuilder builder;
    Setting setting;
    MemberIndex driving = builder.member("shaft0");
    setting.drive.push_back({driving, 1});
    for (int mesh = 1; mesh <= meshes; ++mesh) {
        const MemberIndex driven = builder.member(numbered("shaft", mesh));
        builder.external(driving, dice.between(10000, 54999), driven, dice.between(55000, 99999));
        driving = driven;
    }
    return {builder.build(), setting};
}

FamilyTrain idler_chain(int members) {
    Dice dice(kSeed);
    TrainBuilder builder;
    Setting setting;
    GearIndex last = builder.gear(builder.member("wheel1"), dice.between(12, 120));
    setting.drive.push_back({{0}, 1});
    for (int wheel = 2; wheel <= members; ++wheel) {
        const GearIndex next = builder.gear(builder.member(numbered("wheel", wheel)), dice.between(12, 120));
        builder.mesh(last, next);
        last = next;
    }
    return {builder.build(), setting};
}

FamilyTrain many_small_sets(int members) {
    Dice dice(kSeed);
    TrainBuilder builder;
    Setting setting;
    const MemberIndex sun = builder.member("sun");
    setting.drive.push_back({sun, 1});
    for (int set = 1; 3 * set + 1 <= members; ++set) {
        const MemberIndex carrier = builder.member(numbered("carrier", set));
        const MemberIndex ring = builder.member(numbered("ring", set));
        add_planet(builder, set, sun, carrier, ring, random_counts(dice));
        setting.hold.push_back(ring);
    }
    return {builder.build(), setting};
}

}  // namespace couplet
