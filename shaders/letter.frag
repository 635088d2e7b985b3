in vec2 at;
flat in vec4 letter_ink;
uniform sampler2D letters;
out vec4 colour;
void main() {
    float cover = at.x < 0.0 ? 1.0 : texture(letters, at).r;
    colour = vec4(letter_ink.rgb, 1.0) * (letter_ink.a * cover);
}
