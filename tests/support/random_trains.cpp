#include "support/random_trains.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "support/dice.hpp"
#include "support/equations.hpp"
#include "support/flint_rates.hpp"
#include "support/train_builder.hpp"

namespace couplet {

namespace {

class RandomBuilder {
  public:
    RandomBuilder(Dice& dice, const RandomTrainKind& kind) : dice_(dice), kind_(kind) {}

    Train train() {
        const int wanted = dice_.between(4, kind_.most_members);
        // A planetary set adds five members at most.
        while (member_count() + 5 <= std::max(wanted, 5)) add_something();
        return builder_.build();
    }

  private:
    [[nodiscard]] int member_count() const { return static_cast<int>(builder_.members().size()); }

    void add_something() {
        const int kind = dice_.between(1, 100);
        if (kind <= 20) {
            add_pair();
        } else if (kind <= 80) {
            add_planetary_set();
        } else if (kind <= 97) {
            add_planet_beside_planet();
        } else {
            add_mesh_too_many();
        }
    }

    MemberIndex new_member(MemberIndex rides_on) {
        return builder_.member("m" + std::to_string(member_count()), rides_on);
    }

    [[nodiscard]] std::vector<MemberIndex> riders(MemberIndex base) const {
        std::vector<MemberIndex> found;
        for (int m = 0; m < member_count(); ++m)
            if (builder_.members()[static_cast<std::size_t>(m)].rides_on == base) found.push_back({m});
        return found;
    }

    // The frame, or a member to nest something on.
    MemberIndex base() {
        if (member_count() == 0 || dice_.chance(60)) return kFrame;
        return {dice_.between(0, member_count() - 1)};
    }

    // A member that rides on the base and is none of `taken`: one that is there, or a new one.
    MemberIndex coaxial_member(MemberIndex base, const std::set<MemberIndex>& taken) {
        std::vector<MemberIndex> known = riders(base);
        std::erase_if(known, [&](MemberIndex m) { return taken.contains(m); });
        return known.empty() || dice_.chance(55) ? new_member(base) : dice_.pick(known);
    }

    void add_pair() {
        const MemberIndex on = base();
        if (kind_.coaxial && on == kFrame) return;
        const MemberIndex a = coaxial_member(on, {});
        const MemberIndex b = coaxial_member(on, {a});
        if (dice_.chance(70)) {
            builder_.external(a, dice_.between(8, 90), b, dice_.between(8, 90));
        } else {
            builder_.internal(a, dice_.between(8, 40), b, dice_.between(41, 120));
        }
    }

    // Sun, carrier and ring on one axis; one planet, stepped or not, or two that mesh with each other.
    void add_planetary_set() {
        const MemberIndex on = base();
        const MemberIndex carrier = coaxial_member(on, {});
        const MemberIndex sun = coaxial_member(on, {carrier});
        const MemberIndex ring = coaxial_member(on, {carrier, sun});
        const MemberIndex inner = new_member(carrier);
        builder_.external(sun, dice_.between(12, 60), inner, dice_.between(10, 50));
        const MemberIndex outer = dice_.chance(25) ? new_member(carrier) : inner;
        if (outer != inner) builder_.external(inner, dice_.between(10, 50), outer, dice_.between(10, 50));
        if (dice_.chance(85)) builder_.internal(outer, dice_.between(10, 50), ring, dice_.between(60, 150));
        if (dice_.chance(15)) {
            const MemberIndex second_sun = coaxial_member(on, {carrier, sun, ring});
            builder_.external(second_sun, dice_.between(12, 60), outer, dice_.between(10, 50));
        }
    }

    // Another planet like one that is there, with the same meshes.
    void add_planet_beside_planet() {
        if (member_count() == 0) return;
        const MemberIndex model{dice_.between(0, member_count() - 1)};
        const MemberIndex on = builder_.members()[model.position()].rides_on;
        const std::vector<Mesh> meshes = builder_.meshes();
        if (!riders(model).empty()) return;
        const MemberIndex twin = new_member(on);
        for (const Mesh& mesh : meshes) {
            if (gear(mesh.first).member == model) builder_.mesh(gear_like(twin, mesh.first), mesh.second);
            if (gear(mesh.second).member == model) builder_.mesh(mesh.first, gear_like(twin, mesh.second));
        }
    }

    // Two planets of one carrier that happen to touch: most often this locks something.
    void add_mesh_too_many() {
        const std::vector<MemberIndex> beside = riders(base());
        if (beside.size() < 2) return;
        const MemberIndex a = dice_.pick(beside);
        const MemberIndex b = dice_.pick(beside);
        if (a == b || (kind_.coaxial && builder_.members()[a.position()].rides_on == kFrame)) return;
        builder_.external(a, dice_.between(8, 60), b, dice_.between(8, 60));
    }

    [[nodiscard]] const Gear& gear(GearIndex index) const { return builder_.gears()[index.position()]; }
    GearIndex gear_like(MemberIndex member, GearIndex model) {
        return builder_.gear(member, gear(model).teeth, gear(model).internal);
    }

    Dice& dice_;
    const RandomTrainKind& kind_;
    TrainBuilder builder_;
};

// Adds holds, ties and drivers; keeps count of the rank, so that what is added bears on the motion or, on purpose,
// does not.
class RandomSetter {
  public:
    RandomSetter(const Train& train, Dice& dice) : train_(train), dice_(dice), rows_(mesh_rows(train)) {
        rank_ = rank_of(rows_);
        for (std::size_t m = 0; m < train.members.size(); ++m) unused_.push_back({static_cast<std::int32_t>(m)});
        dice_.shuffle(unused_);
    }

    Setting setting(bool moves) {
        const int wish = moves ? 0 : dice_.between(0, 99);
        const std::size_t drivers_to_leave = static_cast<std::size_t>(wish >= 95 ? 9 : dice_.between(1, 3));
        add_holds_and_ties(drivers_to_leave);
        add_drivers();
        if (wish >= 60 && wish < 75) add_hold();
        if (!moves && dice_.chance(20)) std::ranges::for_each(setting_.drive, [](Drive& drive) { drive.rpm = 0; });
        if (wish >= 75 && wish < 82) add_driver();
        if (wish >= 82 && wish < 88) add_agreeing_driver();
        if (wish >= 88 && !setting_.drive.empty()) setting_.drive.pop_back();
        if (wish >= 95) setting_.drive.clear();
        return setting_;
    }

  private:
    [[nodiscard]] std::size_t rank_of(const RateRows& rows) const { return rank_by_flint(rows, train_.members.size()); }
    [[nodiscard]] std::size_t freedom() const { return train_.members.size() - rank_; }

    // Keeps the row where it bears on the motion.
    bool adds_to_rank(const RateRow& row) {
        RateRows more = joined(rows_, {row});
        const std::size_t rank = rank_of(more);
        if (rank == rank_) return false;
        rows_ = std::move(more);
        rank_ = rank;
        return true;
    }

    MemberIndex take() {
        const MemberIndex member = unused_.back();
        unused_.pop_back();
        return member;
    }

    void add_holds_and_ties(std::size_t drivers_to_leave) {
        while (freedom() > drivers_to_leave && unused_.size() > 4) {
            const MemberIndex member = take();
            if (dice_.chance(25)) {
                const MemberIndex other = dice_.pick(unused_);
                if (adds_to_rank(relative_rate_row(train_, member, other)) || dice_.chance(20))
                    setting_.tie.emplace_back(member, other);
            } else if (adds_to_rank(relative_rate_row(train_, member, kFrame)) || dice_.chance(20)) {
                setting_.hold.push_back(member);
            }
        }
    }

    void add_drivers() {
        for (std::size_t k = 0; k < unused_.size() && freedom() > 0;) {
            const MemberIndex member = unused_[k];
            if (adds_to_rank(relative_rate_row(train_, member, kFrame))) {
                setting_.drive.push_back({member, dice_.speed()});
                unused_.erase(unused_.begin() + static_cast<std::ptrdiff_t>(k));
            } else {
                ++k;
            }
        }
    }

    void add_hold() {
        if (unused_.empty()) return;
        setting_.hold.push_back(take());
        adds_to_rank(relative_rate_row(train_, setting_.hold.back(), kFrame));
    }

    void add_driver() {
        if (!unused_.empty()) setting_.drive.push_back({take(), dice_.speed()});
    }

    // One more driver, at the speed that its member has anyway.
    void add_agreeing_driver() {
        if (unused_.empty() || freedom() > 0) return;
        const MemberIndex member = take();
        RateRows rows = joined(still_rows(train_, setting_), driver_rows(train_, setting_));
        std::vector<std::vector<Ratio>> right(rows.size() - setting_.drive.size(), {Ratio(0)});
        for (const Drive& drive : setting_.drive) right.push_back({drive.rpm});
        Ratio speed;
        const FlintRates known = rates_by_flint(rows, right, train_.members.size());
        for (const auto& [column, coefficient] : relative_rate_row(train_, member, kFrame))
            speed += known.rates[column]->front() * coefficient;
        setting_.drive.push_back({member, speed});
    }

    const Train& train_;
    Dice& dice_;
    RateRows rows_;
    std::size_t rank_ = 0;
    std::vector<MemberIndex> unused_;
    Setting setting_;
};

}  // namespace

RandomTrain random_train(std::uint64_t seed, const RandomTrainKind& kind) {
    Dice dice(seed);
    RandomTrain random{RandomBuilder(dice, kind).train(), {}};
    random.setting = RandomSetter(random.train, dice).setting(kind.moves);
    return random;
}

}  // namespace couplet
