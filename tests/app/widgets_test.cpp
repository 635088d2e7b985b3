// Widgets do what they say and say what they do.
#include "app/widgets.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "app/null_window.hpp"

namespace couplet {
namespace {

TEST(WholeField, GivesTheNumberTyped) {
    int teeth = 21;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = whole_field(screen, "teeth", teeth, 3, 500)) teeth = *changed;
    });
    EXPECT_EQ(window.said("teeth").value, "21");
    window.type("teeth", "24");
    EXPECT_EQ(teeth, 24);
    EXPECT_EQ(window.said("teeth").value, "24");
}

TEST(WholeField, KeepsWhatIsNoNumberAndSaysWhatWouldBe) {
    int teeth = 21;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = whole_field(screen, "teeth", teeth, 3, 500)) teeth = *changed;
    });
    window.type("teeth", "2");
    EXPECT_EQ(teeth, 21);
    EXPECT_TRUE(window.shows("a whole number from 3 to 500"));
    window.type("teeth", "25");
    EXPECT_EQ(teeth, 25);
    EXPECT_FALSE(window.shows("a whole number from 3 to 500"));
}

TEST(WholeField, EscapeBringsTheNumberBack) {
    int teeth = 21;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = whole_field(screen, "teeth", teeth, 3, 500)) teeth = *changed;
    });
    window.type("teeth", "x");
    EXPECT_TRUE(window.shows("a whole number"));
    window.click("teeth");
    window.press(ImGuiKey_Escape);
    EXPECT_EQ(window.said("teeth").value, "21");
    EXPECT_FALSE(window.shows("a whole number"));
}

TEST(WholeField, CountsByTheArrows) {
    int teeth = 21;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = whole_field(screen, "teeth", teeth, 20, 22)) teeth = *changed;
    });
    for (int i = 0; i < 3; ++i) {
        window.click("teeth");
        window.press(ImGuiKey_UpArrow);
    }
    EXPECT_EQ(teeth, 22);
    window.click("teeth");
    window.press(ImGuiKey_DownArrow);
    EXPECT_EQ(teeth, 21);
}

TEST(OptionalNumberField, TakesDecimalsExactlyAndNothing) {
    std::optional<Ratio> shift;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = optional_number_field(screen, "shift", shift, kShiftLimits, "0")) shift = *changed;
    });
    window.type("shift", "0.1");
    EXPECT_EQ(shift, Ratio(1, 10));
    window.type("shift", "1/3");
    EXPECT_EQ(shift, Ratio(1, 10)) << "a scene takes decimals only";
    window.type("shift", "");
    EXPECT_EQ(shift, std::nullopt);
}

TEST(Segments, ChooseOneOfSeveral) {
    std::size_t chosen = 0;
    const std::vector<std::string> looks = {"metal", "clay", "line"};
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = segments(screen, "look", looks, chosen)) chosen = *changed;
    });
    EXPECT_EQ(window.said("look: metal").value, "on");
    window.click("look: line");
    EXPECT_EQ(chosen, 2U);
    EXPECT_EQ(window.said("look: line").value, "on");
}

TEST(Choice, DropsItsListAndTakesOne) {
    std::size_t chosen = 1;
    const std::vector<std::string> names = {"frame", "drum", "ring"};
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = choice(screen, "observer", names, chosen)) chosen = *changed;
    });
    EXPECT_FALSE(window.says("observer: ring"));
    window.click("observer");
    window.click("observer: ring");
    EXPECT_EQ(chosen, 2U);
    EXPECT_EQ(window.said("observer").value, "ring");
}

TEST(CopyButton, PutsTheTextIntoTheClipboard) {
    NullWindow window(
        "", [](Screen& screen, const Session&, Edits& edits) { copyable(screen, edits, "first angle", "-241.5"); });
    window.click("copy first angle");
    EXPECT_EQ(window.session.clipboard, "-241.5");
}

TEST(Slider, IsDraggedAlongItsWholeRange) {
    double speed = 1;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (const auto changed = slider(screen, "speed", speed, 0.01, 100, "x")) speed = *changed;
    });
    const Said at = window.said("speed");
    const float y = 0.5F * (at.box_px[1] + at.box_px[3]);
    window.drag({at.box_px[0] + 20, y}, {at.box_px[2] + 50, y});
    EXPECT_DOUBLE_EQ(speed, 100);
    window.drag({at.box_px[2] - 20, y}, {0.5F * (at.box_px[0] + at.box_px[2]), y});
    // The middle of a logarithmic range.
    EXPECT_NEAR(speed, 1, 0.02);
}

TEST(Focus, GoesThroughAllThatCanBePressed) {
    int pressed = 0;
    NullWindow window("", [&](Screen& screen, const Session&, Edits&) {
        if (button(screen, "one")) pressed += 1;
        words(screen, "between");
        if (button(screen, "two")) pressed += 10;
        (void)button(screen, "never", ButtonKind::plain, false);
        if (button(screen, "three")) pressed += 100;
    });
    const auto tab = [&](Going going) {
        move_focus(window.screen, going);
        window.frame(2);
    };
    tab(Going::on);
    tab(Going::on);
    window.press(ImGuiKey_Space);
    EXPECT_EQ(pressed, 10);
    tab(Going::on);
    window.press(ImGuiKey_Space);
    EXPECT_EQ(pressed, 110);
    tab(Going::on);
    tab(Going::back);
    tab(Going::back);
    window.press(ImGuiKey_Space);
    EXPECT_EQ(pressed, 120);
}

TEST(Theme, TextIsLegibleByDayAndNight) {
    // WCAG 2.1, 1.4.3: 4.5 to 1 for text; relative luminance as it defines it.
    const auto luminance = [](const ImVec4& c) {
        const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
        return 0.2126 * linear(c.x) + 0.7152 * linear(c.y) + 0.0722 * linear(c.z);
    };
    for (const Daylight light : {Daylight::light, Daylight::dark}) {
        const Theme& theme = theme_of(light);
        for (const ImVec4& ground : {theme.panel, theme.row, theme.field})
            for (const ImVec4& ink : {theme.ink, theme.faint, theme.accent, theme.driver, theme.held, theme.good,
                                      theme.caution, theme.bad}) {
                const double a = luminance(ink);
                const double b = luminance(ground);
                EXPECT_GE((std::max(a, b) + 0.05) / (std::min(a, b) + 0.05), 4.5)
                    << ink.x * 255 << ' ' << ink.y * 255 << ' ' << ink.z * 255;
            }
    }
}

}  // namespace
}  // namespace couplet
