// glTF buffer: the numbers of a glTF file, in one buffer, and the accessors that say what they are.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sheet/json_values.hpp"

namespace couplet {

class GltfBuffer {
  public:
    enum class Use { vertices, animation };
    // Whether the accessor tells the least and the greatest of each component, as positions and times must.
    enum class Told { numbers, extent_too };

    // Entries of `per_entry` floats each, at most 4; returns the accessor.
    int add_floats(std::span<const float> numbers, std::size_t per_entry, Use use, Told told = Told::numbers);
    // Indices of triangles' corners, in as few bytes as there are vertices for.
    int add_indices(const std::vector<std::uint32_t>& indices, std::size_t vertices);

    // Adds what stands here to the file's JSON, and returns the file: header, JSON, buffer. ExportRefused where it is
    // larger than 4 GiB. The buffer is empty afterwards.
    [[nodiscard]] std::string packed_with(Json document);

  private:
    template <class Number>
    int add(std::span<const Number> numbers, std::size_t per_entry, int component, int target);

    std::string bytes_;
    Json views_ = Json::array();
    Json accessors_ = Json::array();
};

}  // namespace couplet
