// The technical drawing's paper: what stands is white, the tooth mark grey; the cutaway opens it like metal.
in vec3 position;
in vec3 normal;
in vec3 along_turn;
flat in float surface;
flat in vec4 item_paint;
flat in vec2 item_state;
out vec4 colour;
void main() {
    if (item_state.y > 0.5 && cut.w > 0.0) {
        vec2 off = position.xy - cut.xy;
        float turn = atan(off.y, off.x) - cut.z;
        turn = abs(turn - 6.2831853 * floor(turn / 6.2831853 + 0.5));
        if (turn < cut.w) discard;
    }
    float rise = normalize(normal).z;
    float tone = 0.93 + 0.07 * rise;
    if (surface > 2.5) tone = 0.35;
    if (!gl_FrontFacing) tone = 0.72;
    colour = vec4(vec3(tone) - vec3(0.10, 0.05, 0.0) * item_state.x, 1.0);
}
