// The technical drawing's paper: what stands is white, the tooth mark grey; the cutaway opens it like metal.
in vec3 position;
in vec3 normal;
in vec3 along_turn;
flat in float surface;
flat in vec4 item_paint;
flat in vec2 item_state;
out vec4 colour;
void main() {
    leave_out_the_cut(position);
    float rise = normalize(normal).z;
    float tone = 0.93 + 0.07 * rise;
    if (surface > 2.5) tone = 0.35;
    if (seen_from_inside()) tone = 0.72;
    if (is_rim_of_the_cut(position, max(1.1, picture.y / 900.0))) tone = 0.08;
    colour = vec4(vec3(tone) - vec3(0.10, 0.05, 0.0) * item_state.x, 1.0);
}
