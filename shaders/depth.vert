// Depth only: into the shadow map, or into the small depth picture that shade is measured in.
layout(location = 0) in vec3 part_position;
layout(location = 2) in vec4 row_x;
layout(location = 3) in vec4 row_y;
layout(location = 4) in vec4 row_z;

uniform mat4 clip_from_world;

out vec3 position;

void main() {
    position = vec3(dot(row_x, vec4(part_position, 1.0)), dot(row_y, vec4(part_position, 1.0)),
                    dot(row_z, vec4(part_position, 1.0)));
    gl_Position = clip_from_world * vec4(position, 1.0);
}
