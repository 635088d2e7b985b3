// The wedge that the cutaway takes out of opened items; through it their inside is seen.
float angle_past_the_cut(vec3 position) {
    vec2 off = position.xy - cut.xy;
    float turn = atan(off.y, off.x) - cut.z;
    return abs(turn - 6.2831853 * floor(turn / 6.2831853 + 0.5)) - cut.w;
}
void leave_out_the_cut(vec3 position) {
    if (angle_past_the_cut(position) < 0.0) discard;
}
// Within a line's width of the cut, along the surface.
bool is_rim_of_the_cut(vec3 position, float width_px) {
    float past = angle_past_the_cut(position);
    return past < width_px * fwidth(past);
}
bool seen_from_inside() { return !gl_FrontFacing; }
