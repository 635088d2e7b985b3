// Pick: which part of a machine lies under the cursor, and how a point of it moves.
//
// Solids are made once per stage, coarsely (0.2 mm or a thousandth of the machine, whichever is finer): what is picked
// is what is seen within that. Everything in the observer's frame, as the picture has it. No OpenGL.
#pragma once

#include <cstddef>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>
#include <memory>
#include <optional>

#include "view/camera.hpp"
#include "view/stage.hpp"

namespace couplet {

struct Picked {
    std::size_t part = 0;  // in Machine::parts
    PlaceIndex place;      // -1: the frame
    MemberIndex member = kFrame;
    glm::dvec3 point_mm{0.0};        // where the ray meets it, in the observer's frame
    glm::dvec3 point_on_place{0.0};  // the same point in the place's own frame, its part not pulled apart by a spread
};

class Picker {
  public:
    explicit Picker(const Stage& stage);
    // The nearest part that the ray meets, as the look has it (spread; what a cutaway takes away is not met). The stage
    // is the one it was made from.
    [[nodiscard]] std::optional<Picked> under(const Ray& ray, const Stage& stage, const Standing& standing,
                                              const StageLook& look, const Camera& camera) const;

  private:
    struct Solids;
    std::shared_ptr<const Solids> solids_;
};

// Where the point that was picked stands now, in the observer's frame. The stage is the one it was picked on.
[[nodiscard]] glm::dvec3 point_of(const Stage& stage, const Standing& standing, const StageLook& look,
                                  const Picked& picked);

// Where a point shows in the picture, in window coordinates of camera.hpp; nothing behind the eye. An orthographic
// picture has no eye.
[[nodiscard]] std::optional<glm::dvec2> shown_at(const Camera& camera, const glm::dvec3& point_mm,
                                                 double width_over_height);

}  // namespace couplet
