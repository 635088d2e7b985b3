in float across;
in vec3 position;
uniform float width_px;
uniform float opened;
out vec4 colour;
void main() {
    if (opened > 0.5) leave_out_the_cut(position);
    colour = vec4(0.07, 0.08, 0.10, 1.0);
}
