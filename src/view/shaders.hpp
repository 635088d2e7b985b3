// Shaders: the texts of the folder shaders/, embedded when the program is built. For files of this room only.
#pragma once

#include <string_view>

namespace couplet {

[[nodiscard]] std::string_view shader_frame();  // frame.glsl
[[nodiscard]] std::string_view shader_light();  // light.glsl
[[nodiscard]] std::string_view shader_whole();  // whole.glsl
[[nodiscard]] std::string_view shader_cut();    // cut.glsl
[[nodiscard]] std::string_view shader_solid_vert();
[[nodiscard]] std::string_view shader_metal_frag();
[[nodiscard]] std::string_view shader_line_fill_frag();
[[nodiscard]] std::string_view shader_edge_vert();
[[nodiscard]] std::string_view shader_edge_frag();
[[nodiscard]] std::string_view shader_depth_vert();
[[nodiscard]] std::string_view shader_depth_frag();
[[nodiscard]] std::string_view shader_bench_vert();
[[nodiscard]] std::string_view shader_whole_picture_vert();
[[nodiscard]] std::string_view shader_surroundings_frag();
[[nodiscard]] std::string_view shader_shade_frag();
[[nodiscard]] std::string_view shader_smooth_frag();
[[nodiscard]] std::string_view shader_stroke_vert();
[[nodiscard]] std::string_view shader_stroke_frag();
[[nodiscard]] std::string_view shader_glow_vert();
[[nodiscard]] std::string_view shader_glow_frag();
[[nodiscard]] std::string_view shader_letter_vert();
[[nodiscard]] std::string_view shader_letter_frag();
[[nodiscard]] std::string_view shader_covering_vert();
[[nodiscard]] std::string_view shader_expose_frag();
[[nodiscard]] std::string_view shader_develop_frag();

}  // namespace couplet
