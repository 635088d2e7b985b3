// A window's context draws what the offscreen one draws. Needs a display: CTest brings one (Xvfb).
#include "view/window_context.hpp"

#include <gtest/gtest.h>

#include <cstdlib>

#include "view/renderer.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

Picture capstan_picture(glm::ivec2 size_px) {
    const Stage stage = stage_of(shipped_train("harbour_capstan"));
    const Motion motion = solve(stage.train, stage.train.settings.front());
    const StageLook look;
    const Camera camera = camera_for(stage, look, NamedView::iso, static_cast<double>(size_px.x) / size_px.y);
    return picture_of(stage, standing_at(stage, motion, Ratio(1, 7)), look, camera);
}

TEST(WindowContext, ShowsThePictureThatTheRendererMakesInMemory) {
    WindowContext window("capstan", {320, 180}, WindowContext::Visibility::shown);
    collect_errors();
    const glm::ivec2 size_px = window.size_px();
    ASSERT_EQ(size_px, glm::ivec2(320, 180));
    Renderer renderer;
    const Picture picture = capstan_picture(size_px);
    renderer.draw(picture, kFullQuality, size_px);
    const Image drawn = window.drawn();
    const Image expected = renderer.image_of(picture, kFullQuality, size_px);
    ASSERT_EQ(drawn.rgba.size(), expected.rgba.size());
    std::size_t different = 0;
    for (std::size_t i = 0; i < drawn.rgba.size(); ++i) different += drawn.rgba[i] != expected.rgba[i] ? 1 : 0;
    EXPECT_EQ(different, 0U) << "of " << drawn.rgba.size() << " bytes";
    window.show();
    for (const std::string& error : collected_errors()) ADD_FAILURE() << error;
}

TEST(WindowContext, OpensAgainAfterItWasClosed) {
    { const WindowContext first("first", {64, 64}, WindowContext::Visibility::hidden); }
    const WindowContext second("second", {64, 64}, WindowContext::Visibility::hidden);
    EXPECT_NE(second.handle(), nullptr);
}

TEST(WindowContext, SaysWhatWouldHelpWhereThereIsNoDisplay) {
    const char* display = std::getenv("DISPLAY");
    const std::string kept = display != nullptr ? display : "";
    unsetenv("DISPLAY");
    try {
        const WindowContext window("nowhere", {64, 64});
        ADD_FAILURE() << "a window without a display";
    } catch (const NoDrawing& refusal) {
        const std::string what = refusal.what();
        EXPECT_NE(what.find("no window can be opened here"), std::string::npos) << what;
        EXPECT_NE(what.find("--still FILE.png"), std::string::npos) << what;
    }
    setenv("DISPLAY", kept.c_str(), 1);
}

}  // namespace
}  // namespace couplet
