#include "find/candidate.hpp"

#include <gtest/gtest.h>

#include "motion/motion.hpp"
#include "support/ratio_printer.hpp"
#include "train/arrangement.hpp"

namespace couplet {
namespace {

// With the carrier at rest the solver's rates are in proportion to k.
void expect_rates(Arrangement arrangement, const std::vector<int>& counts, const CentralRates& rates,
                  const std::vector<std::string>& members) {
    Train train = train_of(arrangement, counts);
    const auto member = [&](const std::string& name) { return *find_member(train, name); };
    train.settings = {{"carrier held", {member("carrier")}, {}, {{member("sun"), Ratio(1)}}}};
    const Motion motion = solve(train, train.settings.front());
    ASSERT_EQ(motion.outcome, Outcome::moves);
    for (std::size_t k = 0; k < members.size(); ++k)
        EXPECT_EQ(*turns_per_driver_turn(motion, rate_on(train, motion, member(members[k]), kFrame)),
                  Ratio(rates[k], rates[0]))
            << members[k];
}

TEST(CentralRates, AreThoseOfTheSolver) {
    expect_rates(Arrangement::simple, {21, 24, 69}, simple_rates(21, 69), {"sun", "carrier", "ring"});
    expect_rates(Arrangement::stepped, {24, 30, 21, 75}, stepped_rates(24, 30, 21, 75), {"sun", "carrier", "ring"});
    expect_rates(Arrangement::paired, {28, 18, 18, 79}, paired_rates(28, 79), {"sun", "carrier", "ring"});
    expect_rates(Arrangement::two_rings, {18, 27, 72, 24, 69}, two_rings_rates(18, 27, 72, 24, 69),
                 {"sun", "carrier", "held ring", "output ring"});
}

}  // namespace
}  // namespace couplet
