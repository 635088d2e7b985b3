// What stands round the machine: the bench top with its shade, fading into a backdrop that brightens from below to above.
// Each pixel's ray finds the bench by itself.
out vec4 colour;

vec3 backdrop() {
    vec2 off = gl_FragCoord.xy * picture.zw - 0.5;
    return mix(backdrop_low.rgb, backdrop_high.rgb, smoothstep(-0.5, 0.5, off.y)) * (1.0 - 0.35 * dot(off, off));
}

void main() {
    vec2 at = gl_FragCoord.xy * picture.zw * 2.0 - 1.0;
    vec3 off = at.x * picture_right.xyz + at.y * picture_up.xyz;
    vec3 from = eye.xyz + (eye.w > 0.5 ? vec3(0.0) : off);
    vec3 ray = gaze.xyz + (eye.w > 0.5 ? off : vec3(0.0));
    // Seen from above only: from below the bench would hide everything.
    float along = (bench.z - from.z) / min(ray.z, -1e-6);
    vec3 position = from + along * ray;
    float faded = smoothstep(0.25, 1.0, length(position.xy - bench.xy) / bench.w);
    faded = ray.z < 0.0 && (along > 0.0 || eye.w < 0.5) ? faded : 1.0;
    vec2 found = shade_at(position);
    float open = mix(1.0, found.x, 0.9);
    // How much of the light that an empty bench would have reaches it.
    float shade = mix(mix(found.y, open * open, style.z), 1.0, faded);
    vec3 top = mix(bench_colour.rgb * (1.0 - 0.25 * faded), backdrop(), faded);
    colour = bench_colour.w > 0.5 ? vec4(0.0, 0.0, 0.0, 0.85 * (1.0 - shade)) : vec4(shown(top * shade), 1.0);
}
