// Drawing: the one offscreen context and renderer of a test program, and ways to look at what it drew.
//
// A test that draws fails where there is no way to draw, and where the driver has found an error in how it was called.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/vec2.hpp>
#include <glm/vec4.hpp>

#include "view/context.hpp"
#include "view/renderer.hpp"

namespace couplet {

struct Drawing {
    OffscreenContext context;
    Renderer renderer = renderer_with_errors_collected();

    static Drawing& of_this_program() {
        static Drawing one;
        return one;
    }

  private:
    static Renderer renderer_with_errors_collected() {
        collect_errors();
        return {};
    }
};

class DrawingTest : public testing::Test {
  protected:
    static Image drawn(const Picture& picture, const Quality& quality, glm::ivec2 size_px) {
        Renderer& renderer = Drawing::of_this_program().renderer;
        can_draw_ = true;
        return renderer.image_of(picture, quality, size_px);
    }
    void TearDown() override {
        if (!can_draw_) return;
        for (const std::string& error : collected_errors()) ADD_FAILURE() << error;
    }

  private:
    inline static bool can_draw_ = false;
};

// One sample a pixel, fine chords, no care for shadows: for pictures that are asked where things are.
inline constexpr Quality kPlainQuality = [] {
    Quality quality = kLightQuality;
    quality.shadow_map = 64;
    quality.shadow_taps = 1;
    quality.chord_px = 0.05F;
    return quality;
}();

// The bench and nothing on it.
[[nodiscard]] inline Picture bare_picture() {
    Picture picture;
    picture.shapes = std::make_shared<const std::vector<Shape>>();
    return picture;
}

struct Pixel {
    int red;
    int green;
    int blue;
    int alpha;

    [[nodiscard]] int difference(const Pixel& other) const {
        return std::max({std::abs(red - other.red), std::abs(green - other.green), std::abs(blue - other.blue),
                         std::abs(alpha - other.alpha)});
    }
};

[[nodiscard]] inline Pixel pixel_at(const Image& image, int x, int y) {
    const std::uint8_t* p =
        &image
             .rgba[(static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) + static_cast<std::size_t>(x)) *
                   4];
    return {p[0], p[1], p[2], p[3]};
}

// Where a point of the observer's frame is in the picture, from its top left corner.
[[nodiscard]] inline glm::dvec2 place_in(const Picture& picture, const glm::dvec3& point_mm, glm::ivec2 size_px) {
    const double aspect = static_cast<double>(size_px.x) / size_px.y;
    const glm::dvec4 clip = clip_from_view(picture.camera, aspect, picture.bounds) *
                            view_from_observer(picture.camera) * glm::dvec4(point_mm, 1.0);
    return {(clip.x / clip.w * 0.5 + 0.5) * size_px.x, (0.5 - clip.y / clip.w * 0.5) * size_px.y};
}

// Straight down, square pictures showing so many mm from edge to edge.
[[nodiscard]] inline Camera from_above(const glm::dvec2& middle_mm, double shown_mm) {
    Camera camera = turned_to(Camera{}, NamedView::top);
    camera.target_mm = {middle_mm.x, middle_mm.y, 0.0};
    camera.distance_mm *= shown_mm / height_at_target_mm(camera);
    return camera;
}

// Calls visit(x, y) for every pixel.
template <class Visit>
void each_pixel(glm::ivec2 size_px, Visit visit) {
    for (int y = 0; y < size_px.y; ++y)
        for (int x = 0; x < size_px.x; ++x) visit(x, y);
}

}  // namespace couplet
