// Averages the 4 x 4 turns of the spirals in shade.frag, over points at the same distance: along one axis, then the other.
uniform sampler2D measured;
uniform ivec2 along;
out vec4 found;
void main() {
    ivec2 texel = ivec2(gl_FragCoord.xy);
    ivec2 last = textureSize(measured, 0) - 1;
    float own = texelFetch(measured, texel, 0).b;
    vec2 sum = vec2(0.0);
    float weights = 0.0;
    for (int i = -2; i < 2; ++i) {
        vec3 other = texelFetch(measured, clamp(texel + i * along, ivec2(0), last), 0).rgb;
        float weight = 1.0 / (0.03 + abs(other.b - own));
        sum += weight * other.rg;
        weights += weight;
    }
    found = vec4(sum / weights, own, 0.0);
}
