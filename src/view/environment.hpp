// Environment: the light of a photographer's room, made by rule: soft boxes, a bright ceiling, a darker floor.
//
// Directions in the observer's frame, Z up; radiance linear, 1 being about what a white sheet shows. Two forms are
// made: a cube map whose levels are blurred for rougher and rougher metal, and four spherical harmonics for matt
// surfaces (R. Ramamoorthi and P. Hanrahan, An Efficient Representation for Irradiance Environment Maps, 2001).
#pragma once

#include <array>
#include <glm/vec3.hpp>
#include <vector>

namespace couplet {

// What comes from a direction of unit length.
[[nodiscard]] glm::vec3 room_radiance(const glm::vec3& direction);

struct CubeLevel {
    int size = 0;                                 // texels along an edge
    std::array<std::vector<glm::vec3>, 6> faces;  // in OpenGL's order: +X -X +Y -Y +Z -Z; rows as OpenGL stores them
};

// Level k of n is blurred by the lobe of a mirror of roughness (k / (n - 1))^2.
[[nodiscard]] std::vector<CubeLevel> room_levels(int largest_size, int levels);

// Coefficients that irradiance_at of shaders/light.glsl takes: with them the diffuse light per unit of albedo.
[[nodiscard]] std::array<glm::vec3, 4> room_irradiance();

// Where the direction of a texel points; u, v in [-1, 1].
[[nodiscard]] glm::vec3 cube_direction(int face, float u, float v);

}  // namespace couplet
