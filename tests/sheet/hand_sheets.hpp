// Hand sheets: coupling sheets written down value by value, so that what is read can be tested apart from the solver.
#pragma once

#include "couple/coupling.hpp"
#include "support/train_notation.hpp"

namespace couplet {

// The harbour capstan of the design's section 5, "hauling": ring held, crank at 30 rpm; three planets on the drum.
// Members in order: crank, planet, ring, drum. One coupling: crank on frame to planet on drum.
struct HandSheet {
    Train train;
    CouplingSheet sheet;

    [[nodiscard]] MemberIndex member(const std::string& name) const { return member_named(train, name); }
    [[nodiscard]] Joint joint(const std::string& turns, const std::string& against) const {
        return {turns + " on " + against, member(turns), against == "frame" ? kFrame : member(against), false};
    }
    [[nodiscard]] Coupling& coupling() { return sheet.couplings.front(); }
    [[nodiscard]] const Coupling& coupling() const { return sheet.couplings.front(); }
};

[[nodiscard]] inline HandSheet capstan_sheet() {
    HandSheet hand;
    hand.train = train_from("crank 21 x planet 24; planet 24 in ring 69 (planet on drum)");
    hand.train.title = "Harbour capstan";
    hand.train.members[hand.member("planet").position()].copies = 3;

    CouplingSheet& sheet = hand.sheet;
    sheet.setting = setting_from(hand.train, "hold ring; drive crank 30");
    sheet.setting.name = "hauling";
    sheet.motion.freedom = 1;
    sheet.motion.drivers = sheet.setting.drive;
    sheet.reference_driver = sheet.setting.drive.front();
    // 7/30 = 21/(21+69) (Willis); -161/240 and 7 rpm are the example in the design's section 5.
    sheet.members = {{hand.member("crank"), {1}, Ratio(1), Ratio(30)},
                     {hand.member("planet"), {Ratio(-7, 16)}, Ratio(-7, 16), Ratio(-105, 8)},
                     {hand.member("ring"), {0}, Ratio(0), Ratio(0)},
                     {hand.member("drum"), {Ratio(7, 30)}, Ratio(7, 30), Ratio(7)}};
    sheet.joints = {{hand.joint("crank", "frame"), {1}, Ratio(1)},
                    {hand.joint("planet", "drum"), {Ratio(-161, 240)}, Ratio(-161, 240)}};

    Coupling coupling;
    coupling.first = hand.joint("crank", "frame");
    coupling.second = hand.joint("planet", "drum");
    coupling.second_per_first = Ratio(-161, 240);
    coupling.degrees = {360, Ratio(-483, 2)};
    coupling.whole_degrees = {240, -161};
    coupling.to_type.degrees = coupling.degrees;
    coupling.opposite = true;
    coupling.expression = "-360 * 21/24 * 69/(21+69)";
    coupling.correction = CarrierCorrection{Ratio(-7, 8), Ratio(-161, 240), Ratio(-147, 2)};
    sheet.couplings = {coupling};
    return hand;
}

// The same with angles typed and a verdict on them.
[[nodiscard]] inline HandSheet audited_sheet(const DegreePair& typed, Mistake mistake, const Ratio& off_deg_per_turn) {
    HandSheet hand = capstan_sheet();
    Audit audit;
    audit.mistake = mistake;
    audit.off_deg_per_turn = off_deg_per_turn;
    audit.drift_deg_per_1000_turns = off_deg_per_turn * Ratio(1000);
    audit.corrected = hand.coupling().to_type.degrees;
    hand.coupling().typed = typed;
    hand.coupling().audit = audit;
    return hand;
}

}  // namespace couplet
