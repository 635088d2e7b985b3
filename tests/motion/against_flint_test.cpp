// Every number of a motion against a general-purpose exact library that solves the same equations, written down apart
// from the solver (support/equations.hpp).
#include <gtest/gtest.h>

#include <map>
#include <string>

#include "motion/explain.hpp"
#include "motion/motion.hpp"
#include "support/equations.hpp"
#include "support/flint_rates.hpp"
#include "support/outcome_printer.hpp"
#include "support/random_trains.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_families.hpp"

namespace couplet {
namespace {

using Sides = std::vector<std::vector<Ratio>>;

class Rival {
  public:
    Rival(const Train& train, const Setting& setting)
        : train_(train),
          setting_(setting),
          still_(still_rows(train, setting)),
          driven_(joined(still_, driver_rows(train, setting))) {}

    [[nodiscard]] std::size_t rank(const RateRows& rows) const { return rank_by_flint(rows, columns()); }
    [[nodiscard]] std::size_t freedom() const { return columns() - rank(still_); }
    [[nodiscard]] std::size_t missing_drivers() const { return columns() - rank(driven_); }
    [[nodiscard]] bool drivers_are_independent() const { return rank(driven_) == rank(still_) + setting_.drive.size(); }
    // The drivers can have these speeds together.
    [[nodiscard]] bool allows(const std::vector<Ratio>& speeds) const {
        Sides right(still_.size(), {Ratio()});
        for (const Ratio& speed : speeds) right.push_back({speed});
        return rates_by_flint(driven_, right, columns()).consistent;
    }
    // The driver stands still whatever the other drivers do.
    [[nodiscard]] bool blocks(const Drive& driver) const {
        return rank(joined(still_, {relative_rate_row(train_, driver.member, kFrame)})) == rank(still_);
    }
    // The member's rate against the frame follows from the drivers.
    [[nodiscard]] bool fixes(MemberIndex member) const {
        return rank(joined(driven_, {relative_rate_row(train_, member, kFrame)})) == rank(driven_);
    }

    [[nodiscard]] Outcome outcome() const {
        bool locked = freedom() == 0;
        std::vector<Ratio> speeds;
        for (const Drive& driver : setting_.drive) {
            speeds.push_back(driver.rpm);
            locked = locked || (!driver.rpm.is_zero() && blocks(driver));
        }
        if (locked) return Outcome::locked;
        if (!allows(speeds)) return Outcome::conflicting;
        return missing_drivers() > 0 ? Outcome::free : Outcome::moves;
    }

    // Joint rates: one side for each driver at 1 with the others at rest where the drivers are independent, else one
    // for all drivers at their speeds; then one for each of the joints that stand in for missing drivers.
    [[nodiscard]] FlintRates rates(const std::vector<MemberIndex>& free_joints) const {
        RateRows rows = driven_;
        for (const MemberIndex joint : free_joints) rows.push_back({{joint.position(), 1}});
        const std::size_t driver_sides = drivers_are_independent() ? setting_.drive.size() : 1;
        Sides right(rows.size(), std::vector<Ratio>(driver_sides + free_joints.size()));
        for (std::size_t k = 0; k < setting_.drive.size(); ++k) {
            std::vector<Ratio>& sides = right[still_.size() + k];
            drivers_are_independent() ? sides[k] = 1 : sides[0] = setting_.drive[k].rpm;
        }
        for (std::size_t k = 0; k < free_joints.size(); ++k) right[driven_.size() + k][driver_sides + k] = 1;
        return rates_by_flint(rows, right, columns());
    }

  private:
    [[nodiscard]] std::size_t columns() const { return train_.members.size(); }

    const Train& train_;
    const Setting& setting_;
    RateRows still_;
    RateRows driven_;
};

// A joint's rate in the form of Rival::rates.
std::vector<Ratio> in_rival_form(const Motion& motion, std::span<const Ratio> rate, bool by_driver) {
    // Shared parameters mean nothing to anybody else.
    if (motion.free_joints.size() != motion.free_parameters) rate = rate.first(motion.drivers.size());
    if (by_driver) return {rate.begin(), rate.end()};
    std::vector<Ratio> form(1);
    for (std::size_t k = 0; k < motion.drivers.size(); ++k) form[0] += rate[k] * motion.drivers[k].rpm;
    form.insert(form.end(), rate.begin() + static_cast<std::ptrdiff_t>(motion.drivers.size()), rate.end());
    return form;
}

void expect_equal_rates(const Train& train, const Motion& motion, const Rival& rival) {
    const bool by_driver = rival.drivers_are_independent();
    const FlintRates theirs = rival.rates(motion.free_joints);
    ASSERT_TRUE(theirs.consistent);
    for (std::size_t m = 0; m < train.members.size(); ++m) {
        const MemberIndex member{static_cast<std::int32_t>(m)};
        const bool told = motion.free_joints.size() == motion.free_parameters ||
                          !needs_missing_driver(motion, motion.joint_rate(member));
        ASSERT_EQ(theirs.rates[m].has_value(), told) << train.members[m].name;
        if (!theirs.rates[m]) continue;
        EXPECT_EQ(in_rival_form(motion, motion.joint_rate(member), by_driver), *theirs.rates[m])
            << train.members[m].name;
    }
}

// The drivers of the relation alone, at speeds that meet it, can be had, and no other speed of the last one can.
void expect_true_relation(const Train& train, const Setting& setting, const Combination& relation) {
    Setting related = setting;
    related.drive.clear();
    std::vector<Ratio> speeds;
    Ratio sum;
    std::size_t last = 0;
    for (std::size_t k = 0; k < relation.size(); ++k) {
        if (relation[k].is_zero()) continue;
        last = k;
        related.drive.push_back(setting.drive[k]);
        speeds.emplace_back(static_cast<std::int64_t>(3 * k + 7));
        sum += relation[k] * speeds.back();
    }
    EXPECT_EQ(relation[last], Ratio(1));
    const Rival rival(train, related);
    speeds.back() -= sum;
    EXPECT_TRUE(rival.allows(speeds));
    speeds.back() += 1;
    EXPECT_FALSE(rival.allows(speeds));
}

void expect_true_contradictions(const Train& train, const Setting& setting, const Motion& motion) {
    EXPECT_FALSE(motion.contradictions.empty());
    for (const Contradiction& contradiction : motion.contradictions) {
        ASSERT_EQ(contradiction.coefficients.size(), setting.drive.size());
        Ratio excess;
        for (std::size_t k = 0; k < setting.drive.size(); ++k)
            excess += contradiction.coefficients[k] * setting.drive[k].rpm;
        EXPECT_EQ(excess, contradiction.excess_rpm);
        EXPECT_FALSE(excess.is_zero());
        expect_true_relation(train, setting, contradiction.coefficients);
    }
}

void expect_agreement(const Train& train, const Setting& setting, std::map<Outcome, int>* seen) {
    const Motion motion = solve(train, setting);
    const Rival rival(train, setting);
    ASSERT_EQ(motion.outcome, rival.outcome());
    ++(*seen)[motion.outcome];
    EXPECT_EQ(motion.freedom, static_cast<int>(rival.freedom()));
    if (motion.outcome == Outcome::moves || motion.outcome == Outcome::free) {
        EXPECT_EQ(motion.missing_drivers, static_cast<int>(rival.missing_drivers()));
        EXPECT_TRUE(motion.contradictions.empty());
        expect_equal_rates(train, motion, rival);
    } else if (motion.outcome == Outcome::conflicting) {
        expect_true_contradictions(train, setting, motion);
    }
}

TEST(AgainstFlint, RandomTrainsAgreeInOutcomeFreedomAndEveryRate) {
    std::map<Outcome, int> seen;
    for (std::uint64_t seed = 1; seed <= 800; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed);
        ASSERT_NO_FATAL_FAILURE(expect_agreement(random.train, random.setting, &seen));
    }
    // The generator has to bring up every outcome for this to mean much.
    EXPECT_GE(seen[Outcome::moves], 400);
    EXPECT_GE(seen[Outcome::free], 60);
    EXPECT_GE(seen[Outcome::locked], 40);
    EXPECT_GE(seen[Outcome::conflicting], 40);
}

TEST(AgainstFlint, FamiliesOfLongTrainsAgreeInEveryRate) {
    std::map<Outcome, int> seen;
    for (const FamilyTrain& family :
         {family_a(100), family_b(100, DriverPlace::beside_the_held), family_b(100, DriverPlace::far_end),
          family_c(100), compound_chain(60), idler_chain(100), many_small_sets(100)})
        ASSERT_NO_FATAL_FAILURE(expect_agreement(family.train, family.setting, &seen));
    EXPECT_EQ(seen[Outcome::moves], 7);
}

TEST(AgainstFlint, LongTrainsOfFreedomTwoAgreeInEveryRate) {
    FamilyTrain family = family_b(100, DriverPlace::far_end);
    const MemberIndex near_end = family.setting.hold[0];
    family.setting.hold.clear();
    std::map<Outcome, int> seen;
    ASSERT_NO_FATAL_FAILURE(expect_agreement(family.train, family.setting, &seen));
    family.setting.drive.push_back({near_end, Ratio(7, 3)});
    ASSERT_NO_FATAL_FAILURE(expect_agreement(family.train, family.setting, &seen));
    EXPECT_EQ(seen[Outcome::free], 1);
    EXPECT_EQ(seen[Outcome::moves], 1);
}

TEST(AgainstFlint, ThoseWhoCouldDriveAreThoseWhoseRateTheDriversDoNotFix) {
    int free_settings = 0;
    for (std::uint64_t seed = 2001; free_settings < 60; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        const RandomTrain random = random_train(seed, {.most_members = 25});
        const Motion motion = solve(random.train, random.setting);
        if (motion.outcome != Outcome::free) continue;
        ++free_settings;
        const Rival rival(random.train, random.setting);
        std::vector<MemberIndex> expected;
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(random.train.members.size()); ++m)
            if (!rival.fixes({m})) expected.push_back({m});
        ASSERT_EQ(explain(random.train, random.setting, motion).could_drive, expected);
    }
}

}  // namespace
}  // namespace couplet
