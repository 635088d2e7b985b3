#include "train/arrangement.hpp"

#include <stdexcept>
#include <string>

namespace couplet {

namespace {

// A train in the making: gears stand in the order of their members, so each member is made with its gears at once.
class Maker {
  public:
    Maker(const ArrangementForm& form, int copies) : copies_(copies) {
        train_.title = form.name;
        train_.title.front() = static_cast<char>(train_.title.front() - 'a' + 'A');
        train_.teeth.module_mm = Ratio(2);
        train_.teeth.face_width = Ratio(12);
        train_.teeth.backlash = Ratio(1, 10);
    }

    MemberIndex member(std::string name, MemberIndex rides_on = kFrame) {
        Member made;
        made.name = std::move(name);
        made.rides_on = rides_on;
        train_.members.push_back(std::move(made));
        return {static_cast<std::int32_t>(train_.members.size()) - 1};
    }
    MemberIndex planet(std::string name, MemberIndex carrier) {
        const MemberIndex made = member(std::move(name), carrier);
        train_.members.back().copies = copies_;
        return made;
    }
    // Where the last member made stands, seen from what it is in mesh with.
    void stands_at(const Ratio& deg) { train_.members.back().at_deg = {deg}; }

    // On the last member made.
    GearIndex gear(int teeth, std::string name = "") {
        Gear made;
        made.member = {static_cast<std::int32_t>(train_.members.size()) - 1};
        made.name = std::move(name);
        made.teeth = teeth;
        train_.gears.push_back(std::move(made));
        return {static_cast<std::int32_t>(train_.gears.size()) - 1};
    }
    // Full teeth of a ring would dig into the roots of the planets.
    GearIndex ring_gear(int teeth) {
        const GearIndex made = gear(teeth);
        train_.gears.back().internal = true;
        train_.gears.back().spec.addendum = Ratio(4, 5);
        return made;
    }
    void mesh(GearIndex first, GearIndex second) { train_.meshes.push_back({first, second, {}}); }
    void setting(std::string name, std::vector<MemberIndex> hold, std::vector<Drive> drive) {
        train_.settings.push_back({std::move(name), std::move(hold), {}, std::move(drive)});
    }
    [[nodiscard]] Train take() { return std::move(train_); }

  private:
    Train train_;
    int copies_;
};

using Counts = std::vector<int>;

constexpr int kUsual_rpm = 30;

struct SimpleSet {
    MemberIndex sun;
    MemberIndex carrier;
    MemberIndex ring;
};

SimpleSet make_simple_set(Maker& maker, const Counts& counts) {
    SimpleSet set;
    set.sun = maker.member("sun");
    const GearIndex sun = maker.gear(counts[0]);
    set.carrier = maker.member("carrier");
    maker.planet("planet", set.carrier);
    const GearIndex planet = maker.gear(counts[1]);
    set.ring = maker.member("ring");
    const GearIndex ring = maker.ring_gear(counts[2]);
    maker.mesh(sun, planet);
    maker.mesh(planet, ring);
    return set;
}

void make_simple(Maker& maker, const Counts& counts) {
    const SimpleSet set = make_simple_set(maker, counts);
    maker.setting("ring held", {set.ring}, {{set.sun, kUsual_rpm}});
}

// Both turn the same way, the ring more slowly.
void make_differential(Maker& maker, const Counts& counts) {
    const SimpleSet set = make_simple_set(maker, counts);
    maker.setting("both driven", {}, {{set.sun, kUsual_rpm}, {set.ring, kUsual_rpm / 3}});
}

void make_stepped(Maker& maker, const Counts& counts) {
    const MemberIndex sun = maker.member("sun");
    const GearIndex sun_gear = maker.gear(counts[0]);
    const MemberIndex carrier = maker.member("carrier");
    maker.planet("planet", carrier);
    const GearIndex first = maker.gear(counts[1], "first");
    const GearIndex second = maker.gear(counts[2], "second");
    const MemberIndex ring = maker.member("ring");
    const GearIndex ring_gear = maker.ring_gear(counts[3]);
    maker.mesh(sun_gear, first);
    maker.mesh(second, ring_gear);
    maker.setting("ring held", {ring}, {{sun, kUsual_rpm}});
}

void make_paired(Maker& maker, const Counts& counts) {
    const MemberIndex sun = maker.member("sun");
    const GearIndex sun_gear = maker.gear(counts[0]);
    const MemberIndex carrier = maker.member("carrier");
    maker.planet("inner planet", carrier);
    const GearIndex inner = maker.gear(counts[1]);
    maker.planet("outer planet", carrier);
    const GearIndex outer = maker.gear(counts[2]);
    const MemberIndex ring = maker.member("ring");
    const GearIndex ring_gear = maker.ring_gear(counts[3]);
    maker.mesh(sun_gear, inner);
    maker.mesh(inner, outer);
    maker.mesh(outer, ring_gear);
    maker.setting("ring held", {ring}, {{sun, kUsual_rpm}});
}

void make_two_rings(Maker& maker, const Counts& counts) {
    const MemberIndex sun = maker.member("sun");
    const GearIndex sun_gear = maker.gear(counts[0]);
    const MemberIndex carrier = maker.member("carrier");
    maker.planet("planet", carrier);
    const GearIndex first = maker.gear(counts[1], "first");
    const GearIndex second = maker.gear(counts[3], "second");
    const MemberIndex held = maker.member("held ring");
    const GearIndex held_gear = maker.ring_gear(counts[2]);
    maker.member("output ring");
    const GearIndex output_gear = maker.ring_gear(counts[4]);
    maker.mesh(sun_gear, first);
    maker.mesh(first, held_gear);
    maker.mesh(second, output_gear);
    maker.setting("ring held", {held}, {{sun, kUsual_rpm}});
}

void make_in_series(Maker& maker, const Counts& counts) {
    const MemberIndex first_sun = maker.member("sun 1");
    const GearIndex first_sun_gear = maker.gear(counts[0]);
    const MemberIndex first_carrier = maker.member("carrier 1");
    const GearIndex second_sun_gear = maker.gear(counts[3], "sun 2");
    maker.planet("planet 1", first_carrier);
    const GearIndex first_planet = maker.gear(counts[1]);
    const MemberIndex first_ring = maker.member("ring 1");
    const GearIndex first_ring_gear = maker.ring_gear(counts[2]);
    const MemberIndex second_carrier = maker.member("carrier 2");
    maker.planet("planet 2", second_carrier);
    const GearIndex second_planet = maker.gear(counts[4]);
    const MemberIndex second_ring = maker.member("ring 2");
    const GearIndex second_ring_gear = maker.ring_gear(counts[5]);
    maker.mesh(first_sun_gear, first_planet);
    maker.mesh(first_planet, first_ring_gear);
    maker.mesh(second_sun_gear, second_planet);
    maker.mesh(second_planet, second_ring_gear);
    maker.setting("rings held", {first_ring, second_ring}, {{first_sun, kUsual_rpm}});
}

// Each shaft but the first has the driven gear of one pair, each but the last the driving gear of the next one.
void make_shafts(Maker& maker, const Counts& counts, const std::vector<std::string>& names) {
    const std::size_t pairs = counts.size() / 2;
    GearIndex driving;
    for (std::size_t shaft = 0; shaft <= pairs; ++shaft) {
        const MemberIndex made = maker.member(names[shaft]);
        const bool has_both = shaft > 0 && shaft < pairs;
        if (shaft > 0) maker.mesh(driving, maker.gear(counts[2 * shaft - 1], has_both ? "driven" : ""));
        if (shaft < pairs) driving = maker.gear(counts[2 * shaft], has_both ? "driving" : "");
        if (shaft == 0) maker.setting("running", {}, {{made, kUsual_rpm}});
    }
}

void make_pairs(Maker& maker, const Counts& counts) {
    make_shafts(maker, counts, {"shaft 1", "shaft 2", "shaft 3", "shaft 4", "shaft 5"});
}

// The second pair leads back to where the first one came from.
void make_reverted(Maker& maker, const Counts& counts) {
    make_shafts(maker, counts, {"input shaft", "countershaft", "output shaft"});
    maker.stands_at(180);
}

constexpr std::size_t kMostPairs = 4;

bool is_count_of(const ArrangementForm& form, std::size_t count) {
    if (form.arrangement != Arrangement::pairs) return count == form.counts.size();
    return count >= 2 && count <= 2 * kMostPairs && count % 2 == 0;
}

using Make = void (*)(Maker&, const Counts&);

Make make_of(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::simple:
            return make_simple;
        case Arrangement::stepped:
            return make_stepped;
        case Arrangement::paired:
            return make_paired;
        case Arrangement::two_rings:
            return make_two_rings;
        case Arrangement::in_series:
            return make_in_series;
        case Arrangement::pairs:
            return make_pairs;
        case Arrangement::reverted:
            return make_reverted;
        case Arrangement::differential:
            return make_differential;
    }
    throw std::invalid_argument("there is no such arrangement");
}

}  // namespace

const std::vector<ArrangementForm>& arrangement_forms() {
    static const std::vector<ArrangementForm> forms = {
        {Arrangement::simple,
         "simple planetary set",
         "Planets on a carrier run between a sun and a ring; hold one of the three, and the other two turn.",
         {"sun", "planet", "ring"},
         {24, 18, 60},
         true},
        {Arrangement::stepped,
         "stepped planets",
         "Each planet is two gears on one body, the one in mesh with the sun, the other with the ring: more reduction "
         "in the same room.",
         {"sun", "planet's first gear", "planet's second gear", "ring"},
         {24, 30, 21, 75},
         true},
        {Arrangement::paired,
         "paired planets",
         "Two planets in mesh stand between sun and ring, which turns the carrier the other way round.",
         {"sun", "inner planet", "outer planet", "ring"},
         {28, 18, 18, 79},
         true},
        {Arrangement::two_rings,
         "stepped planets in two rings",
         "The planets run in a held ring and in an output ring with a few teeth more or less, which creeps: a very "
         "large reduction.",
         {"sun", "planet's first gear", "held ring", "planet's second gear", "output ring"},
         {18, 27, 72, 24, 69},
         true},
        {Arrangement::in_series,
         "two simple sets in series",
         "The carrier of the first set drives the sun of the second, so that the two reductions multiply.",
         {"sun 1", "planet 1", "ring 1", "sun 2", "planet 2", "ring 2"},
         {24, 18, 60, 21, 24, 69},
         true},
        {Arrangement::pairs,
         "pairs on fixed axes",
         "Every axis stands still; each pair drives the shaft of the next one.",
         {"pair 1, driving", "pair 1, driven", "pair 2, driving", "pair 2, driven"},
         {20, 45, 18, 54},
         false},
        {Arrangement::reverted,
         "reverted train",
         "Two pairs with one centre distance bring the output back onto the axis of the input.",
         {"pair 1, driving", "pair 1, driven", "pair 2, driving", "pair 2, driven"},
         {24, 40, 20, 44},
         false},
        {Arrangement::differential,
         "differential",
         "Sun and ring of a simple set are both driven, and the carrier turns by a mean of the two.",
         {"sun", "planet", "ring"},
         {24, 18, 60},
         true},
    };
    return forms;
}

const ArrangementForm& form_of(Arrangement arrangement) {
    return arrangement_forms()[static_cast<std::size_t>(arrangement)];
}

Train train_of(Arrangement arrangement, const std::vector<int>& counts, int copies) {
    const Make make = make_of(arrangement);
    const ArrangementForm& form = form_of(arrangement);
    if (!is_count_of(form, counts.size()))
        throw std::invalid_argument("the arrangement '" + std::string(form.name) + "' has other tooth counts than " +
                                    std::to_string(counts.size()));
    Maker maker(form, copies);
    make(maker, counts);
    return maker.take();
}

}  // namespace couplet
