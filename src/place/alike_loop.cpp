#include "place/alike_loop.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "exact/common_measure.hpp"
#include "motion/loop.hpp"
#include "place/copy_places.hpp"

namespace couplet {

namespace {

// How the copies of a member stand round the axis of what it rides on.
struct Round {
    // Own copies, from 0, in the order of their directions; empty where the member stands on that axis or on the frame.
    std::vector<int> copies;
    // By which part of a turn, 1 / symmetry, the directions can be turned into themselves.
    int symmetry = 1;
};

int symmetry_of(const std::vector<Ratio>& rising) {
    const auto count = static_cast<int>(rising.size());
    for (int symmetry = count; symmetry > 1; --symmetry) {
        if (count % symmetry != 0) continue;
        const Ratio part(1, symmetry);
        const auto step = static_cast<std::size_t>(count / symmetry);
        std::size_t i = 0;
        while (i < rising.size() && (rising[(i + step) % rising.size()] - rising[i]).fraction() == part) ++i;
        if (i == rising.size()) return symmetry;
    }
    return 1;
}

Round round_of(const Train& train, MemberIndex member) {
    std::vector<Ratio> directions;
    for (int k = 0; k < train[member].copies; ++k) directions.push_back(turns_from_first(train, member, k).fraction());
    Round round;
    round.copies.resize(directions.size());
    std::iota(round.copies.begin(), round.copies.end(), 0);
    std::ranges::stable_sort(round.copies, {}, [&](int k) { return directions[static_cast<std::size_t>(k)]; });
    std::ranges::sort(directions);
    round.symmetry = symmetry_of(directions);
    return round;
}

bool stands_on_axis(const Place& place) {
    return std::hypot(place.centre_on_carrier_mm.x_mm, place.centre_on_carrier_mm.y_mm) < kCentreDistanceLimit_mm;
}

// The exponent of each prime in the lcm of the numbers.
std::map<int, int> primes_of_lcm(const std::vector<int>& numbers) {
    std::map<int, int> most;
    for (int number : numbers) {
        for (int prime = 2; number > 1; ++prime) {
            if (prime * prime > number) prime = number;
            int exponent = 0;
            for (; number % prime == 0; number /= prime) ++exponent;
            if (exponent > 0) most[prime] = std::max(most[prime], exponent);
        }
    }
    return most;
}

class Likeness {
  public:
    Likeness(const Train& train, const Placement& placement, const StartingRotations& rotations, const Motion& motion)
        : train_(train),
          placement_(placement),
          rotations_(rotations),
          rounds_(train.members.size()),
          symmetry_(train.members.size(), 0) {
        for (const Combination& rate : rates_on_frame(train, motion))
            turns_on_frame_.push_back(turns_per_driver_turn(motion, rate).value_or(Ratio()));
        each_member_from_the_frame(train, [&](MemberIndex member) { order_.push_back(member); });
        for (const MemberIndex member : order_) {
            const MemberIndex carrier = rides_on(train, member);
            if (carrier == kFrame || stands_on_axis(placement[PlaceIndex{first_place(member)}])) continue;
            Round& round = rounds_[member.position()] = round_of(train, member);
            int& symmetry = symmetry_[carrier.position()];
            symmetry = std::gcd(symmetry, round.symmetry);
        }
    }

    // What has to be whole for every place to look like itself; 0: nothing shows that anything turns.
    [[nodiscard]] Ratio measure_of_all_in_place() const {
        Ratio measure;
        for (const MemberIndex member : order_) {
            const Ratio& turns = turns_on_frame_[member.position()];
            if (symmetry_[member.position()] != 0) measure = common_measure(measure, turns);
            int teeth = 0;
            for (const GearIndex gear : gears_of(train_, member)) teeth = std::gcd(teeth, train_[gear].teeth);
            measure = common_measure(measure, turns * Ratio(teeth));
        }
        return measure;
    }

    // The largest n for which turns / n of the driver look like none, where `turns` take every place to itself.
    [[nodiscard]] Ratio loops_in(const Ratio& turns) const {
        Ratio loops = 1;
        for (const auto& [prime, exponent] : primes_of_lcm(symmetry_)) {
            Ratio power = prime;
            for (int i = 0; i < exponent && looks_alike_after(turns / power); ++i) {
                loops *= Ratio(prime);
                power *= Ratio(prime);
            }
        }
        return loops;
    }

  private:
    [[nodiscard]] int first_place(MemberIndex member) const { return placement_.first_place[member.position()]; }

    [[nodiscard]] bool looks_alike_after(const Ratio& turns) const {
        for (std::size_t m = 0; m < symmetry_.size(); ++m)
            if (symmetry_[m] != 0 && !(turns_on_frame_[m] * turns * Ratio(symmetry_[m])).is_whole()) return false;
        // Of each place, counted among its member's: the one that it has come to.
        std::vector<std::vector<int>> comes_to(train_.members.size());
        return std::ranges::all_of(order_, [&](MemberIndex member) {
            const MemberIndex carrier = rides_on(train_, member);
            comes_to[member.position()] =
                comes_to_on(member, turns, carrier == kFrame ? std::vector<int>{0} : comes_to[carrier.position()]);
            return has_teeth_alike(member, turns, comes_to[member.position()]);
        });
    }

    [[nodiscard]] std::vector<int> comes_to_on(MemberIndex member, const Ratio& turns,
                                               const std::vector<int>& carriers_come_to) const {
        const int copies = train_[member].copies;
        std::vector<int> next(static_cast<std::size_t>(copies));
        std::iota(next.begin(), next.end(), 0);
        const std::vector<int>& round = rounds_[member.position()].copies;
        if (!round.empty()) {
            const Ratio& carrier_turns = turns_on_frame_[rides_on(train_, member).position()];
            const Ratio step = (carrier_turns * turns).fraction() * Ratio(copies);
            const auto steps = static_cast<std::size_t>(step.small_numerator());
            for (std::size_t i = 0; i < round.size(); ++i)
                next[static_cast<std::size_t>(round[i])] = round[(i + steps) % round.size()];
        }
        std::vector<int> comes_to;
        for (const int under : carriers_come_to)
            for (const int copy : next) comes_to.push_back(under * copies + copy);
        return comes_to;
    }

    [[nodiscard]] bool has_teeth_alike(MemberIndex member, const Ratio& turns, const std::vector<int>& comes_to) const {
        const Angle turned = exact_angle((turns_on_frame_[member.position()] * turns).fraction());
        const int first = first_place(member);
        for (const GearIndex gear : gears_of(train_, member)) {
            const auto tooth_at = [&](int place) -> const Angle& { return rotations_.of(gear, {first + place}).tooth; };
            const Ratio teeth(train_[gear].teeth);
            for (std::size_t place = 0; place < comes_to.size(); ++place) {
                const Angle off = tooth_at(static_cast<int>(place)) + turned - tooth_at(comes_to[place]);
                if (!off.is_exact() || !(off.turns * teeth).is_whole()) return false;
            }
        }
        return true;
    }

    const Train& train_;
    const Placement& placement_;
    const StartingRotations& rotations_;
    std::vector<Ratio> turns_on_frame_;  // by member, per turn of the driver
    std::vector<Round> rounds_;          // by member
    std::vector<int> symmetry_;          // by member: of what it carries off its axis; 0: nothing
    std::vector<MemberIndex> order_;     // what is ridden on first
};

}  // namespace

std::optional<Ratio> alike_loop_turns(const Train& train, const Placement& placement,
                                      const StartingRotations& rotations, const Motion& motion) {
    const std::optional<Ratio> strict = strict_loop_turns(motion);
    if (!strict) return std::nullopt;
    const Likeness likeness(train, placement, rotations, motion);
    const Ratio measure = likeness.measure_of_all_in_place();
    if (measure.is_zero()) return strict;
    const Ratio turns = measure.inverse();
    return turns / likeness.loops_in(turns);
}

}  // namespace couplet
