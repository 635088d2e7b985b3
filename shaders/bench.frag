in vec3 position;
out vec4 colour;
void main() {
    float faded = smoothstep(0.25, 1.0, length(position.xy - bench.xy) / bench.w);
    vec3 n = vec3(0.0, 0.0, 1.0);
    float open = mix(1.0, occlusion_at(position), 0.9);
    float lit = lit_by_key(position, n);
    // How much of the light that an empty bench would have reaches it.
    vec3 full = irradiance_at(n) + light_colour.rgb * to_light.z / 3.14159265;
    vec3 left = irradiance_at(n) * open * open + light_colour.rgb * to_light.z * lit / 3.14159265;
    float shade = dot(left, vec3(0.2126, 0.7152, 0.0722)) / dot(full, vec3(0.2126, 0.7152, 0.0722));
    shade = mix(shade, 1.0, faded);
    if (bench_colour.w > 0.5) {
        colour = vec4(0.0, 0.0, 0.0, 0.85 * (1.0 - shade));
        return;
    }
    vec3 top = mix(bench_colour.rgb * (0.75 + 0.25 * (1.0 - faded)), backdrop_at(gl_FragCoord.xy), faded);
    colour = vec4(shown(top * shade), 1.0);
}
