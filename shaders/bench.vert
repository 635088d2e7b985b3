// The bench top: a square wide enough to have faded at its edges.
layout(location = 0) in vec2 corner;
out vec3 position;
void main() {
    position = vec3(bench.xy + corner * bench.w, bench.z);
    gl_Position = clip_from_observer * vec4(position, 1.0);
}
