// What is seen where nothing stands: a backdrop that brightens from below to above.
vec3 backdrop_at(vec2 pixel) {
    float height = pixel.y * picture.w;
    vec2 off = pixel * picture.zw - 0.5;
    return mix(backdrop_low.rgb, backdrop_high.rgb, smoothstep(0.0, 1.0, height)) * (1.0 - 0.35 * dot(off, off));
}
