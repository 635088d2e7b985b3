layout(location = 0) in vec2 corner_px;  // from the picture's top left
layout(location = 1) in vec2 sheet_at;   // below 0: no letter, a plain box
layout(location = 2) in vec4 ink;
out vec2 at;
flat out vec4 letter_ink;
void main() {
    gl_Position = vec4(corner_px.x * picture.z * 2.0 - 1.0, 1.0 - corner_px.y * picture.w * 2.0, 0.0, 1.0);
    at = sheet_at;
    letter_ink = ink;
}
