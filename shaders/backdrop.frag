out vec4 colour;
void main() { colour = vec4(shown(backdrop_at(gl_FragCoord.xy)), 1.0); }
