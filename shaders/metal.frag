// Metal, paint and clay under the stage's light: microfacets by GGX (Walter et al. 2007; Smith's shadowing), split-sum
// environment with the fitted scale and bias of Karis (2014), stretched across the tool marks of turned faces
// (the normal is bent towards the plane across the marks). All from memory of the papers.
in vec3 position;
in vec3 normal;
in vec3 along_turn;
flat in float surface;
flat in vec4 item_paint;
flat in vec2 item_state;

out vec4 colour;

struct Finish {
    vec3 mirror;    // reflectance head-on
    vec3 diffuse;
    float roughness;
};

const float kTurned = 0.0;
const float kGround = 1.0;
const float kMilled = 2.0;
const float kMark = 3.0;

// Reflectances head-on of metals from tables of n and k (from memory), a little dulled by use.
Finish finish_of(float kind, vec3 paint) {
    if (style.x > 0.5) return Finish(vec3(0.04), surface == kMark ? vec3(0.10, 0.16, 0.22) : vec3(0.46, 0.445, 0.42), 0.8);
    if (surface == kMark) return Finish(vec3(0.05), vec3(0.012, 0.10, 0.30), 0.22);
    if (kind < 0.5) return Finish(vec3(0.86, 0.64, 0.28), vec3(0.0), 0.27);
    if (kind < 1.5) return Finish(vec3(0.57, 0.57, 0.56), vec3(0.0), 0.26);
    if (kind < 2.5) return Finish(vec3(0.74, 0.44, 0.25), vec3(0.0), 0.30);
    if (kind < 3.5) return Finish(vec3(0.075, 0.078, 0.085), vec3(0.020, 0.021, 0.024), 0.34);
    return Finish(vec3(0.045), paint, 0.35);
}

vec3 environment_scale(vec3 mirror, float roughness, float n_dot_v) {
    vec4 r = roughness * vec4(-1.0, -0.0275, -0.572, 0.022) + vec4(1.0, 0.0425, 1.04, -0.04);
    float a = min(r.x * r.x, exp2(-9.28 * n_dot_v)) * r.x + r.y;
    vec2 fit = vec2(-1.04, 1.04) * a + r.zw;
    return mirror * fit.x + fit.y;
}

float rough_level(float roughness) { return sqrt(roughness) * style.y; }

float hash(float x) { return fract(fract(x * 0.1031) * (fract(x * 0.1031) + 33.33) * 47.7); }

// Fine grooves round the axis: the normal tilts along the radius, less the more of them share a pixel.
vec3 with_tool_marks(vec3 n, vec3 outwards, float radius_mm) {
    float pitch_mm = 0.22;
    float at = radius_mm / pitch_mm;
    float seen = clamp(1.0 - 1.6 * fwidth(at), 0.0, 1.0);
    float tilt = (hash(floor(at)) - 0.5) * 0.06 + 0.02 * (abs(fract(at) - 0.5) - 0.25);
    return normalize(n + outwards * (tilt * seen));
}

void main() {
    leave_out_the_cut(position);
    vec3 v = to_eye(position);
    vec3 n = normalize(normal);
    bool inside = seen_from_inside();  // through the cut: the metal's section
    Finish finish = finish_of(item_paint.w, item_paint.rgb);
    vec2 shade = shade_at(position);
    if (inside) {
        n = normalize(vec3(cos(cut.z), sin(cut.z), -0.35));
        finish = Finish(vec3(0.05), vec3(0.42, 0.10, 0.06), 0.6);
        shade = vec2(1.0);
    }
    float radius_mm = max(length(along_turn), 1e-3);
    vec3 tangent = along_turn / radius_mm;
    bool turned = surface == kTurned && !inside && style.x < 0.5;
    float roughness = finish.roughness + (surface == kMilled ? 0.08 : surface == kGround ? -0.04 : 0.0);
    vec3 outwards = cross(tangent, n);
    vec3 marked = with_tool_marks(n, outwards, radius_mm);
    vec3 bent = mix(marked, normalize(cross(cross(tangent, v), tangent)), 0.5);
    n = turned ? marked : n;
    bent = turned ? normalize(bent) : n;
    float n_dot_v = max(dot(n, v), 1e-3);
    float open = shade.x;

    // The room. A mirror that is hidden from half of the room may still see the lamp that it mirrors.
    float level = rough_level(turned ? 1.25 * roughness : roughness);
    vec3 mirrored = textureLod(room, reflect(-v, bent), level).rgb;
    vec3 radiance = mirrored * environment_scale(finish.mirror, roughness, n_dot_v) * mix(open, sqrt(open), 0.4);
    radiance += finish.diffuse * irradiance_at(n) * open;

    // The key light.
    vec3 l = to_light.xyz;
    float n_dot_l = max(dot(n, l), 0.0);
    vec3 h = normalize(l + v);
    float n_dot_h = max(dot(n, h), 0.0);
    float across = roughness * roughness + 0.5 * to_light.w;
    vec2 lobe = turned ? vec2(0.45, 1.8) * across : vec2(across);
    vec2 stretched = vec2(dot(tangent, h), dot(outwards, h)) / lobe;
    float d = turned ? dot(stretched, stretched) + n_dot_h * n_dot_h
                     : (n_dot_h * n_dot_h * (across * across - 1.0) + 1.0) / (across * across);
    float spread = 1.0 / (3.14159265 * lobe.x * lobe.y * d * d);
    float k = 0.5 * lobe.y;
    float shadowing = 0.25 / ((n_dot_v * (1.0 - k) + k) * (n_dot_l * (1.0 - k) + k));
    float graze = 1.0 - max(dot(v, h), 0.0);
    float graze2 = graze * graze;
    vec3 fresnel = finish.mirror + (1.0 - finish.mirror) * (graze2 * graze2 * graze);
    radiance += light_colour.rgb * (shade.y * n_dot_l) * (fresnel * (spread * shadowing) + finish.diffuse / 3.14159265);

    radiance += item_state.x * vec3(0.10, 0.16, 0.22);
    colour = vec4(shown(radiance), 1.0);
}
