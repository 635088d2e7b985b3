in vec3 position;
out vec4 colour;
void main() {
    float faded = smoothstep(0.25, 1.0, length(position.xy - bench.xy) / bench.w);
    vec2 found = shade_at(position);
    float open = mix(1.0, found.x, 0.9);
    // How much of the light that an empty bench would have reaches it.
    float shade = mix(mix(found.y, open * open, style.z), 1.0, faded);
    if (bench_colour.w > 0.5) {
        colour = vec4(0.0, 0.0, 0.0, 0.85 * (1.0 - shade));
        return;
    }
    vec3 top = mix(bench_colour.rgb * (0.75 + 0.25 * (1.0 - faded)), backdrop_at(gl_FragCoord.xy), faded);
    colour = vec4(shown(top * shade), 1.0);
}
