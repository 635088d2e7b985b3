// Nothing is cut: hidden fragments need no shading, which a discard anywhere in the shader would prevent.
void leave_out_the_cut(vec3 position) {}
bool is_rim_of_the_cut(vec3 position, float width_px) { return false; }
bool seen_from_inside() { return false; }
