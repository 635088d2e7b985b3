#include "export/stl.hpp"

#include <bit>
#include <cmath>
#include <cstring>

namespace couplet {

namespace {

static_assert(std::endian::native == std::endian::little, "an STL file is little-endian");

constexpr std::size_t kHeading = 80;
constexpr std::size_t kTriangle = 50;

using Point = std::array<float, 3>;

// 0 where the triangle has no area.
Point normal_of(const Point& a, const Point& b, const Point& c) {
    std::array<double, 3> u{};
    std::array<double, 3> v{};
    for (std::size_t k = 0; k < 3; ++k) {
        u[k] = static_cast<double>(b[k]) - static_cast<double>(a[k]);
        v[k] = static_cast<double>(c[k]) - static_cast<double>(a[k]);
    }
    const std::array<double, 3> n = {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
    const double length = std::hypot(n[0], n[1], n[2]);
    if (length == 0.0) return {};
    return {static_cast<float>(n[0] / length), static_cast<float>(n[1] / length), static_cast<float>(n[2] / length)};
}

}  // namespace

std::string stl_of(const Machine& machine, const MemberBody& body, const StlOptions& options) {
    const BodyMesh mesh = body_mesh(machine, body, options.tolerance_mm);
    // A heading that begins with "solid" would be taken for the format's text form.
    std::string heading = "Couplet, mm: " + body.name;
    heading.resize(kHeading, '\0');
    std::string bytes(kHeading + 4 + mesh.triangles.size() * kTriangle, '\0');
    std::memcpy(bytes.data(), heading.data(), kHeading);
    const auto count = static_cast<std::uint32_t>(mesh.triangles.size());
    std::memcpy(bytes.data() + kHeading, &count, sizeof count);
    char* out = bytes.data() + kHeading + sizeof count;
    for (const auto& t : mesh.triangles) {
        const Point& a = mesh.points_mm[t[0]];
        const Point& b = mesh.points_mm[t[1]];
        const Point& c = mesh.points_mm[t[2]];
        const std::array<Point, 4> facet = {normal_of(a, b, c), a, b, c};
        std::memcpy(out, facet.data(), sizeof facet);
        out += kTriangle;
    }
    return bytes;
}

}  // namespace couplet
