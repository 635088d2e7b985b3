// Shade, measured in a small picture of the depths: how open a point is to the room and how much of the key light reaches
// it. Openness by a spiral of samples (McGuire, Mara, Luebke: Scalable Ambient Obscurance, 2012, from memory); shadows
// the softer the farther what throws them (Fernando: Percentage-Closer Soft Shadows, 2005, from memory). Each of 4 x 4
// neighbours turns its spirals differently, and smooth.frag averages over them. Writes openness, light and distance.
uniform sampler2D depths;
uniform sampler2DShadow shadow_map;
uniform sampler2D shadow_depths;
out vec4 found;

// A spiral of points that fill the unit disc evenly (golden angle).
vec2 disc_point(int i, float count, float turn) {
    float r = sqrt((float(i) + 0.5) / count);
    float a = 2.399963 * float(i) + turn;
    return r * vec2(cos(a), sin(a));
}

float lit_by_key(vec3 position, vec3 n, float turn) {
    if (dot(n, to_light.xyz) <= 0.0) return 0.0;
    vec3 at = (shadow_from_observer * vec4(position + n * (1.5 * shadow.y), 1.0)).xyz;
    if (any(greaterThan(abs(at - 0.5), vec3(0.5)))) return 1.0;
    float blockers = 0.0;
    float depth_sum = 0.0;
    float widest = clamp(0.05 * shadow.z * to_light.w / shadow.y, 2.0, 32.0);
    int search = max(int(shadow.w) / 2, 4);
    for (int i = 0; i < search; ++i) {
        float d = textureLod(shadow_depths, at.xy + disc_point(i, float(search), turn) * (widest * shadow.x), 0.0).r;
        if (d < at.z) {
            blockers += 1.0;
            depth_sum += d;
        }
    }
    if (blockers < 0.5) return 1.0;
    float gap_mm = (at.z - depth_sum / blockers) * shadow.z;
    float radius = clamp(gap_mm * to_light.w / shadow.y, 1.0, widest) * shadow.x;
    int taps = int(shadow.w);
    float lit = 0.0;
    for (int i = 0; i < taps; ++i)
        lit += textureLod(shadow_map, vec3(at.xy + disc_point(i, float(taps), turn) * radius, at.z), 0.0);
    return lit / float(taps);
}

// Linear in the texel, but for one division: at_distance turns the depth's own scale into mm along the gaze.
vec3 place_of(ivec2 texel, vec2 scale) {
    vec2 at = (vec2(texel) + 0.5) * scale - 1.0;
    float depth = texelFetch(depths, texel, 0).r * 2.0 - 1.0;
    vec3 off = at.x * picture_right.xyz + at.y * picture_up.xyz;
    if (eye.w > 0.5) {
        float distance_mm = depth_terms.y / (depth + depth_terms.x);
        return eye.xyz + distance_mm * (gaze.xyz + off);
    }
    return eye.xyz + (depth_terms.y - depth) / depth_terms.x * gaze.xyz + off;
}

vec3 smaller(vec3 a, vec3 b) { return dot(a, a) < dot(b, b) ? a : b; }

float openness(vec3 p, vec3 n, ivec2 texel, ivec2 size, float distance_mm, float turn) {
    int taps = int(occlusion.z);
    if (taps == 0) return 1.0;
    float reach = occlusion.x * occlusion.y / (eye.w > 0.5 ? distance_mm : 1.0) * float(size.y) * picture.w;
    float radius2 = occlusion.x * occlusion.x;
    float hidden = 0.0;
    vec2 scale = 2.0 / vec2(size);
    for (int i = 0; i < taps; ++i) {
        float part = (float(i) + 0.5) / float(taps);
        float angle = 2.399963 * float(i) + turn;
        vec2 off = vec2(cos(angle), sin(angle)) * max(part * part * reach, 1.0 + part * 3.0);
        vec3 to = place_of(clamp(texel + ivec2(off), ivec2(0), size - 1), scale) - p;
        float squared = dot(to, to);
        float rise = dot(to, n) - 0.012 * occlusion.x;
        float near = max(radius2 - squared, 0.0) / radius2;
        hidden += near * near * max(rise, 0.0) * inversesqrt(squared + 1e-4);
    }
    return clamp(1.0 - 2.4 * hidden / float(taps), 0.0, 1.0);
}

void main() {
    ivec2 size = textureSize(depths, 0);
    ivec2 texel = ivec2(gl_FragCoord.xy);
    ivec2 last = size - 1;
    if (texelFetch(depths, texel, 0).r >= 1.0) {
        found = vec4(1.0, 1.0, 6e4, 0.0);
        return;
    }
    vec2 scale = 2.0 / vec2(size);
    vec3 p = place_of(texel, scale);
    vec3 along_x = smaller(place_of(min(texel + ivec2(1, 0), last), scale) - p,
                           p - place_of(max(texel - ivec2(1, 0), ivec2(0)), scale));
    vec3 along_y = smaller(place_of(min(texel + ivec2(0, 1), last), scale) - p,
                           p - place_of(max(texel - ivec2(0, 1), ivec2(0)), scale));
    vec3 n = normalize(cross(along_x, along_y));
    float distance_mm = dot(p - eye.xyz, gaze.xyz);
    float turn = float((texel.x & 3) * 4 + (texel.y & 3)) * 0.3926991;
    found = vec4(openness(p, n, texel, size, distance_mm, turn), lit_by_key(p, n, turn), small_distance(distance_mm), 0.0);
}
