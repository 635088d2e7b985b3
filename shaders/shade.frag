// Ambient occlusion from the depth picture: how much of the half sphere over a point its neighbours fill, by a spiral of
// samples (McGuire, Mara, Luebke: Scalable Ambient Obscurance, 2012, from memory). Writes openness and distance.
uniform sampler2D depths;
out vec2 found;

vec3 place_of(ivec2 texel, ivec2 size) {
    vec2 at = (vec2(texel) + 0.5) / vec2(size) * 2.0 - 1.0;
    vec4 p = observer_from_clip * vec4(at, texelFetch(depths, texel, 0).r * 2.0 - 1.0, 1.0);
    return p.xyz / p.w;
}

vec3 smaller(vec3 a, vec3 b) { return dot(a, a) < dot(b, b) ? a : b; }

void main() {
    ivec2 size = textureSize(depths, 0);
    ivec2 texel = ivec2(gl_FragCoord.xy);
    ivec2 last = size - 1;
    if (texelFetch(depths, texel, 0).r >= 1.0) {
        found = vec2(1.0, 1e6);
        return;
    }
    vec3 p = place_of(texel, size);
    vec3 along_x = smaller(place_of(min(texel + ivec2(1, 0), last), size) - p, p - place_of(max(texel - ivec2(1, 0), ivec2(0)), size));
    vec3 along_y = smaller(place_of(min(texel + ivec2(0, 1), last), size) - p, p - place_of(max(texel - ivec2(0, 1), ivec2(0)), size));
    vec3 n = normalize(cross(along_x, along_y));
    float distance_mm = dot(p - eye.xyz, gaze.xyz);
    float reach = occlusion.x * occlusion.y / (eye.w > 0.5 ? distance_mm : 1.0) * float(size.y) * picture.w;
    int taps = int(occlusion.z);
    // Each of 4 x 4 neighbours turns its spiral differently; the smoothing averages over them.
    float turn = float((texel.x & 3) * 4 + (texel.y & 3)) * 0.3926991;
    float hidden = 0.0;
    float radius2 = occlusion.x * occlusion.x;
    for (int i = 0; i < taps; ++i) {
        float part = (float(i) + 0.5) / float(taps);
        float angle = 2.399963 * float(i) + turn;
        ivec2 there = clamp(texel + ivec2(vec2(cos(angle), sin(angle)) * max(part * part * reach, 1.0 + part * 3.0)), ivec2(0), last);
        vec3 to = place_of(there, size) - p;
        float squared = dot(to, to);
        float rise = dot(to, n) - 0.012 * occlusion.x;
        float near = max(radius2 - squared, 0.0) / radius2;
        hidden += near * near * max(rise, 0.0) * inversesqrt(squared + 1e-4);
    }
    found = vec2(clamp(1.0 - 2.4 * hidden / float(taps), 0.0, 1.0), distance_mm);
}
