#include "view/likeness.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <vector>

namespace couplet {

namespace {

using Colour = std::array<double, 3>;

struct Halved {
    std::size_t width;
    std::size_t height;
    std::vector<Colour> pixels;
};

Halved halved(const Image& image) {
    Halved half{static_cast<std::size_t>(image.width) / 2, static_cast<std::size_t>(image.height) / 2, {}};
    for (std::size_t y = 0; y < half.height; ++y)
        for (std::size_t x = 0; x < half.width; ++x) {
            Colour sum{};
            for (std::size_t i = 0; i < 4; ++i) {
                const std::size_t at = ((2 * y + i / 2) * static_cast<std::size_t>(image.width) + 2 * x + i % 2) * 4;
                const double alpha = image.rgba[at + 3] / 255.0;
                for (std::size_t c = 0; c < 3; ++c) sum[c] += 0.25 * (alpha * image.rgba[at + c] + (1 - alpha) * 255);
            }
            half.pixels.push_back(sum);
        }
    return half;
}

double luminance(const Colour& colour) {
    return 0.2126 * colour[0] + 0.7152 * colour[1] + 0.0722 * colour[2];
}

constexpr std::size_t kWindow = 8;
constexpr std::size_t kStep = 4;

struct WindowLikeness {
    double similarity;
    double colour;
};

WindowLikeness compared(const Halved& a, const Halved& b, std::size_t left, std::size_t top) {
    double sum_a = 0, sum_b = 0, sum_aa = 0, sum_bb = 0, sum_ab = 0;
    Colour colour{};
    for (std::size_t y = top; y < top + kWindow; ++y)
        for (std::size_t x = left; x < left + kWindow; ++x) {
            const Colour& p = a.pixels[y * a.width + x];
            const Colour& q = b.pixels[y * b.width + x];
            for (std::size_t c = 0; c < 3; ++c) colour[c] += (p[c] - q[c]) / (kWindow * kWindow);
            const double u = luminance(p);
            const double v = luminance(q);
            sum_a += u;
            sum_b += v;
            sum_aa += u * u;
            sum_bb += v * v;
            sum_ab += u * v;
        }
    constexpr double kCount = kWindow * kWindow;
    constexpr double kC1 = 0.01 * 255 * 0.01 * 255;
    constexpr double kC2 = 0.03 * 255 * 0.03 * 255;
    const double mean_a = sum_a / kCount;
    const double mean_b = sum_b / kCount;
    const double variance_a = sum_aa / kCount - mean_a * mean_a;
    const double variance_b = sum_bb / kCount - mean_b * mean_b;
    const double covariance = sum_ab / kCount - mean_a * mean_b;
    return {(2 * mean_a * mean_b + kC1) * (2 * covariance + kC2) /
                ((mean_a * mean_a + mean_b * mean_b + kC1) * (variance_a + variance_b + kC2)),
            std::max({std::abs(colour[0]), std::abs(colour[1]), std::abs(colour[2])})};
}

}  // namespace

Likeness likeness(const Image& a, const Image& b) {
    if (a.width != b.width || a.height != b.height) throw std::invalid_argument("pictures of different sizes");
    if (a.width < 16 || a.height < 16) throw std::invalid_argument("pictures smaller than a window");
    const Halved half_a = halved(a);
    const Halved half_b = halved(b);
    std::vector<double> similarities;
    Likeness found;
    for (std::size_t top = 0; top + kWindow <= half_a.height; top += kStep)
        for (std::size_t left = 0; left + kWindow <= half_a.width; left += kStep) {
            const WindowLikeness window = compared(half_a, half_b, left, top);
            similarities.push_back(window.similarity);
            found.mean += window.similarity;
            found.colour = std::max(found.colour, window.colour);
        }
    found.mean /= static_cast<double>(similarities.size());
    std::ranges::sort(similarities);
    const std::size_t least = std::max<std::size_t>(similarities.size() / 100, 1);
    for (std::size_t i = 0; i < least; ++i) found.worst += similarities[i] / static_cast<double>(least);
    return found;
}

}  // namespace couplet
