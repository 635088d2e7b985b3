#include "export/gltf_buffer.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <limits>

#include "export/export_model.hpp"

namespace couplet {

namespace {

static_assert(std::endian::native == std::endian::little, "glTF's buffers are little-endian");

// Codes of the glTF specification.
constexpr int kUnsignedShort = 5123;
constexpr int kUnsignedInt = 5125;
constexpr int kFloat = 5126;
constexpr int kNoTarget = 0;
constexpr int kArrayBuffer = 34962;
constexpr int kElementArrayBuffer = 34963;

constexpr std::size_t kWord = 4;

void pad(std::string& bytes, char with) {
    bytes.resize((bytes.size() + kWord - 1) / kWord * kWord, with);
}

void add_word(std::string& bytes, std::size_t word) {
    const auto narrow = static_cast<std::uint32_t>(word);
    bytes.append(reinterpret_cast<const char*>(&narrow), sizeof narrow);
}

void tell_extent(Json& accessor, std::span<const float> numbers, std::size_t per_entry) {
    for (std::size_t c = 0; c < per_entry; ++c) {
        float least = std::numeric_limits<float>::infinity();
        float most = -least;
        for (std::size_t i = c; i < numbers.size(); i += per_entry) {
            least = std::min(least, numbers[i]);
            most = std::max(most, numbers[i]);
        }
        accessor["min"].push_back(least);
        accessor["max"].push_back(most);
    }
}

// All counters of the file are of 32 bits.
void expect_room(std::size_t bytes) {
    if (bytes > std::numeric_limits<std::uint32_t>::max())
        throw ExportRefused("the model is larger than the 4 GiB of a .glb file; give a coarser --tolerance");
}

}  // namespace

template <class Number>
int GltfBuffer::add(std::span<const Number> numbers, std::size_t per_entry, int component, int target) {
    pad(bytes_, '\0');
    expect_room(bytes_.size() + numbers.size_bytes());
    Json view = {{"buffer", 0}, {"byteOffset", bytes_.size()}, {"byteLength", numbers.size_bytes()}};
    if (target != kNoTarget) view["target"] = target;
    bytes_.append(reinterpret_cast<const char*>(numbers.data()), numbers.size_bytes());
    views_.push_back(std::move(view));
    static constexpr std::array kTypes = {"SCALAR", "VEC2", "VEC3", "VEC4"};
    accessors_.push_back({{"bufferView", views_.size() - 1},
                          {"componentType", component},
                          {"count", numbers.size() / per_entry},
                          {"type", kTypes[per_entry - 1]}});
    return static_cast<int>(accessors_.size()) - 1;
}

int GltfBuffer::add_floats(std::span<const float> numbers, std::size_t per_entry, Use use, Told told) {
    const int accessor = add(numbers, per_entry, kFloat, use == Use::vertices ? kArrayBuffer : kNoTarget);
    if (told == Told::extent_too) tell_extent(accessors_.back(), numbers, per_entry);
    return accessor;
}

int GltfBuffer::add_indices(const std::vector<std::uint32_t>& indices, std::size_t vertices) {
    constexpr std::size_t kMostShort = 65535;  // this index itself means something else
    if (vertices >= kMostShort)
        return add(std::span<const std::uint32_t>(indices), 1, kUnsignedInt, kElementArrayBuffer);
    const std::vector<std::uint16_t> narrow(indices.begin(), indices.end());
    return add(std::span<const std::uint16_t>(narrow), 1, kUnsignedShort, kElementArrayBuffer);
}

std::string GltfBuffer::packed_with(Json document) {
    constexpr std::size_t kHeader = 12;
    constexpr std::size_t kChunkHeader = 8;
    pad(bytes_, '\0');
    if (!bytes_.empty()) {
        document["accessors"] = std::move(accessors_);
        document["bufferViews"] = std::move(views_);
        document["buffers"] = Json::array({{{"byteLength", bytes_.size()}}});
    }
    std::string json = document.dump(-1, ' ', false, Json::error_handler_t::replace);
    pad(json, ' ');
    const std::size_t chunk = bytes_.empty() ? 0 : kChunkHeader + bytes_.size();
    const std::size_t size = kHeader + kChunkHeader + json.size() + chunk;
    expect_room(size);
    std::string head = "glTF";
    add_word(head, 2);
    add_word(head, size);
    add_word(head, json.size());
    head += "JSON" + json;
    if (bytes_.empty()) return head;
    add_word(head, bytes_.size());
    head.append("BIN\0", kWord);
    bytes_.insert(0, head);
    return std::move(bytes_);
}

}  // namespace couplet
