// An edge of a solid as a thin quad on the screen: drawn where it is sharp, or where one of its faces is seen and the
// other is not.
layout(location = 0) in vec2 corner;  // 0 or 1 along the edge, -1 or 1 across
layout(location = 1) in vec3 from;
layout(location = 2) in vec3 to;
layout(location = 3) in vec3 first_normal;
layout(location = 4) in vec3 second_normal;

uniform mat4 observer_from_part;
uniform float width_px;

out float across;
out vec3 position;

void main() {
    vec3 a = (observer_from_part * vec4(from, 1.0)).xyz;
    vec3 b = (observer_from_part * vec4(to, 1.0)).xyz;
    vec3 v = to_eye(0.5 * (a + b));
    float first_seen = dot(mat3(observer_from_part) * first_normal, v);
    float second_seen = dot(mat3(observer_from_part) * second_normal, v);
    bool sharp = dot(first_normal, second_normal) < 0.82;
    bool outline = first_seen * second_seen <= 0.0;
    vec4 at_a = clip_from_observer * vec4(a, 1.0);
    vec4 at_b = clip_from_observer * vec4(b, 1.0);
    if ((!sharp && !outline) || max(first_seen, second_seen) <= 0.0 || at_a.w <= 0.0 || at_b.w <= 0.0) {
        gl_Position = vec4(2.0, 2.0, 2.0, 1.0);
        across = 0.0;
        position = a;
        return;
    }
    vec2 run = (at_b.xy / at_b.w - at_a.xy / at_a.w) * picture.xy;
    vec2 along = dot(run, run) > 1e-12 ? normalize(run) : vec2(1.0, 0.0);
    float half_width = 0.5 * width_px * (outline ? 1.5 : 1.0) + 0.5;
    vec2 off = (along * (corner.x * 2.0 - 1.0) * 0.5 + vec2(-along.y, along.x) * corner.y) * half_width;
    vec4 at = corner.x < 0.5 ? at_a : at_b;
    at.xy += 2.0 * off * picture.zw * at.w;
    at.z -= 2.5e-4 * at.w;
    gl_Position = at;
    across = corner.y * half_width;
    position = corner.x < 0.5 ? a : b;
}
