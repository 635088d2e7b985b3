// One piece of a stroke as a quad, a pixel wider than the stroke for a soft rim.
layout(location = 0) in vec2 corner;
layout(location = 1) in vec4 from;    // xyz in the observer's frame, w: pixels of the stroke before it
layout(location = 2) in vec3 to;
layout(location = 3) in vec4 ink;     // sRGB, alpha
layout(location = 4) in vec3 pen;     // width, dash in pixels, pulled to the eye (0 or 1)

out vec3 place;  // pixels along, across, half width
flat out vec4 stroke_ink;
flat out float dash;

void main() {
    vec4 a = clip_from_observer * vec4(from.xyz, 1.0);
    vec4 b = clip_from_observer * vec4(to, 1.0);
    a.w = max(a.w, 1e-4);
    b.w = max(b.w, 1e-4);
    vec2 run = (b.xy / b.w - a.xy / a.w) * picture.xy * 0.5;
    float span = length(run);
    vec2 along = span > 1e-6 ? run / span : vec2(1.0, 0.0);
    float half_width = 0.5 * pen.x;
    vec2 off = along * (corner.x * 2.0 - 1.0) * 0.5 + vec2(-along.y, along.x) * corner.y * (half_width + 1.0);
    vec4 at = corner.x < 0.5 ? a : b;
    at.xy += 2.0 * off * picture.zw * at.w;
    at.z -= (pen.z > 0.5 ? 0.0 : 6e-5) * at.w;
    if (pen.z > 0.5) at.z = -at.w;
    gl_Position = at;
    place = vec3(from.w + corner.x * span, corner.y * (half_width + 1.0), half_width);
    stroke_ink = ink;
    dash = pen.y;
}
