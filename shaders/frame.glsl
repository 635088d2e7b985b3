// What every stage knows of the frame; the layout is that of FrameBlock in src/view/frame_block.hpp.
layout(std140) uniform Frame {
    mat4 clip_from_observer;
    mat4 shadow_from_observer;  // to [0, 1] in all three
    vec4 eye;                   // xyz: place, w: 1 perspective, 0 orthographic
    vec4 gaze;                  // xyz: direction of view
    vec4 to_light;              // xyz: unit length; w: half the angle that the light fills, as a tangent
    vec4 light_colour;
    vec4 irradiance[4];         // spherical harmonics, bands 0 and 1
    vec4 picture;               // width, height, 1 / width, 1 / height, in pixels
    vec4 bench;                 // xy: middle, z: height, w: radius at which it has faded
    vec4 bench_colour;          // w: 1 where only its shadow is drawn
    vec4 backdrop_low;
    vec4 backdrop_high;
    vec4 cut;                   // xy: apex, z: middle direction, w: half angle
    vec4 shadow;                // x: 1 / map size, y: mm per texel, z: depth range in mm, w: taps
    vec4 occlusion;             // x: radius in mm, y: pixels per mm at distance 1 (perspective) or anywhere, z: taps (0: none), w: distance of the target
    vec4 picture_right;         // from the picture's middle to its right edge: at distance 1 (perspective) or anywhere, in mm
    vec4 picture_up;
    vec4 depth_terms;           // xy: of clip_from_view, row z: its third and fourth entry
    vec4 style;                 // x: 1 clay, y: largest level of the room, z: the room's part of the bench's light
};

vec3 to_eye(vec3 position) { return eye.w > 0.5 ? normalize(eye.xyz - position) : -gaze.xyz; }

// Distances along the gaze, from the target's on, in reaches of the occlusion: neighbouring surfaces differ by 0.02 and more.
float small_distance(float distance_mm) { return (distance_mm - occlusion.w) / occlusion.x; }
