layout(location = 0) in vec2 corner;
void main() { gl_Position = vec4(corner, 0.999999, 1.0); }
