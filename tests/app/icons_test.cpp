#include "app/icons.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>
#include <vector>

#include "app/null_window.hpp"

namespace couplet {

namespace {

constexpr int kIconCount = static_cast<int>(Icon::question) + 1;  // the last of the enumeration

class Icons : public testing::Test {
  protected:
    // Circles are divided as finely as a frame says.
    NullWindow window_{"", [](Screen&, const Session&, Edits&) {}};

    // The corners of what is drawn round (0, 0), smoothed edges included.
    static std::vector<std::pair<float, float>> corners(int icon, float size) {
        ImDrawList list(ImGui::GetDrawListSharedData());
        list._ResetForNewFrame();
        draw_icon(list, static_cast<Icon>(icon), {0, 0}, size, IM_COL32_WHITE);
        std::vector<std::pair<float, float>> found;
        for (const ImDrawVert& vertex : list.VtxBuffer) found.emplace_back(vertex.pos.x, vertex.pos.y);
        return found;
    }
    static float reach(int icon, float size) {
        float most = 0;
        for (const auto& [x, y] : corners(icon, size)) most = std::max({most, std::abs(x), std::abs(y)});
        return most;
    }
};

TEST_F(Icons, StayWithinTheirSquare) {
    // But for the smoothed edge, a pixel wide, and half of one more where a corner is sharp.
    for (int icon = 0; icon < kIconCount; ++icon)
        for (const float size : {12.0F, 20.0F, 48.0F})
            EXPECT_LE(reach(icon, size), 0.5F * size + 1.5F) << "icon " << icon << " of " << size << " px";
}

TEST_F(Icons, FillTheirSquare) {
    // A sign that is much smaller than its neighbours would look misplaced: each reaches half of the way at least.
    for (int icon = 0; icon < kIconCount; ++icon) EXPECT_GE(reach(icon, 40), 10.0F) << "icon " << icon;
}

TEST_F(Icons, GrowWithTheirSize) {
    // Twice the size reaches twice as far, but for the smoothed edge, which is a pixel wide at any size.
    for (int icon = 0; icon < kIconCount; ++icon)
        EXPECT_NEAR(reach(icon, 80), 2 * reach(icon, 40), 2.0F) << "icon " << icon;
}

TEST_F(Icons, DifferFromEachOther) {
    std::set<std::vector<std::pair<float, float>>> drawn;
    for (int icon = 0; icon < kIconCount; ++icon) drawn.insert(corners(icon, 20));
    EXPECT_EQ(drawn.size(), static_cast<std::size_t>(kIconCount));
}

}  // namespace
}  // namespace couplet
