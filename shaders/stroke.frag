in vec3 place;
flat in vec4 stroke_ink;
flat in float dash;
out vec4 colour;
void main() {
    float cover = clamp(place.z + 0.5 - abs(place.y), 0.0, 1.0);
    if (dash > 0.0) cover *= clamp(abs(mod(place.x, 2.0 * dash) - dash) - 0.5 * dash + 0.5, 0.0, 1.0);
    // Premultiplied, so that a picture without a background stays right.
    colour = vec4(stroke_ink.rgb, 1.0) * (stroke_ink.a * cover);
}
