// The light of the stage: the room round it, one soft key light, and the shade measured for both (shade.frag).
uniform samplerCube room;
uniform sampler2D shade_map;  // openness to the room, key light, distance as small_distance tells it

vec3 irradiance_at(vec3 n) {
    vec4 terms = vec4(1.0, n.y, n.z, n.x);
    return max(irradiance[0].rgb * terms.x + irradiance[1].rgb * terms.y + irradiance[2].rgb * terms.z +
                   irradiance[3].rgb * terms.w,
               vec3(0.0));
}

// Openness and key light. Where the measured points round the fragment lie on its own surface they blend into each
// other; elsewhere those at its own distance count.
vec2 shade_at(vec3 position) {
    float own = small_distance(dot(position - eye.xyz, gaze.xyz));
    vec2 size = vec2(textureSize(shade_map, 0));
    vec2 place = gl_FragCoord.xy * picture.zw;
    vec3 blended = textureLod(shade_map, place, 0.0).rgb;
    vec2 at = place * size - 0.5;
    vec2 part = fract(at);
    ivec2 base = ivec2(floor(at));
    ivec2 last = ivec2(size) - 1;
    vec2 sum = blended.rg * 1e-6;
    float weights = 1e-6;
    // A loop that does not start, rather than a branch: a software renderer skips only loops.
    for (int i = abs(blended.b - own) < 0.02 ? 4 : 0; i < 4; ++i) {
        ivec2 corner = ivec2(i & 1, i >> 1);
        vec3 found = texelFetch(shade_map, clamp(base + corner, ivec2(0), last), 0).rgb;
        vec2 near = mix(1.0 - part, part, vec2(corner));
        float weight = (near.x * near.y + 1e-3) / (0.02 + abs(found.b - own));
        sum += weight * found.rg;
        weights += weight;
    }
    return sum / weights;
}

// Filmic tone curve with the screen's gamma in it (J. Hejl and R. Burgess-Dawson, 2010, from memory), its blacks a
// little deeper, and a grain below one step of 8 bits against banding.
vec3 shown(vec3 radiance) {
    vec3 x = max(1.06 * radiance - 0.016, vec3(0.0));
    vec3 screen = x * (6.2 * x + 0.5) / (x * (6.2 * x + 1.7) + 0.06);
    float grain = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5;
    return screen + grain / 255.0;
}
