// Glb reader: a binary glTF file read as its specification says, for tests; written without a look at the writer.
//
// glTF 2.0: chunks 4.4, accessors 3.6.2, node transforms 3.5.3, linear interpolation of rotations appendix C (from
// memory). Vectors as glTF has them: metres, +Y up; quaternions x, y, z, w.
#pragma once

#include <array>
#include <cmath>
#include <cstring>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace couplet {

using Vector3 = std::array<double, 3>;
using Quaternion = std::array<double, 4>;

inline Quaternion product(const Quaternion& a, const Quaternion& b) {
    return {
        a[3] * b[0] + a[0] * b[3] + a[1] * b[2] - a[2] * b[1], a[3] * b[1] - a[0] * b[2] + a[1] * b[3] + a[2] * b[0],
        a[3] * b[2] + a[0] * b[1] - a[1] * b[0] + a[2] * b[3], a[3] * b[3] - a[0] * b[0] - a[1] * b[1] - a[2] * b[2]};
}

inline Vector3 rotated(const Quaternion& q, const Vector3& v) {
    const Quaternion inverse = {-q[0], -q[1], -q[2], q[3]};
    const Quaternion r = product(product(q, {v[0], v[1], v[2], 0.0}), inverse);
    return {r[0], r[1], r[2]};
}

// By the shorter way.
inline Quaternion slerp(const Quaternion& a, const Quaternion& b, double part) {
    double dot = 0.0;
    for (std::size_t i = 0; i < 4; ++i) dot += a[i] * b[i];
    const double sign = dot < 0.0 ? -1.0 : 1.0;
    const double angle = std::acos(std::min(1.0, std::abs(dot)));
    const double first = angle < 1e-9 ? 1.0 - part : std::sin((1.0 - part) * angle) / std::sin(angle);
    const double second = sign * (angle < 1e-9 ? part : std::sin(part * angle) / std::sin(angle));
    Quaternion q{};
    double length = 0.0;
    for (std::size_t i = 0; i < 4; ++i) {
        q[i] = first * a[i] + second * b[i];
        length += q[i] * q[i];
    }
    for (double& c : q) c /= std::sqrt(length);
    return q;
}

struct Transform {
    Vector3 shift{};
    Quaternion rotation{0.0, 0.0, 0.0, 1.0};
};

class GlbReader {
  public:
    explicit GlbReader(const std::string& bytes) {
        if (bytes.substr(0, 4) != "glTF" || word(bytes, 4) != 2 || word(bytes, 8) != bytes.size())
            throw std::runtime_error("no binary glTF");
        const std::size_t json_size = word(bytes, 12);
        json = nlohmann::json::parse(bytes.substr(20, json_size));
        const std::size_t second = 20 + json_size;
        if (second < bytes.size()) buffer_ = bytes.substr(second + 8, word(bytes, second));
    }

    nlohmann::json json;

    // Floats of an accessor, one entry after another.
    [[nodiscard]] std::vector<float> floats(std::size_t accessor) const {
        const auto& entry = json["accessors"][accessor];
        if (entry["componentType"] != 5126) throw std::runtime_error("not floats");
        std::vector<float> result(entry["count"].get<std::size_t>() * components(entry["type"]));
        std::memcpy(result.data(), start(entry), result.size() * sizeof(float));
        return result;
    }
    [[nodiscard]] std::vector<std::size_t> indices(std::size_t accessor) const {
        const auto& entry = json["accessors"][accessor];
        const std::size_t size = entry["componentType"] == 5123 ? 2 : 4;
        std::vector<std::size_t> result;
        for (std::size_t i = 0; i < entry["count"].get<std::size_t>(); ++i) {
            std::uint32_t index = 0;
            std::memcpy(&index, start(entry) + i * size, size);
            result.push_back(index);
        }
        return result;
    }

    [[nodiscard]] std::size_t node_named(const std::string& name) const {
        for (std::size_t n = 0; n < json["nodes"].size(); ++n)
            if (json["nodes"][n].value("name", "") == name) return n;
        throw std::runtime_error("no node " + name);
    }
    // -1: none.
    [[nodiscard]] long parent_of(std::size_t node) const {
        for (std::size_t n = 0; n < json["nodes"].size(); ++n)
            if (json["nodes"][n].contains("children"))
                for (const auto& child : json["nodes"][n]["children"])
                    if (child == node) return static_cast<long>(n);
        return -1;
    }

    // Of the first animation.
    [[nodiscard]] double seconds() const {
        double last = 0.0;
        for (const auto& sampler : json["animations"][0]["samplers"])
            last = std::max(last, static_cast<double>(floats(sampler["input"]).back()));
        return last;
    }

    // The node in the scene, that many seconds into the first animation.
    [[nodiscard]] Transform scene_from_node(std::size_t node, double at_seconds) const {
        const auto& entry = json["nodes"][node];
        Transform own;
        if (entry.contains("translation")) own.shift = entry["translation"].get<Vector3>();
        if (entry.contains("rotation")) own.rotation = entry["rotation"].get<Quaternion>();
        own.rotation = animated(node, at_seconds, own.rotation);
        const long parent = parent_of(node);
        if (parent < 0) return own;
        const Transform under = scene_from_node(static_cast<std::size_t>(parent), at_seconds);
        const Vector3 moved = rotated(under.rotation, own.shift);
        return {{under.shift[0] + moved[0], under.shift[1] + moved[1], under.shift[2] + moved[2]},
                product(under.rotation, own.rotation)};
    }

  private:
    static std::size_t word(const std::string& bytes, std::size_t at) {
        std::uint32_t value = 0;
        std::memcpy(&value, bytes.data() + at, sizeof value);
        return value;
    }
    static std::size_t components(const std::string& type) {
        return type == "SCALAR" ? 1 : static_cast<std::size_t>(type.back() - '0');
    }
    [[nodiscard]] const char* start(const nlohmann::json& accessor) const {
        const auto& view = json["bufferViews"][accessor["bufferView"].get<std::size_t>()];
        return buffer_.data() + view.value("byteOffset", 0U) + accessor.value("byteOffset", 0U);
    }
    [[nodiscard]] Quaternion animated(std::size_t node, double at_seconds, const Quaternion& still) const {
        if (!json.contains("animations")) return still;
        const auto& animation = json["animations"][0];
        for (const auto& channel : animation["channels"]) {
            if (channel["target"]["node"] != node || channel["target"]["path"] != "rotation") continue;
            const auto& sampler = animation["samplers"][channel["sampler"].get<std::size_t>()];
            const std::vector<float> times = floats(sampler["input"]);
            const std::vector<float> values = floats(sampler["output"]);
            std::size_t k = 0;
            while (k + 2 < times.size() && static_cast<double>(times[k + 1]) <= at_seconds) ++k;
            const auto from = static_cast<double>(times[k]);
            const auto to = static_cast<double>(times[k + 1]);
            const auto key = [&](std::size_t i) {
                Quaternion q{};
                for (std::size_t c = 0; c < 4; ++c) q[c] = static_cast<double>(values[4 * i + c]);
                return q;
            };
            return slerp(key(k), key(k + 1), std::clamp((at_seconds - from) / (to - from), 0.0, 1.0));
        }
        return still;
    }

    std::string buffer_;
};

}  // namespace couplet
