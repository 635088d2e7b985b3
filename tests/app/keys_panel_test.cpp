#include <gtest/gtest.h>

#include "app/keys.hpp"
#include "app/null_window.hpp"
#include "app/panels.hpp"
#include "sheet/cautions.hpp"

namespace couplet {
namespace {

TEST(KeysPanel, ShowsEveryKeyWithItsWords) {
    const NullWindow window("", draw_keys_panel);
    for (const KeyEntry& entry : key_table())
        EXPECT_EQ(window.said(strokes_text(entry.deed)).value, entry.words) << stroke_text(entry.stroke);
    for (const std::string_view group : kKeyGroupNames) EXPECT_TRUE(window.shows(std::string(group)));
}

TEST(KeysPanel, SaysWhatTheProgramIsAndItsCautions) {
    const NullWindow window("", draw_keys_panel, Daylight::dark, 2.0F);
    EXPECT_TRUE(window.shows("Couplet "));
    for (const std::string_view caution : kCautions) EXPECT_TRUE(window.shows(std::string(caution)));
    EXPECT_TRUE(window.says("GMP"));
}

}  // namespace
}  // namespace couplet
