#include "view/frame_block.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <fstream>
#include <glm/geometric.hpp>
#include <map>
#include <regex>
#include <string>

#include "view/shown_scene.hpp"

namespace couplet {
namespace {

glm::vec3 projected(const glm::mat4& clip, const glm::vec3& point) {
    const glm::vec4 at = clip * glm::vec4(point, 1.0F);
    return glm::vec3(at) / at.w;
}

Picture picture_with(Projection projection) {
    Picture picture;
    picture.camera.projection = projection;
    picture.camera.target_mm = {10, -20, 30};
    picture.camera.azimuth_rad = 0.7;
    picture.bounds = {{5, 5, 20}, 80, 40};
    picture.bench_mm = -12.0F;
    return picture;
}

FrameSetup setup_of(const Picture& picture, const Quality& quality = kFullQuality, glm::ivec2 size = {640, 360}) {
    return frame_setup(picture, quality, size, {}, 6);
}

// Where the members of the uniform block in shaders/frame.glsl begin, in bytes: std140 puts matrices and vectors of
// four one after the other (OpenGL 3.3, 2.11.4, from memory).
std::map<std::string, std::size_t> shader_offsets() {
    std::ifstream file(COUPLET_ROOT "/shaders/frame.glsl");
    std::map<std::string, std::size_t> offsets;
    std::size_t bytes = 0;
    static const std::regex member(R"re(^\s+(mat4|vec4) (\w+)(?:\[(\d+)\])?;)re");
    std::smatch match;
    for (std::string line; std::getline(file, line);) {
        if (!std::regex_search(line, match, member)) continue;
        offsets[match[2]] = bytes;
        bytes += (match[1] == "mat4" ? 64U : 16U) * (match[3].matched ? std::stoul(match[3]) : 1U);
    }
    offsets["end"] = bytes;
    return offsets;
}

TEST(FrameBlock, IsLaidOutAsTheShadersReadIt) {
    const std::map<std::string, std::size_t> ours = {
        {"clip_from_observer", offsetof(FrameBlock, clip_from_observer)},
        {"shadow_from_observer", offsetof(FrameBlock, shadow_from_observer)},
        {"eye", offsetof(FrameBlock, eye)},
        {"gaze", offsetof(FrameBlock, gaze)},
        {"to_light", offsetof(FrameBlock, to_light)},
        {"light_colour", offsetof(FrameBlock, light_colour)},
        {"irradiance", offsetof(FrameBlock, irradiance)},
        {"picture", offsetof(FrameBlock, picture)},
        {"bench", offsetof(FrameBlock, bench)},
        {"bench_colour", offsetof(FrameBlock, bench_colour)},
        {"backdrop_low", offsetof(FrameBlock, backdrop_low)},
        {"backdrop_high", offsetof(FrameBlock, backdrop_high)},
        {"cut", offsetof(FrameBlock, cut)},
        {"shadow", offsetof(FrameBlock, shadow)},
        {"occlusion", offsetof(FrameBlock, occlusion)},
        {"picture_right", offsetof(FrameBlock, picture_right)},
        {"picture_up", offsetof(FrameBlock, picture_up)},
        {"depth_terms", offsetof(FrameBlock, depth_terms)},
        {"style", offsetof(FrameBlock, style)},
        {"end", sizeof(FrameBlock)}};
    EXPECT_EQ(shader_offsets(), ours);
}

TEST(FrameSetup, PutsTheTargetInTheMiddle) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const Picture picture = picture_with(projection);
        const FrameSetup setup = setup_of(picture);
        const glm::vec3 at = projected(setup.block.clip_from_observer, glm::vec3(picture.camera.target_mm));
        EXPECT_NEAR(at.x, 0.0F, 1e-5F);
        EXPECT_NEAR(at.y, 0.0F, 1e-5F);
        EXPECT_LT(std::abs(at.z), 1.0F);
        EXPECT_EQ(setup.block.eye.w, projection == Projection::perspective ? 1.0F : 0.0F);
        EXPECT_NEAR(glm::length(glm::vec3(setup.block.gaze)), 1.0F, 1e-6F);
    }
}

// A point from where it is in the picture and how far along the gaze, as shaders/shade.frag works it out; and its
// depth.
TEST(FrameSetup, GoesBackFromTheScreen) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const bool perspective = projection == Projection::perspective;
        const FrameBlock block = setup_of(picture_with(projection)).block;
        const glm::vec3 point(23, -4, 35);
        const glm::vec3 at = projected(block.clip_from_observer, point);
        const float distance = glm::dot(point - glm::vec3(block.eye), glm::vec3(block.gaze));
        const glm::vec3 aside = at.x * glm::vec3(block.picture_right) + at.y * glm::vec3(block.picture_up);
        const glm::vec3 found =
            glm::vec3(block.eye) + distance * glm::vec3(block.gaze) + (perspective ? distance : 1.0F) * aside;
        EXPECT_LT(glm::distance(found, point), 0.01F);
        const float depth = block.depth_terms.y - block.depth_terms.x * distance;
        EXPECT_NEAR(at.z, perspective ? depth / distance : depth, 1e-4F);
    }
}

TEST(FrameSetup, KnowsHowLargeAPixelIs) {
    for (const Projection projection : {Projection::perspective, Projection::orthographic}) {
        const Picture picture = picture_with(projection);
        const FrameSetup setup = setup_of(picture);
        const glm::dmat4 view = view_from_observer(picture.camera);
        const glm::dvec3 up(view[0][1], view[1][1], view[2][1]);
        const glm::vec3 next(picture.camera.target_mm + up * setup.mm_per_px_at_target);
        EXPECT_NEAR(projected(setup.block.clip_from_observer, next).y * 180.0F, 1.0F, 1e-2F);
    }
}

TEST(FrameSetup, CoversWhatThrowsShadows) {
    const Picture picture = picture_with(Projection::perspective);
    const FrameSetup setup = setup_of(picture);
    for (int k = 0; k < 16; ++k)
        for (const double side : {-1.0, 1.0}) {
            const double a = 0.39269908 * k;
            const glm::vec3 corner(picture.bounds.middle_mm + glm::dvec3(picture.bounds.radius_mm * std::cos(a),
                                                                         picture.bounds.radius_mm * std::sin(a),
                                                                         side * picture.bounds.half_height_mm));
            const glm::vec3 at = projected(setup.block.shadow_from_observer, corner);
            for (int i = 0; i < 3; ++i) {
                EXPECT_GE(at[i], 0.0F);
                EXPECT_LE(at[i], 1.0F);
            }
        }
    EXPECT_NEAR(glm::length(glm::vec3(setup.block.to_light)), 1.0F, 1e-6F);
    EXPECT_GT(setup.block.to_light.z, 0.0F) << "from above";
}

TEST(FrameSetup, SaysWhatThePictureAsksFor) {
    Picture picture = picture_with(Projection::perspective);
    picture.cut = {{1, 2}, 0.3F, 0.4F};
    const FrameSetup opaque = setup_of(picture);
    EXPECT_EQ(opaque.block.bench_colour.w, 0.0F);
    EXPECT_EQ(opaque.block.style.x, 0.0F);
    EXPECT_EQ(opaque.block.cut, glm::vec4(1, 2, 0.3F, 0.4F));
    EXPECT_EQ(opaque.block.bench.z, -12.0F);
    EXPECT_EQ(opaque.block.occlusion.z, static_cast<float>(kFullQuality.occlusion_taps));
    EXPECT_EQ(glm::vec2(opaque.block.picture), glm::vec2(640, 360));
    picture.transparent = true;
    picture.look = Look::clay;
    const FrameSetup clear = setup_of(picture, kLightQuality);
    EXPECT_EQ(clear.block.bench_colour.w, 1.0F);
    EXPECT_EQ(clear.block.style.x, 1.0F);
    EXPECT_EQ(clear.block.occlusion.z, 0.0F);
}

}  // namespace
}  // namespace couplet
