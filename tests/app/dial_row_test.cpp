#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "app/dial.hpp"
#include "app/disc_button.hpp"
#include "app/frame_parts.hpp"
#include "app/null_window.hpp"
#include "app/outcome_strip.hpp"
#include "support/ratio_printer.hpp"
#include "support/train_families.hpp"
#include "support/train_notation.hpp"

namespace couplet {

namespace {

void draw(Screen& screen, const Session& session, Edits& edits) {
    draw_dial_row(screen, session, edits, places_px(screen, session.view, ImGui::GetIO().DisplaySize));
}

// The harbour capstan as the program carries it: crank 21, planets 24 on the drum, ring 69 held, the crank driven.
class Capstan : public NullWindow {
  public:
    explicit Capstan(float scale = 1) : NullWindow("", draw, Daylight::light, scale) {}

    MemberIndex member(const std::string& name) const { return member_named(session.train(), name); }
    ImVec2 middle(const std::string& dial) const {
        const Said one = said(dial);
        return {0.5F * (one.box_px[0] + one.box_px[2]), 0.5F * (one.box_px[1] + one.box_px[3])};
    }
    double crank_turns() const { return session.crank.driver_turns(session.study->motion()).to_double(); }
};

// A train in a setting of its own, without a stage: its dials alone are drawn.
void show(NullWindow& window, Train train, Setting setting) {
    train.settings = {std::move(setting)};
    window.session.history = History(draft_of(std::move(train)));
    window.session.study = std::make_shared<Study>(window.session.draft(), CoupleOptions{});
    window.session.crank.start_again(window.session.train(), window.session.study->motion());
    window.frame(3);
}

std::size_t count_of(const NullWindow& window, const std::string& role) {
    return static_cast<std::size_t>(std::ranges::count(window.screen.said, role, &Said::role));
}

TEST(Dials, SayTheExactTurnsPerDriverTurn) {
    const Capstan window;
    // Ring held: drum 21 / (21 + 69) = 7/30; the planet turns -161/240 on the drum (design, section 5),
    // and with the drum's own 7/30 = 56/240 that is -105/240 = -7/16 on the frame.
    EXPECT_EQ(window.said("crank").value, "1 driver");
    EXPECT_EQ(window.said("drum").value, "7/30");
    EXPECT_EQ(window.said("planet").value, "-7/16");
    EXPECT_EQ(window.said("ring").value, "0 held");
    EXPECT_EQ(window.said("drum").role, "dial");
}

TEST(Dials, CountAgainstTheObserver) {
    Capstan window;
    window.session.view.look.observer = window.member("drum");
    window.frame();
    // Each less the drum's 7/30.
    EXPECT_EQ(window.said("crank").value, "23/30 driver");
    EXPECT_EQ(window.said("drum").value, "0");
    EXPECT_EQ(window.said("planet").value, "-161/240");
    EXPECT_EQ(window.said("ring").value, "-7/30 held");
}

TEST(Dials, StandInARowWithinTheirHeight) {
    for (const float scale : {1.0F, 2.0F}) {
        const Capstan window(scale);
        const Places_px places = places_px(window.screen, window.session.view, ImGui::GetIO().DisplaySize);
        float left = places.rail_width + 220 * scale;  // the controls' room
        for (const char* name : {"crank", "drum", "planet", "ring"}) {
            const Said dial = window.said(name);
            EXPECT_GT(dial.box_px[0], left) << name;
            left = dial.box_px[2];
            EXPECT_GT(dial.box_px[1], places.window.y - places.dial_row_height);
            EXPECT_FLOAT_EQ(dial.box_px[2] - dial.box_px[0], 64 * scale);
        }
    }
}

TEST(Dials, ThePinHoldsAMemberAndLetsGoOfIt) {
    Capstan window;
    EXPECT_EQ(window.said("pin ring").value, "on");
    EXPECT_EQ(window.said("pin drum").value, "off");
    window.click("pin ring");
    ASSERT_EQ(window.last_commands.size(), 1U);
    EXPECT_EQ(std::get<ChangeDraft>(window.last_commands.front()).what, "unpin ring");
    EXPECT_EQ(window.said("pin ring").value, "off");
    EXPECT_EQ(window.session.study->motion().outcome, Outcome::free);
    window.click("pin drum");
    // The drum held, the planets are idlers: ring -21/69 = -7/23.
    EXPECT_EQ(window.said("ring").value, "-7/23");
    EXPECT_EQ(window.said("drum").value, "0 held");
}

TEST(Dials, TheHandleDrivesAMemberInPlaceOfTheDriver) {
    Capstan window;
    EXPECT_EQ(window.said("drive crank").value, "on");
    window.click("drive drum");
    EXPECT_EQ(window.said("drive drum").value, "on");
    EXPECT_EQ(window.said("drive crank").value, "off");
    EXPECT_EQ(window.said("crank").value, "30/7");  // 1 / (7/30)
    window.click("drive drum");
    EXPECT_EQ(window.said("dials/drive drum").value, "off");
    EXPECT_EQ(window.session.study->motion().outcome, Outcome::free);
}

TEST(Dials, AHandThatIsDraggedTurnsTheTrain) {
    Capstan window;
    const ImVec2 middle = window.middle("crank");
    // From +X up to +Y: a quarter turn, counter-clockwise; the straight way between them goes round as far.
    window.drag({middle.x + 25, middle.y}, {middle.x, middle.y - 25});
    EXPECT_NEAR(window.crank_turns(), 0.25, 1e-4);
    window.drag({middle.x, middle.y - 25}, {middle.x + 25, middle.y});
    EXPECT_NEAR(window.crank_turns(), 0.0, 1e-4);
}

TEST(Dials, ADraggedMemberFollowsTheHandAgainstTheObserver) {
    Capstan window;
    window.session.view.look.observer = window.member("drum");
    window.frame(2);
    const ImVec2 middle = window.middle("ring");
    window.drag({middle.x + 25, middle.y}, {middle.x, middle.y - 25});
    // The ring turns -7/30 against the drum per turn of the crank.
    EXPECT_NEAR(window.crank_turns(), 0.25 / (-7.0 / 30), 1e-3);
}

TEST(Dials, AMemberThatCannotTurnSaysWhy) {
    Capstan window;
    window.hover("ring");
    const ImVec2 middle = window.middle("ring");
    ImGuiIO& io = ImGui::GetIO();
    io.MousePos = {middle.x + 20, middle.y};
    window.frame(2);
    io.MouseDown[0] = true;
    window.frame();
    io.MousePos = {middle.x + 15, middle.y - 15};
    window.frame();
    EXPECT_EQ(window.said("stuck ring").value, "held");
    EXPECT_EQ(window.crank_turns(), 0);
    io.MouseDown[0] = false;
    window.frame(2);
    EXPECT_FALSE(window.says("stuck ring"));
}

TEST(Dials, PointingAtADialPointsAtItsMember) {
    Capstan window;
    window.hover("planet");
    EXPECT_EQ(window.session.view.pointed, window.member("planet"));
    window.hover("drive drum");
    EXPECT_EQ(window.session.view.pointed, window.member("drum"));
    window.hover("run");
    EXPECT_EQ(window.session.view.pointed, std::nullopt);
}

TEST(Dials, OfALongTrainOnlyThoseInSightAreDrawn) {
    NullWindow window("", draw);
    FamilyTrain chain = idler_chain(1000);
    show(window, std::move(chain.train), std::move(chain.setting));
    // (1280 - 76 - 220) / 124 = 7.9 of them fit.
    EXPECT_EQ(count_of(window, "dial"), 8U);
    EXPECT_LT(window.screen.said.size(), 60U);
    const ImVec2 on_row(1000, 3990);
    ImGui::GetIO().MousePos = on_row;
    window.frame();
    ImGui::GetIO().MouseWheel = -2;
    window.frame();
    EXPECT_EQ(window.session.view.dial_scroll_px, 124);  // two notches are one dial
    ImGui::GetIO().MouseWheel = 100;
    window.frame();
    EXPECT_EQ(window.session.view.dial_scroll_px, 0);
    ImGui::GetIO().MouseWheel = -100000;
    window.frame(2);
    EXPECT_NEAR(window.session.view.dial_scroll_px, 1000 * 124 - (1280 - 76 - 220), 2);
    EXPECT_LE(count_of(window, "dial"), 9U);
    const std::string last = window.session.train().members.back().name;
    EXPECT_EQ(window.said(last).role, "dial");
}

TEST(Dials, TheGroundIsDraggedSideways) {
    NullWindow window("", draw);
    FamilyTrain chain = idler_chain(30);
    show(window, std::move(chain.train), std::move(chain.setting));
    // Below the faces, between two names.
    window.drag({800, 3996}, {700, 3996});
    EXPECT_NEAR(window.session.view.dial_scroll_px, 100, 1);
    EXPECT_TRUE(window.last_commands.empty());
    window.drag({700, 3996}, {1200, 3996});
    EXPECT_EQ(window.session.view.dial_scroll_px, 0);
}

TEST(Dials, OfAShortTrainAreNotScrolled) {
    Capstan window;
    ImGui::GetIO().MousePos = {1000, 3990};
    window.frame();
    ImGui::GetIO().MouseWheel = -3;
    window.frame(2);
    EXPECT_EQ(window.session.view.dial_scroll_px, 0);
}

TEST(Fitted, CutsBetweenCharactersAndOnlyWhatIsTooLong) {
    const NullWindow window("", draw);
    const ImFont& font = *window.screen.fonts.text;
    const auto width = [&](const std::string& text) {
        return font.CalcTextSizeA(font.FontSize, 1e9F, 0, text.c_str()).x;
    };
    const std::string name = "Zahnr\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4\xC3\xA4 der Seilwinde";
    EXPECT_EQ(fitted(name, font, width(name)), name);
    for (float room = 20; room < width(name); room += 3) {
        const std::string cut = fitted(name, font, room);
        ASSERT_TRUE(cut.ends_with("\xE2\x80\xA6"));  // an ellipsis
        EXPECT_LE(width(cut), room);
        // What is left is a beginning of the name that ends before a character, not within one.
        const std::string left = cut.substr(0, cut.size() - 3);
        EXPECT_TRUE(name.starts_with(left));
        EXPECT_NE(static_cast<unsigned char>(name[left.size()]) & 0xC0U, 0x80U) << cut;
    }
}

TEST(TurnsRound, CountsTheShortWayAcrossTheLeftSide) {
    const ImVec2 middle(100, 100);
    // From 10 degrees above -X to 10 degrees below it, counter-clockwise: 20/360.
    const auto at = [&](double degrees) {
        const double angle = degrees * std::numbers::pi / 180;
        return ImVec2(static_cast<float>(100 + 30 * std::cos(angle)), static_cast<float>(100 - 30 * std::sin(angle)));
    };
    EXPECT_NEAR(turns_round(middle, at(170), at(190), 5), 20.0 / 360, 1e-6);
    EXPECT_NEAR(turns_round(middle, at(190), at(170), 5), -20.0 / 360, 1e-6);
    EXPECT_EQ(turns_round(middle, {102, 100}, at(90), 5), 0);
}

TEST(Running, RunsStepsAndGoesBackToTheStart) {
    Capstan window;
    EXPECT_EQ(window.said("run").value, "standing");
    window.click("run");
    EXPECT_TRUE(window.session.view.running);
    EXPECT_EQ(window.said("run").value, "running");
    window.click("run");
    EXPECT_FALSE(window.session.view.running);
    window.click("step on");
    EXPECT_NEAR(window.crank_turns(), 1.0 / 21, 1e-6);  // one of the crank's 21 teeth
    window.click("step back");
    EXPECT_NEAR(window.crank_turns(), 0, 1e-6);
    window.click("step on");
    window.click("to start");
    EXPECT_EQ(window.crank_turns(), 0);
}

TEST(Running, IsNotOfferedWhereNothingDrives) {
    Capstan window;
    window.click("drive crank");
    EXPECT_FALSE(window.said("run").enabled);
    EXPECT_FALSE(window.said("step on").enabled);
    EXPECT_TRUE(window.said("to start").enabled);
}

TEST(SettingChoice, ChoosesASetting) {
    // Not at the lower end of all room, so that the list has some below it.
    NullWindow window("", [](Screen& screen, const Session& session, Edits& edits) {
        draw_dial_row(screen, session, edits, places_px(screen, session.view, {1280, 2000}));
    });
    EXPECT_EQ(window.said("setting").value, "hauling");
    EXPECT_EQ(window.said("drivers").value, "crank at 30 rpm");
    window.click("setting");
    window.click("setting: lowering");
    EXPECT_EQ(window.said("setting").value, "lowering");
    EXPECT_EQ(window.session.draft().chosen, SettingIndex{1});
}

TEST(SettingChoice, ATrialIsKeptOrGoesBack) {
    Capstan window;
    const std::size_t settings = window.session.train().settings.size();
    EXPECT_FALSE(window.says("keep"));
    window.click("drive drum");
    EXPECT_EQ(window.said("setting").value, "hauling, changed");
    window.click("back");
    EXPECT_EQ(window.said("setting").value, "hauling");
    EXPECT_FALSE(window.session.draft().trial);
    window.click("drive drum");
    window.click("keep");
    EXPECT_EQ(window.said("setting").value, "hauling 2");
    EXPECT_EQ(window.session.train().settings.size(), settings + 1);
}

TEST(SettingChoice, ATrialOfNoSettingGoesBackToNone) {
    NullWindow window("", draw);
    Train train = train_from("a 20 x b 30");
    window.session.history = History(draft_of(train));
    window.session.study = std::make_shared<Study>(window.session.draft(), CoupleOptions{});
    window.session.crank.start_again(window.session.train(), window.session.study->motion());
    window.frame(2);
    EXPECT_EQ(window.said("setting").value, "no setting");
    window.click("dials/drive a");
    EXPECT_EQ(window.said("setting").value, "no setting, changed");
    EXPECT_EQ(window.said("b").value, "-2/3");  // -20/30
    window.click("back");
    EXPECT_EQ(window.said("setting").value, "no setting");
    EXPECT_FALSE(window.session.draft().trial);
}

TEST(OutcomeStrip, OneLineWhereItMoves) {
    const Capstan window;
    EXPECT_EQ(window.said("outcome/verdict").value, "moves: freedom 1, 1 driver");
}

TEST(OutcomeStrip, AButtonForEachPinThatFreesALockedTrain) {
    Capstan window;
    window.click("pin drum");
    ASSERT_EQ(window.session.study->motion().outcome, Outcome::locked);
    EXPECT_EQ(window.said("crank").value, "locked driver");
    EXPECT_TRUE(window.shows("Locked: crank cannot turn."));
    EXPECT_TRUE(window.says("pull drum"));
    window.frame(2);  // the strip shows in the second frame, once its height is known
    window.click("pull ring");
    EXPECT_EQ(window.session.study->motion().outcome, Outcome::moves);
    EXPECT_EQ(window.said("drum").value, "0 held");
    EXPECT_EQ(window.said("ring").value, "-7/23");  // -21/69, the planets idling
}

TEST(OutcomeStrip, AButtonForMembersThatCouldDrive) {
    Capstan window;
    window.click("drive crank");  // it drives no more
    ASSERT_EQ(window.session.study->motion().outcome, Outcome::free);
    EXPECT_TRUE(window.shows("Free: 1 driver missing"));
    window.frame(2);  // the strip shows in the second frame, once its height is known
    window.click("outcome/drive drum");
    EXPECT_EQ(window.session.study->motion().outcome, Outcome::moves);
    EXPECT_EQ(window.said("drum").value, "1 driver");
}

TEST(OutcomeStrip, DriversThatContradictEachOtherAreToldInWords) {
    NullWindow window("", draw);
    const SolvedTrain both = solved("a 20 x b 30", "drive a 30, b 30");
    show(window, both.train, both.setting);
    EXPECT_TRUE(window.shows("Conflicting: the drivers contradict each other."));
    EXPECT_EQ(window.said("a").value, "conflicting driver");
}

TEST(Releases, AreNamedAndTaken) {
    const SolvedTrain train = solved("a 20 x b 30; c 20 x d 30", "hold b; tie a=c; drive a 1");
    Draft draft = draft_of(train.train);
    draft.train.settings = {train.setting};
    draft.chosen = SettingIndex{0};
    const Release both{{0}, {0}};
    EXPECT_EQ(release_name(draft.train, train.setting, both), "pull b and untie a = c");
    const Setting after = running_setting(released(draft, both));
    EXPECT_TRUE(after.hold.empty());
    EXPECT_TRUE(after.tie.empty());
    EXPECT_EQ(after.drive, train.setting.drive);
}

}  // namespace
}  // namespace couplet
