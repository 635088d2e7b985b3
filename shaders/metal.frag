// Metal, paint and clay under the stage's light: microfacets by GGX (Walter et al. 2007; Smith's shadowing), split-sum
// environment with the fitted scale and bias of Karis (2014), stretched across the tool marks of turned faces
// (Revie 2012: the normal is bent towards the plane across the marks). All from memory of the papers.
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
    if (surface == kMark) return Finish(vec3(0.05), vec3(0.020, 0.085, 0.20), 0.22);
    if (kind < 0.5) return Finish(vec3(0.86, 0.66, 0.33), vec3(0.0), 0.27);
    if (kind < 1.5) return Finish(vec3(0.57, 0.57, 0.56), vec3(0.0), 0.26);
    if (kind < 2.5) return Finish(vec3(0.74, 0.47, 0.30), vec3(0.0), 0.30);
    if (kind < 3.5) return Finish(vec3(0.075, 0.078, 0.085), vec3(0.012, 0.013, 0.015), 0.34);
    return Finish(vec3(0.045), paint, 0.35);
}

vec3 environment_scale(vec3 mirror, float roughness, float n_dot_v) {
    vec4 r = roughness * vec4(-1.0, -0.0275, -0.572, 0.022) + vec4(1.0, 0.0425, 1.04, -0.04);
    float a = min(r.x * r.x, exp2(-9.28 * n_dot_v)) * r.x + r.y;
    vec2 fit = vec2(-1.04, 1.04) * a + r.zw;
    return mirror * fit.x + fit.y;
}

float rough_level(float roughness) { return sqrt(roughness) * style.y; }

float hash(float x) { return fract(sin(x * 12.9898) * 43758.5453); }

// Fine grooves round the axis: the normal tilts along the radius, less the more of them share a pixel.
vec3 with_tool_marks(vec3 n, vec3 outwards, float radius_mm) {
    float pitch_mm = 0.22;
    float at = radius_mm / pitch_mm;
    float shown_part = clamp(1.0 - 1.6 * fwidth(at), 0.0, 1.0);
    if (shown_part <= 0.0) return n;
    float groove = floor(at);
    float tilt = (hash(groove) - 0.5) * 0.05 + 0.02 * sin(6.2831853 * at);
    return normalize(n + outwards * tilt * shown_part);
}

void main() {
    if (item_state.y > 0.5 && cut.w > 0.0) {
        vec2 off = position.xy - cut.xy;
        float turn = atan(off.y, off.x) - cut.z;
        turn = abs(turn - 6.2831853 * floor(turn / 6.2831853 + 0.5));
        if (turn < cut.w) discard;
    }
    vec3 v = to_eye(position);
    vec3 n = normalize(normal);
    bool inside = !gl_FrontFacing;  // seen through the cut: the metal's section
    if (inside) n = normalize(vec3(-cos(cut.z), -sin(cut.z), 0.35)) * -1.0;
    Finish finish = finish_of(item_paint.w, item_paint.rgb);
    if (inside) finish = Finish(vec3(0.05), vec3(0.42, 0.10, 0.06), 0.6);
    float radius_mm = length(along_turn);
    bool turned = surface == kTurned && radius_mm > 1e-3 && !inside && style.x < 0.5;
    float roughness = finish.roughness + (surface == kMilled ? 0.08 : surface == kGround ? -0.04 : 0.0);
    vec3 bent = n;
    vec3 outwards = vec3(0.0);
    if (turned) {
        vec3 tangent = along_turn / radius_mm;
        outwards = normalize(cross(tangent, n));
        n = with_tool_marks(n, outwards, radius_mm);
        vec3 across = cross(tangent, v);
        bent = normalize(mix(n, normalize(cross(across, tangent)), 0.35));
    }
    float n_dot_v = max(dot(n, v), 1e-3);
    float open = occlusion_at(position);

    // The room.
    vec3 r = reflect(-v, bent);
    vec3 mirrored;
    if (turned && style.z > 0.5) {
        float level = rough_level(roughness * 0.8);
        mirrored = 0.4 * textureLod(room, r, level).rgb +
                   0.3 * textureLod(room, normalize(r + 0.35 * outwards), level).rgb +
                   0.3 * textureLod(room, normalize(r - 0.35 * outwards), level).rgb;
    } else {
        mirrored = textureLod(room, r, rough_level(roughness)).rgb;
    }
    float open_mirror = clamp(pow(n_dot_v + open, exp2(-16.0 * roughness - 1.0)) - 1.0 + open, 0.0, 1.0);
    vec3 radiance = mirrored * environment_scale(finish.mirror, roughness, n_dot_v) * mix(open, open_mirror, 0.4);
    radiance += finish.diffuse * irradiance_at(n) * open;

    // The key light.
    vec3 l = to_light.xyz;
    float n_dot_l = dot(n, l);
    if (n_dot_l > 0.0) {
        float lit = lit_by_key(position, n);
        if (lit > 0.0) {
            vec3 h = normalize(l + v);
            float n_dot_h = max(dot(n, h), 0.0);
            float across = roughness * roughness + 0.5 * to_light.w;
            float along = across;
            float spread;
            if (turned) {
                along *= 0.45;
                across *= 1.8;
                float t_dot_h = dot(along_turn / radius_mm, h) / along;
                float o_dot_h = dot(outwards, h) / across;
                float d = t_dot_h * t_dot_h + o_dot_h * o_dot_h + n_dot_h * n_dot_h;
                spread = 1.0 / (3.14159265 * along * across * d * d);
            } else {
                float d = n_dot_h * n_dot_h * (across * across - 1.0) + 1.0;
                spread = across * across / (3.14159265 * d * d);
            }
            float k = across * 0.5;
            float shadowing = 0.25 / ((n_dot_v * (1.0 - k) + k) * (n_dot_l * (1.0 - k) + k));
            vec3 fresnel = finish.mirror + (1.0 - finish.mirror) * pow(1.0 - max(dot(v, h), 0.0), 5.0);
            radiance += light_colour.rgb * lit * n_dot_l * (fresnel * spread * shadowing + finish.diffuse / 3.14159265);
        }
    }
    radiance += item_state.x * vec3(0.10, 0.16, 0.22);
    colour = vec4(shown(radiance), 1.0);
}
