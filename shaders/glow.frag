in vec2 from_middle;
flat in vec3 glow_tint;
out vec4 colour;
void main() {
    float r2 = dot(from_middle, from_middle);
    float halo = exp(-5.0 * r2) * max(1.0 - r2, 0.0);
    float core = smoothstep(0.055, 0.02, r2);
    float strength = clamp(0.75 * halo + core, 0.0, 1.0);
    colour = vec4(mix(glow_tint, vec3(1.0), core) * strength, 0.6 * strength);
}
