// STL reader: a binary STL file read byte by byte, and what can be measured on its points, for tests.
//
// Written without a look at the writer, from the format's description (from memory): 80 bytes, a count, and 50 bytes a
// triangle: normal, three corners, two spare bytes.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <numbers>
#include <stdexcept>
#include <string>
#include <vector>

namespace couplet {

struct StlFacet {
    std::array<float, 3> normal;
    std::array<std::array<float, 3>, 3> corners;
};

[[nodiscard]] inline std::vector<StlFacet> stl_facets(const std::string& bytes) {
    std::uint32_t count = 0;
    if (bytes.size() < 84) throw std::runtime_error("no STL");
    std::memcpy(&count, bytes.data() + 80, sizeof count);
    if (bytes.size() != 84 + std::size_t{50} * count) throw std::runtime_error("not as long as it says");
    std::vector<StlFacet> facets(count);
    for (std::size_t i = 0; i < count; ++i) {
        std::memcpy(&facets[i].normal, bytes.data() + 84 + 50 * i, 12);
        std::memcpy(&facets[i].corners, bytes.data() + 84 + 50 * i + 12, 36);
    }
    return facets;
}

// The middles of the teeth that reach the given radius round the axis (x, y), as angles: the points there, one group
// for each tooth, parted by gaps of more than half of the usual pitch.
[[nodiscard]] inline std::vector<double> tooth_middles_rad(const std::vector<StlFacet>& facets, double radius_mm,
                                                           double within_mm, int teeth_at_most) {
    std::vector<double> angles;
    for (const StlFacet& facet : facets)
        for (const auto& p : facet.corners) {
            const auto x = static_cast<double>(p[0]);
            const auto y = static_cast<double>(p[1]);
            if (std::abs(std::hypot(x, y) - radius_mm) < within_mm) angles.push_back(std::atan2(y, x));
        }
    std::ranges::sort(angles);
    const double gap = 0.5 * 2.0 * std::numbers::pi / teeth_at_most;
    // Begin behind a gap, so that no tooth is cut in two.
    std::size_t begin = 0;
    for (std::size_t i = 1; i < angles.size(); ++i)
        if (angles[i] - angles[i - 1] > gap) begin = i;
    std::vector<double> middles;
    double first = 0.0;
    for (std::size_t i = 0; i < angles.size(); ++i) {
        const auto at = [&](std::size_t k) {
            const std::size_t index = (begin + k) % angles.size();
            return angles[index] + (begin + k >= angles.size() ? 2.0 * std::numbers::pi : 0.0);
        };
        if (i == 0 || at(i) - at(i - 1) > gap) first = at(i);
        if (i + 1 == angles.size() || at(i + 1) - at(i) > gap) middles.push_back((first + at(i)) / 2.0);
    }
    return middles;
}

}  // namespace couplet
