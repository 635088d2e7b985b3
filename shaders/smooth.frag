// Averages the 4 x 4 turns of the occlusion's spiral, over points at the same distance.
uniform sampler2D measured;
out vec2 found;
void main() {
    ivec2 texel = ivec2(gl_FragCoord.xy);
    ivec2 last = textureSize(measured, 0) - 1;
    vec2 own = texelFetch(measured, texel, 0).rg;
    float sum = 0.0;
    float weights = 0.0;
    for (int y = -2; y < 2; ++y)
        for (int x = -2; x < 2; ++x) {
            vec2 other = texelFetch(measured, clamp(texel + ivec2(x, y), ivec2(0), last), 0).rg;
            float weight = 1.0 / (0.03 * occlusion.x + abs(other.g - own.g));
            sum += weight * other.r;
            weights += weight;
        }
    found = vec2(sum / weights, own.g);
}
