// Picture: a plain description of what to draw; pixels come out of the renderer (renderer.hpp).
//
// Everything stands in the observer's frame: the member that the view rides on, or the frame itself. Lengths in mm,
// colours linear unless they say otherwise. The renderer keeps what it uploaded of `shapes` for as long as the same
// list comes again.
#pragma once

#include <cstddef>
#include <glm/mat4x4.hpp>
#include <glm/vec3.hpp>
#include <glm/vec4.hpp>
#include <memory>
#include <string>
#include <vector>

#include "solid/shape.hpp"
#include "view/camera.hpp"

namespace couplet {

// metal: a photograph. clay: matt, one colour, for shape. line: a technical drawing.
enum class Look { metal, clay, line };

enum class Finish { brass, steel, bronze, oxide_black, painted };

struct Material {
    Finish finish = Finish::steel;
    glm::vec3 colour{0.5F};  // of paint only

    friend bool operator==(const Material&, const Material&) = default;
};

struct PictureItem {
    std::size_t shape = 0;
    glm::mat4 observer_from_part{1.0F};  // a rotation and a shift
    Material material{};
    float lit_up = 0.0F;  // 0 to 1: pointed at
    bool opened = false;  // cut open by the cutaway
};

// A thin line in space, drawn over the solids but hidden behind them unless `on_top`.
struct Stroke {
    std::vector<glm::vec3> points_mm;
    glm::vec4 colour{1.0F};  // sRGB as on screen, alpha
    float width_px = 1.5F;
    float dash_px = 0.0F;  // 0: unbroken; else dash and gap alternate with this length
    bool on_top = false;
};

// A soft light at a point where flanks meet.
struct Glow {
    glm::vec3 position_mm{0.0F};
    float radius_mm = 1.0F;
    glm::vec3 colour{1.0F};
};

// A name or number tied to a point in space. Labels never overlap: where there is no room the least important go.
struct Label {
    glm::vec3 anchor_mm{0.0F};
    std::string text;
    int importance = 0;
};

// A line of text at a place of the picture: x, y from 0 to 1, from the left and from the top.
struct Caption {
    std::string text;
    glm::vec2 at{0.0F};
    float height = 0.03F;  // of the picture's height
    glm::vec4 colour{1.0F};
    enum class Anchor { left, middle, right } anchor = Anchor::left;
    glm::vec4 halo{0.0F};  // a rim round the letters, so that they can be read on anything; alpha 0: none
};

// A wedge, seen from above, that the cutaway takes out of opened items.
struct Cut {
    glm::vec2 apex_mm{0.0F};
    float middle_rad = 0.0F;
    float half_angle_rad = 0.0F;  // 0: no cut
};

// Colours where nothing stands: the bench top near the machine, and the backdrop from below to above.
struct Backdrop {
    glm::vec3 bench{0.60F, 0.585F, 0.56F};
    glm::vec3 low{0.25F, 0.25F, 0.255F};
    glm::vec3 high{0.42F, 0.425F, 0.435F};
};

struct Picture {
    std::shared_ptr<const std::vector<Shape>> shapes;
    std::vector<PictureItem> items;
    std::vector<Stroke> strokes;
    std::vector<Glow> glows;
    std::vector<Label> labels;
    std::vector<Caption> captions;
    Camera camera;
    Bounds bounds;          // of what throws shadows
    float bench_mm = 0.0F;  // height of the bench top
    Cut cut;
    Backdrop backdrop;
    Look look = Look::metal;
    bool transparent = false;  // no bench, no background: alpha instead, with the shadow in it
};

// How much work a picture is worth.
struct Quality {
    int samples = 4;            // per pixel, for edges
    int shadow_map = 2048;      // texels a side
    int shade_scale = 2;        // pixels a side for each point that shade is measured at
    int most_shade_rows = 540;  // of those points: shade is soft, and a tall picture needs no more
    int shadow_taps = 8;
    int occlusion_taps = 8;  // 0: no ambient occlusion
    float chord_px = 0.35F;  // how far a chord may leave its curve on the screen
};
inline constexpr Quality kFullQuality{};
inline constexpr Quality kLightQuality{1, 768, 4, 540, 4, 0, 0.9F};
// For a single picture that may take its time.
inline constexpr Quality kStillQuality{4, 2048, 2, 1080, 16, 16, 0.25F};

}  // namespace couplet
