#include "sheet/coupling_words.hpp"

#include <gtest/gtest.h>

#include "support/train_notation.hpp"

namespace couplet {
namespace {

struct Coupled {
    Train train;
    CouplingSheet sheet;

    [[nodiscard]] const Coupling& to(const std::string& second) const {
        for (const Coupling& coupling : sheet.couplings)
            if (coupling.second.name == second) return coupling;
        throw std::invalid_argument(second);
    }
};

Coupled planetary(const std::string& setting, int decimals = 3) {
    Coupled coupled{train_from("sun 21 x planet 24; planet 24 in ring 69 (planet on carrier)"), {}};
    CoupleOptions options;
    options.limits.decimals = decimals;
    options.limits.cap_deg = 400;
    coupled.sheet = couple(coupled.train, setting_from(coupled.train, setting), options);
    return coupled;
}

TEST(CouplingWords, NameTheCarrierThatTurns) {
    const Coupled held_ring = planetary("hold ring; drive sun 1");
    const MemberIndex carrier = member_named(held_ring.train, "carrier");
    EXPECT_EQ(turning_carrier(held_ring.train, held_ring.sheet, held_ring.to("planet on carrier")), carrier);
    EXPECT_FALSE(turning_carrier(held_ring.train, held_ring.sheet, held_ring.to("carrier on frame")));
    const Coupled held_carrier = planetary("hold carrier; drive sun 1");
    EXPECT_FALSE(turning_carrier(held_carrier.train, held_carrier.sheet, held_carrier.to("planet on carrier")));
}

TEST(CouplingWords, TellWhichJointSitsOnTheCarrier) {
    const Coupled coupled = planetary("hold ring; drive sun 1");
    EXPECT_EQ(why_corrected(coupled.train, coupled.sheet, coupled.to("planet on carrier")),
              "Tooth counts hold for an eye that rides on 'carrier', and 'carrier' turns too. The joint 'planet on "
              "carrier' sits there. 'sun on frame' is not measured from there, so the turning of 'carrier' has to be "
              "counted in.");
}

TEST(CouplingWords, TellTheDriftOfARoundedPair) {
    // Held carrier: the ring turns by -21/69 = -7/23. Within 400 degrees 368 : -112 is exact; from 20 degrees on none.
    Coupled coupled = planetary("hold carrier; drive sun 1", 0);
    CoupleOptions options;
    options.limits = {Ratio(20), 0, Ratio(20)};
    coupled.sheet = couple(coupled.train, coupled.sheet.setting, options);
    const std::string text = drift_text(coupled.train, coupled.to("ring on frame"));
    EXPECT_TRUE(text.starts_with("ring on frame: ")) << text;
    EXPECT_NE(text.find("deg per 1000 turns of sun on frame"), std::string::npos) << text;
    EXPECT_TRUE(text.ends_with("The formula is exact.")) << text;
}

}  // namespace
}  // namespace couplet
