// Overlay pass: strokes and glows among the solids, labels and captions on top. For files of this room only.
#pragma once

#include <glm/mat4x4.hpp>
#include <map>
#include <string>

#include "view/gl.hpp"
#include "view/labels.hpp"
#include "view/picture.hpp"
#include "view/text.hpp"

namespace couplet {

class OverlayPass {
  public:
    explicit OverlayPass(const Buffer& corners);

    // Into the framebuffer that is bound, its depth counting.
    void draw_in_space(const Picture& picture, glm::mat4 clip_from_observer, glm::ivec2 size_px);
    // Into the framebuffer that is bound, over everything.
    void draw_texts(const Picture& picture, glm::mat4 clip_from_observer, glm::ivec2 size_px);

  private:
    struct Letters {
        LetterSheet sheet;
        Texture image;
    };
    struct Quads;

    const Letters& letters(int height_px);
    void add_labels(const Picture& picture, const glm::mat4& clip_from_observer, glm::ivec2 size_px,
                    std::map<int, Quads>& quads);
    void add_captions(const Picture& picture, glm::ivec2 size_px, std::map<int, Quads>& quads);

    Program stroke_program_;
    Program glow_program_;
    Program letter_program_;
    VertexArray stroke_array_;
    VertexArray glow_array_;
    VertexArray letter_array_;
    Buffer records_;
    std::map<int, Letters> sheets_;               // by height
    std::map<std::string, int> sides_of_labels_;  // where each stood in the last picture
};

}  // namespace couplet
