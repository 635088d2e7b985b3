// What every stage knows of the frame; the layout is that of FrameBlock in src/view/renderer.cpp.
layout(std140) uniform Frame {
    mat4 clip_from_observer;
    mat4 observer_from_clip;
    mat4 shadow_from_observer;  // to [0, 1] in all three
    vec4 eye;                   // xyz: place, w: 1 perspective, 0 orthographic
    vec4 gaze;                  // xyz: direction of view
    vec4 to_light;              // xyz: unit length; w: half the angle that the light fills, as a tangent
    vec4 light_colour;
    vec4 irradiance[9];         // spherical harmonics, bands 0 to 2
    vec4 picture;               // width, height, 1 / width, 1 / height, in pixels
    vec4 bench;                 // xy: middle, z: height, w: radius at which it has faded
    vec4 bench_colour;          // w: 1 where only its shadow is drawn
    vec4 backdrop_low;
    vec4 backdrop_high;
    vec4 cut;                   // xy: apex, z: middle direction, w: half angle
    vec4 shadow;                // x: 1 / map size, y: mm per texel, z: depth range in mm, w: taps
    vec4 occlusion;             // x: radius in mm, y: pixels per mm at distance 1 (perspective) or anywhere, z: taps, w: 1 in use
    vec4 style;                 // x: 1 clay, y: largest level of the environment, z: 1 at full finish
};

vec3 to_eye(vec3 position) { return eye.w > 0.5 ? normalize(eye.xyz - position) : -gaze.xyz; }
