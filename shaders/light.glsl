// The light of the stage: the room round it, one soft key light, and the shade measured for both (shade.frag).
uniform samplerCube room;
uniform sampler2D shade_map;  // openness to the room, key light, distance along the gaze in mm

vec3 irradiance_at(vec3 n) {
    vec4 terms = vec4(1.0, n.y, n.z, n.x);
    return max(irradiance[0].rgb * terms.x + irradiance[1].rgb * terms.y + irradiance[2].rgb * terms.z +
                   irradiance[3].rgb * terms.w,
               vec3(0.0));
}

// Openness and key light: of the four measured points round the fragment, those at its own distance count.
vec2 shade_at(vec3 position) {
    float distance_mm = dot(position - eye.xyz, gaze.xyz);
    vec2 at = gl_FragCoord.xy * picture.zw * vec2(textureSize(shade_map, 0)) - 0.5;
    ivec2 base = ivec2(floor(at));
    vec2 part = at - floor(at);
    ivec2 last = textureSize(shade_map, 0) - 1;
    vec2 sum = vec2(0.0);
    float weights = 0.0;
    for (int i = 0; i < 4; ++i) {
        ivec2 corner = ivec2(i & 1, i >> 1);
        vec3 found = texelFetch(shade_map, clamp(base + corner, ivec2(0), last), 0).rgb;
        vec2 near = mix(1.0 - part, part, vec2(corner));
        float weight = (near.x * near.y + 1e-3) / (0.02 * occlusion.x + abs(found.b - distance_mm));
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
