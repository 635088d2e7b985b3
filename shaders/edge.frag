in float across;
in vec3 position;
uniform float width_px;
uniform float opened;
out vec4 colour;
void main() {
    if (opened > 0.5 && cut.w > 0.0) {
        vec2 off = position.xy - cut.xy;
        float turn = atan(off.y, off.x) - cut.z;
        turn = abs(turn - 6.2831853 * floor(turn / 6.2831853 + 0.5));
        if (turn < cut.w) discard;
    }
    colour = vec4(0.07, 0.08, 0.10, 1.0);
}
