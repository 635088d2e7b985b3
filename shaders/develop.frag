// The light of a square of points as one pixel, as on screen.
uniform sampler2D light;
uniform int side;
out vec4 shown;
float encoded(float l) { return l <= 0.0031308 ? 12.92 * l : 1.055 * pow(l, 1.0 / 2.4) - 0.055; }
void main() {
    ivec2 first = ivec2(gl_FragCoord.xy) * side;
    vec4 sum = vec4(0.0);
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) sum += texelFetch(light, first + ivec2(x, y), 0);
    sum /= float(side * side);
    vec3 colour = sum.a > 0.0 ? min(sum.rgb / sum.a, 1.0) : vec3(0.0);
    shown = vec4(encoded(colour.r), encoded(colour.g), encoded(colour.b), 1.0) * min(sum.a, 1.0);
}
