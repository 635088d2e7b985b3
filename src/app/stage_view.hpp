// Stage view: the picture behind the panels, drawn only when it has changed, as finely as keeps up.
//
// The window's OpenGL context must be current whenever one is made, used or destroyed.
#pragma once

#include <glm/vec2.hpp>
#include <optional>

#include "app/pace.hpp"
#include "app/session.hpp"
#include "app/stage_moment.hpp"
#include "view/renderer.hpp"

namespace couplet {

class StageView {
  public:
    // Into the window's framebuffer, whole: the picture as it was, or a new one where anything that it shows has
    // changed since or a finer one is due.
    void draw(const Session& session, const StageMoment& moment, glm::ivec2 size_px, double now_s);

    // When a finer picture is due; nothing where the full one is shown.
    [[nodiscard]] std::optional<double> finer_at_s() const;
    [[nodiscard]] Fineness fineness() const { return fineness_; }
    [[nodiscard]] std::uint64_t pictures() const { return pictures_; }

  private:
    // What a picture depends on.
    struct Shown {
        unsigned stage_count = 0;
        std::uint64_t crank_changes = 0;
        std::optional<int> clip_frame;
        const Study* study = nullptr;
        StageLook look;
        std::optional<std::size_t> mesh_shown;
        Camera camera;
        glm::ivec2 size_px{0};
        Daylight daylight = Daylight::light;

        friend bool operator==(const Shown&, const Shown&) = default;
    };
    void draw_picture(const Session& session, const Standing& standing, Fineness fineness);

    Renderer renderer_;
    DrawingPace pace_;
    std::optional<Shown> shown_;
    Fineness fineness_ = Fineness::full;
    double changed_s_ = 0.0;
    std::uint64_t pictures_ = 0;
};

}  // namespace couplet
