#include "view/environment.hpp"

#include <algorithm>
#include <cmath>
#include <glm/geometric.hpp>
#include <numbers>

namespace couplet {

namespace {

constexpr float kPi = std::numbers::pi_v<float>;

// A rectangular lamp with soft edges, seen from the middle of the room.
struct SoftBox {
    float azimuth_deg;    // from +X
    float elevation_deg;  // of its middle
    float half_width;     // tangents of half angles
    float half_height;
    float softness;
    glm::vec3 radiance;
};

const std::array<SoftBox, 9> kBoxes = {{
    {104.0F, 46.0F, 0.80F, 0.24F, 0.22F, {1.75F, 1.72F, 1.66F}},  // behind: what top faces show in the usual view
    {200.0F, 36.0F, 0.42F, 0.36F, 0.16F, {1.7F, 1.74F, 1.82F}},   // left
    {-12.0F, 30.0F, 0.20F, 0.60F, 0.10F, {1.9F, 1.86F, 1.74F}},   // right: a tall strip
    {-84.0F, 50.0F, 0.60F, 0.14F, 0.10F, {1.2F, 1.2F, 1.2F}},     // in front
    {30.0F, 80.0F, 0.34F, 0.22F, 0.20F, {0.8F, 0.79F, 0.76F}},    // overhead
    {150.0F, 8.0F, 0.22F, 0.12F, 0.08F, {1.3F, 1.2F, 1.05F}},     // a low kicker
    // White cards on the bench: what walls show in the usual view.
    {-128.0F, -30.0F, 0.50F, 0.30F, 0.26F, {0.75F, 0.74F, 0.72F}},
    {-38.0F, -32.0F, 0.22F, 0.34F, 0.18F, {0.80F, 0.79F, 0.76F}},
    {35.0F, -28.0F, 0.45F, 0.24F, 0.20F, {0.55F, 0.55F, 0.55F}},
}};

glm::vec3 towards(float azimuth_deg, float elevation_deg) {
    const float a = azimuth_deg * kPi / 180.0F;
    const float e = elevation_deg * kPi / 180.0F;
    return {std::cos(e) * std::cos(a), std::cos(e) * std::sin(a), std::sin(e)};
}

float smooth_step(float from, float to, float x) {
    const float t = std::clamp((x - from) / (to - from), 0.0F, 1.0F);
    return t * t * (3.0F - 2.0F * t);
}

// A lamp with its directions worked out: the room is looked at a million times.
struct PlacedBox {
    SoftBox box;
    glm::vec3 forward;
    glm::vec3 right;
    glm::vec3 up;
};

PlacedBox placed(const SoftBox& box) {
    const float a = box.azimuth_deg * kPi / 180.0F;
    const glm::vec3 forward = towards(box.azimuth_deg, box.elevation_deg);
    const glm::vec3 right(-std::sin(a), std::cos(a), 0.0F);
    return {box, forward, right, glm::cross(forward, right)};
}

const std::array<PlacedBox, kBoxes.size()>& placed_boxes() {
    static const std::array<PlacedBox, kBoxes.size()> boxes = [] {
        std::array<PlacedBox, kBoxes.size()> all{};
        std::ranges::transform(kBoxes, all.begin(), placed);
        return all;
    }();
    return boxes;
}

float cover(const PlacedBox& placed, const glm::vec3& direction) {
    const SoftBox& box = placed.box;
    const float ahead = glm::dot(direction, placed.forward);
    if (ahead <= 0.05F) return 0.0F;
    const float x = std::abs(glm::dot(direction, placed.right)) / ahead;
    if (x >= box.half_width + box.softness) return 0.0F;
    const float y = std::abs(glm::dot(direction, placed.up)) / ahead;
    return (1.0F - smooth_step(box.half_width - box.softness, box.half_width + box.softness, x)) *
           (1.0F - smooth_step(box.half_height - box.softness, box.half_height + box.softness, y));
}

// A point of the Hammersley sequence: evenly spread in the unit square.
std::array<float, 2> hammersley(unsigned i, unsigned count) {
    unsigned bits = i;
    bits = (bits << 16U) | (bits >> 16U);
    bits = ((bits & 0x55555555U) << 1U) | ((bits & 0xAAAAAAAAU) >> 1U);
    bits = ((bits & 0x33333333U) << 2U) | ((bits & 0xCCCCCCCCU) >> 2U);
    bits = ((bits & 0x0F0F0F0FU) << 4U) | ((bits & 0xF0F0F0F0U) >> 4U);
    bits = ((bits & 0x00FF00FFU) << 8U) | ((bits & 0xFF00FF00U) >> 8U);
    return {(static_cast<float>(i) + 0.5F) / static_cast<float>(count), static_cast<float>(bits) * 2.3283064e-10F};
}

glm::vec3 blurred(const glm::vec3& normal, float roughness, unsigned samples) {
    const glm::vec3 helper = std::abs(normal.z) < 0.9F ? glm::vec3(0, 0, 1) : glm::vec3(1, 0, 0);
    const glm::vec3 tangent = glm::normalize(glm::cross(helper, normal));
    const glm::vec3 bitangent = glm::cross(normal, tangent);
    const float a2 = std::pow(roughness, 4.0F);
    glm::vec3 sum(0.0F);
    float weights = 0.0F;
    for (unsigned i = 0; i < samples; ++i) {
        const auto [u, v] = hammersley(i, samples);
        const float cosine = std::sqrt((1.0F - u) / (1.0F + (a2 - 1.0F) * u));
        const float sine = std::sqrt(std::max(0.0F, 1.0F - cosine * cosine));
        const glm::vec3 half =
            sine * std::cos(2 * kPi * v) * tangent + sine * std::sin(2 * kPi * v) * bitangent + cosine * normal;
        const glm::vec3 light = 2.0F * glm::dot(normal, half) * half - normal;
        const float weight = glm::dot(normal, light);
        if (weight <= 0.0F) continue;
        sum += weight * room_radiance(light);
        weights += weight;
    }
    return sum / weights;
}

}  // namespace

glm::vec3 room_radiance(const glm::vec3& direction) {
    const float rise = direction.z;
    const glm::vec3 ceiling(0.24F, 0.25F, 0.27F);
    const glm::vec3 wall(0.055F, 0.055F, 0.060F);
    const glm::vec3 floor(0.17F, 0.165F, 0.155F);
    glm::vec3 radiance = rise > 0.0F ? glm::mix(wall, ceiling, smooth_step(0.0F, 0.95F, rise))
                                     : glm::mix(wall, floor, smooth_step(0.0F, 0.35F, -rise));
    for (const PlacedBox& placed : placed_boxes()) radiance += cover(placed, direction) * placed.box.radiance;
    return radiance;
}

glm::vec3 cube_direction(int face, float u, float v) {
    const std::array<glm::vec3, 6> directions = {glm::vec3(1, -v, -u), glm::vec3(-1, -v, u), glm::vec3(u, 1, v),
                                                 glm::vec3(u, -1, -v), glm::vec3(u, -v, 1),  glm::vec3(-u, -v, -1)};
    return glm::normalize(directions[static_cast<std::size_t>(face)]);
}

std::vector<CubeLevel> room_levels(int largest_size, int levels) {
    std::vector<CubeLevel> result;
    for (int level = 0; level < levels; ++level) {
        CubeLevel made{std::max(largest_size >> level, 1), {}};
        const float part = static_cast<float>(level) / static_cast<float>(levels - 1);
        for (int face = 0; face < 6; ++face) {
            std::vector<glm::vec3>& texels = made.faces[static_cast<std::size_t>(face)];
            for (int y = 0; y < made.size; ++y)
                for (int x = 0; x < made.size; ++x) {
                    const float scale = 2.0F / static_cast<float>(made.size);
                    const glm::vec3 direction = cube_direction(face, (static_cast<float>(x) + 0.5F) * scale - 1.0F,
                                                               (static_cast<float>(y) + 0.5F) * scale - 1.0F);
                    texels.push_back(level == 0 ? room_radiance(direction) : blurred(direction, part * part, 40));
                }
        }
        result.push_back(std::move(made));
    }
    return result;
}

std::array<glm::vec3, 4> room_irradiance() {
    std::array<glm::vec3, 4> sums{};
    constexpr unsigned kSamples = 2048;
    for (unsigned i = 0; i < kSamples; ++i) {
        const auto [u, v] = hammersley(i, kSamples);
        const float z = 1.0F - 2.0F * u;
        const float r = std::sqrt(std::max(0.0F, 1.0F - z * z));
        const glm::vec3 d(r * std::cos(2 * kPi * v), r * std::sin(2 * kPi * v), z);
        const std::array<float, 4> basis = {1.0F, d.y, d.z, d.x};
        for (std::size_t k = 0; k < 4; ++k) sums[k] += room_radiance(d) * basis[k];
    }
    // Basis functions squared, 1 / (4 pi) and 3 / (4 pi), times the cosine lobe's bands, pi and 2 pi / 3, over pi for
    // the albedo: 4 pi / samples cancels but for 1 and 2.
    for (std::size_t k = 0; k < 4; ++k) sums[k] *= (k == 0 ? 1.0F : 2.0F) / static_cast<float>(kSamples);
    return sums;
}

}  // namespace couplet
