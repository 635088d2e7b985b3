// A soft light that faces the eye.
layout(location = 0) in vec2 quad;      // 0 or 1, -1 or 1
layout(location = 1) in vec4 centre;  // w: radius in mm
layout(location = 2) in vec3 tint;
out vec2 from_middle;
flat out vec3 glow_tint;
void main() {
    vec2 corner = vec2(quad.x * 2.0 - 1.0, quad.y);
    vec3 towards = to_eye(centre.xyz);
    vec3 right = normalize(cross(abs(towards.z) < 0.99 ? vec3(0.0, 0.0, 1.0) : vec3(0.0, 1.0, 0.0), towards));
    vec3 up = cross(towards, right);
    vec4 at = clip_from_observer * vec4(centre.xyz + (right * corner.x + up * corner.y) * centre.w + towards * centre.w, 1.0);
    gl_Position = at;
    from_middle = corner;
    glow_tint = tint;
}
