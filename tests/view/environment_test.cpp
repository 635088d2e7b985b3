#include "view/environment.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <glm/geometric.hpp>
#include <numbers>

namespace couplet {
namespace {

double brightness(const glm::vec3& radiance) {
    return (static_cast<double>(radiance.x) + radiance.y + radiance.z) / 3;
}

// OpenGL's cube map faces in their order (OpenGL 3.3, table 3.19, from memory).
TEST(CubeDirection, OfEachFacesMiddleIsItsAxis) {
    const glm::vec3 axes[] = {{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}};
    for (int face = 0; face < 6; ++face) EXPECT_EQ(cube_direction(face, 0.0F, 0.0F), axes[face]) << face;
}

// Rows as OpenGL stores them: on +X, s grows towards -Z and t towards -Y (the same table).
TEST(CubeDirection, GoesAcrossAFaceAsTheTableSays) {
    EXPECT_LT(cube_direction(0, 0.5F, 0.0F).z, 0.0F);
    EXPECT_LT(cube_direction(0, 0.0F, 0.5F).y, 0.0F);
    EXPECT_GT(cube_direction(2, 0.5F, 0.0F).x, 0.0F);
    EXPECT_GT(cube_direction(2, 0.0F, 0.5F).z, 0.0F);
    EXPECT_LT(cube_direction(5, 0.5F, 0.0F).x, 0.0F);
}

TEST(CubeDirection, IsOfUnitLength) {
    for (int face = 0; face < 6; ++face)
        for (const float u : {-1.0F, -0.3F, 0.8F}) EXPECT_NEAR(glm::length(cube_direction(face, u, 0.6F)), 1.0F, 1e-6F);
}

TEST(RoomLevels, HalveFromLevelToLevel) {
    const std::vector<CubeLevel> levels = room_levels(32, 4);
    ASSERT_EQ(levels.size(), 4U);
    for (std::size_t k = 0; k < 4; ++k) {
        EXPECT_EQ(levels[k].size, 32 >> k);
        for (const auto& face : levels[k].faces)
            EXPECT_EQ(face.size(), static_cast<std::size_t>(levels[k].size) * static_cast<std::size_t>(levels[k].size));
    }
}

struct Spread {
    double mean = 0.0;
    double deviation = 0.0;
};
Spread spread_of(const CubeLevel& level) {
    double sum = 0.0;
    double squares = 0.0;
    double count = 0.0;
    for (const auto& face : level.faces)
        for (const glm::vec3& texel : face) {
            sum += brightness(texel);
            squares += brightness(texel) * brightness(texel);
            ++count;
        }
    const double mean = sum / count;
    return {mean, std::sqrt(squares / count - mean * mean)};
}

TEST(RoomLevels, BlurWithoutLosingLight) {
    const std::vector<CubeLevel> levels = room_levels(32, 5);
    const Spread sharp = spread_of(levels.front());
    double deviation = 1e9;
    for (const CubeLevel& level : levels) {
        const Spread found = spread_of(level);
        EXPECT_NEAR(found.mean, sharp.mean, 0.12 * sharp.mean) << level.size;
        EXPECT_LT(found.deviation, deviation) << level.size;
        deviation = found.deviation;
        for (const auto& face : level.faces)
            for (const glm::vec3& texel : face) {
                EXPECT_GE(std::min({texel.x, texel.y, texel.z}), 0.0F);
                EXPECT_TRUE(std::isfinite(brightness(texel)));
            }
    }
}

TEST(RoomLevels, BeginWithTheRoomItself) {
    const CubeLevel sharp = room_levels(8, 2).front();
    EXPECT_EQ(sharp.faces[4][8 * 2 + 5], room_radiance(cube_direction(4, 11.0F / 8 - 1, 5.0F / 8 - 1)));
}

// The diffuse light on a white matt surface, summed over a fine grid of the sphere (Riemann), over pi.
glm::vec3 summed_irradiance(const glm::vec3& normal) {
    constexpr int kRings = 128;
    glm::vec3 sum(0.0F);
    for (int i = 0; i < kRings; ++i)
        for (int k = 0; k < 2 * kRings; ++k) {
            const float polar = (static_cast<float>(i) + 0.5F) / kRings * std::numbers::pi_v<float>;
            const float azimuth = (static_cast<float>(k) + 0.5F) / kRings * std::numbers::pi_v<float>;
            const glm::vec3 d(std::sin(polar) * std::cos(azimuth), std::sin(polar) * std::sin(azimuth),
                              std::cos(polar));
            const float step = std::numbers::pi_v<float> / kRings;
            sum += room_radiance(d) * std::max(glm::dot(d, normal), 0.0F) * std::sin(polar) * step * step;
        }
    return sum / std::numbers::pi_v<float>;
}

// As shaders/light.glsl puts the coefficients together.
glm::vec3 irradiance_at(const std::array<glm::vec3, 4>& c, const glm::vec3& n) {
    return c[0] + c[1] * n.y + c[2] * n.z + c[3] * n.x;
}

// Four coefficients leave the finer part of the cosine lobe out: found to miss by 12 % of the brightest at most, and by
// nothing on the whole.
TEST(RoomIrradiance, IsThatOfTheRoom) {
    const std::array<glm::vec3, 4> coefficients = room_irradiance();
    double most = 0.0;
    double worst = 0.0;
    double error = 0.0;
    constexpr int kNormals = 60;
    for (int i = 0; i < kNormals; ++i) {
        const float z = 1.0F - 2.0F * (static_cast<float>(i) + 0.5F) / kNormals;
        const float a = 2.399963F * static_cast<float>(i);
        const float r = std::sqrt(1.0F - z * z);
        const glm::vec3 normal(r * std::cos(a), r * std::sin(a), z);
        const double expected = brightness(summed_irradiance(normal));
        const double off = brightness(irradiance_at(coefficients, normal)) - expected;
        most = std::max(most, expected);
        worst = std::max(worst, std::abs(off));
        error += off / kNormals;
    }
    EXPECT_LT(worst, 0.15 * most);
    EXPECT_NEAR(error, 0.0, 0.01 * most);
}

}  // namespace
}  // namespace couplet
