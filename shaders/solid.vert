layout(location = 0) in vec3 part_position;
layout(location = 1) in vec4 packed_normal;  // xyz: (n + 1) / 2, w: surface / 3
layout(location = 2) in vec4 row_x;          // of observer_from_part
layout(location = 3) in vec4 row_y;
layout(location = 4) in vec4 row_z;
layout(location = 5) in vec4 paint;          // rgb, w: finish
layout(location = 6) in vec2 state;          // lit up, opened

out vec3 position;
out vec3 normal;
out vec3 along_turn;  // tangent of the circle round the part's axis, as long as its radius
flat out float surface;
flat out vec4 item_paint;
flat out vec2 item_state;

void main() {
    vec3 n = packed_normal.xyz * 2.0 - 1.0;
    vec3 t = vec3(-part_position.y, part_position.x, 0.0);
    position = vec3(dot(row_x, vec4(part_position, 1.0)), dot(row_y, vec4(part_position, 1.0)),
                    dot(row_z, vec4(part_position, 1.0)));
    normal = vec3(dot(row_x.xyz, n), dot(row_y.xyz, n), dot(row_z.xyz, n));
    along_turn = vec3(dot(row_x.xyz, t), dot(row_y.xyz, t), dot(row_z.xyz, t));
    surface = floor(packed_normal.w * 3.0 + 0.5);
    item_paint = paint;
    item_state = state;
    gl_Position = clip_from_observer * vec4(position, 1.0);
}
