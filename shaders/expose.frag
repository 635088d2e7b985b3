// One of several drawings of a frame, as light: what is added up must be linear.
uniform sampler2D drawn;  // sRGB as on screen, premultiplied
uniform float weight;
out vec4 light;
float linear(float s) { return s <= 0.04045 ? s / 12.92 : pow((s + 0.055) / 1.055, 2.4); }
void main() {
    vec4 seen = texelFetch(drawn, ivec2(gl_FragCoord.xy), 0);
    vec3 colour = seen.a > 0.0 ? min(seen.rgb / seen.a, 1.0) : vec3(0.0);
    light = weight * seen.a * vec4(linear(colour.r), linear(colour.g), linear(colour.b), 1.0);
}
