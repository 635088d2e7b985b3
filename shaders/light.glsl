// The light of the stage: one soft key light with its shadow, the room round it, and what occludes it.
uniform sampler2DShadow shadow_map;
uniform sampler2D shadow_depths;
uniform samplerCube room;
uniform sampler2D occlusion_map;  // r: what is left of the room's light, g: distance along the gaze in mm

// A spiral of points that fill the unit disc evenly (golden angle).
vec2 disc_point(int i, float count) {
    float r = sqrt((float(i) + 0.5) / count);
    float a = 2.399963 * float(i);
    return r * vec2(cos(a), sin(a));
}

// The part of the key light that reaches a point: softer the farther what hides it (percentage-closer soft shadows).
float lit_by_key(vec3 position, vec3 n) {
    vec3 at = (shadow_from_observer * vec4(position + n * (1.5 * shadow.y), 1.0)).xyz;
    if (any(greaterThan(abs(at - 0.5), vec3(0.5)))) return 1.0;
    int taps = int(shadow.w);
    float blockers = 0.0;
    float depth_sum = 0.0;
    float reach = clamp(0.04 * shadow.z * to_light.w / shadow.y, 2.0, 24.0) * shadow.x;
    int search = max(taps / 2, 4);
    for (int i = 0; i < search; ++i) {
        float d = textureLod(shadow_depths, at.xy + disc_point(i, float(search)) * reach, 0.0).r;
        if (d < at.z) {
            blockers += 1.0;
            depth_sum += d;
        }
    }
    if (blockers < 0.5) return 1.0;
    float gap_mm = (at.z - depth_sum / blockers) * shadow.z;
    float radius = clamp(gap_mm * to_light.w / shadow.y, 1.0, 24.0) * shadow.x;
    float lit = 0.0;
    for (int i = 0; i < taps; ++i)
        lit += textureLod(shadow_map, vec3(at.xy + disc_point(i, float(taps)) * radius, at.z), 0.0);
    return lit / float(taps);
}

vec3 irradiance_at(vec3 n) {
    return max(irradiance[0].rgb + irradiance[1].rgb * n.y + irradiance[2].rgb * n.z + irradiance[3].rgb * n.x +
                   irradiance[4].rgb * (n.x * n.y) + irradiance[5].rgb * (n.y * n.z) +
                   irradiance[6].rgb * (3.0 * n.z * n.z - 1.0) + irradiance[7].rgb * (n.x * n.z) +
                   irradiance[8].rgb * (n.x * n.x - n.y * n.y),
               vec3(0.0));
}

// Between the four measured points round the fragment, those at its own distance count.
float occlusion_at(vec3 position) {
    if (occlusion.w < 0.5) return 1.0;
    float distance_mm = dot(position - eye.xyz, gaze.xyz);
    vec2 at = gl_FragCoord.xy * picture.zw * vec2(textureSize(occlusion_map, 0)) - 0.5;
    ivec2 base = ivec2(floor(at));
    vec2 part = at - floor(at);
    ivec2 last = textureSize(occlusion_map, 0) - 1;
    float sum = 0.0;
    float weights = 0.0;
    for (int i = 0; i < 4; ++i) {
        ivec2 corner = ivec2(i & 1, i >> 1);
        vec2 found = texelFetch(occlusion_map, clamp(base + corner, ivec2(0), last), 0).rg;
        vec2 near = mix(1.0 - part, part, vec2(corner));
        float weight = (near.x * near.y + 1e-3) / (0.02 * occlusion.x + abs(found.g - distance_mm));
        sum += weight * found.r;
        weights += weight;
    }
    return sum / weights;
}

// Filmic tone curve (K. Narkowicz' fit of the ACES reference curve, 2015, from memory), then the sRGB curve
// (IEC 61966-2-1) and a grain below one step of 8 bits against banding.
vec3 shown(vec3 radiance) {
    vec3 x = radiance * 0.72;
    vec3 mapped = clamp((x * (2.51 * x + 0.03)) / (x * (2.43 * x + 0.59) + 0.14), 0.0, 1.0);
    vec3 srgb = mix(12.92 * mapped, 1.055 * pow(mapped, vec3(1.0 / 2.4)) - 0.055, step(0.0031308, mapped));
    float grain = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5;
    return srgb + grain / 255.0;
}
