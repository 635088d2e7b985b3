#include "view/exposure.hpp"

#include <stdexcept>

#include "view/gl.hpp"
#include "view/program.hpp"
#include "view/shaders.hpp"
#include "view/targets.hpp"

namespace couplet {

namespace {

constexpr int kInputUnit = 0;

GLint place_of(const Program& program, const char* name) {
    return glGetUniformLocation(program.name(), name);
}

// Lines keep their width and their dashes in the frame's pixels.
Picture in_finer_pixels(Picture picture, int side) {
    for (Stroke& stroke : picture.strokes) {
        stroke.width_px *= static_cast<float>(side);
        stroke.dash_px *= static_cast<float>(side);
    }
    return picture;
}

// One triangle that covers the whole target; its corners come out of gl_VertexID.
void draw_whole(const VertexArray& empty, const ReadableTarget& into, const Program& program, GLuint input) {
    glBindFramebuffer(GL_FRAMEBUFFER, into.framebuffer.name());
    glViewport(0, 0, into.size_px.x, into.size_px.y);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glUseProgram(program.name());
    glActiveTexture(GL_TEXTURE0 + kInputUnit);
    glBindTexture(GL_TEXTURE_2D, input);
    glBindVertexArray(empty.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glBindVertexArray(0);
    glUseProgram(0);
}

}  // namespace

struct Exposure::State {
    Renderer& renderer;
    glm::ivec2 size_px;
    Grain grain;
    bool plain;  // a frame is one drawing as it is
    Program expose = linked({shader_covering_vert()}, {shader_expose_frag()});
    Program develop = linked({shader_covering_vert()}, {shader_develop_frag()});
    VertexArray empty = new_vertex_array();
    ReadableTarget drawn;
    ReadableTarget light;
    ReadableTarget frame;
    int added = 0;

    State(Renderer& of, glm::ivec2 size, const Grain& wanted)
        : renderer(of), size_px(size), grain(wanted), plain(wanted.drawings == 1 && wanted.side == 1) {
        if (plain) return;
        set_sampler(expose, "drawn", kInputUnit);
        set_sampler(develop, "light", kInputUnit);
        drawn = colour_target(size_px * grain.side, GL_RGBA8);
        light = colour_target(size_px * grain.side, GL_RGBA32F);
        frame = colour_target(size_px, GL_RGBA8);
    }

    void add_light();
    void develop_frame();
};

void Exposure::State::add_light() {
    if (added == 0) {
        glBindFramebuffer(GL_FRAMEBUFFER, light.framebuffer.name());
        glClearColor(0.0F, 0.0F, 0.0F, 0.0F);
        glClear(GL_COLOR_BUFFER_BIT);
    }
    glUseProgram(expose.name());
    glUniform1f(place_of(expose, "weight"), 1.0F / static_cast<float>(grain.drawings));
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    draw_whole(empty, light, expose, drawn.image.name());
    glDisable(GL_BLEND);
}

void Exposure::State::develop_frame() {
    glUseProgram(develop.name());
    glUniform1i(place_of(develop, "side"), grain.side);
    draw_whole(empty, frame, develop, light.image.name());
}

Exposure::Exposure(Renderer& renderer, glm::ivec2 size_px, const Grain& grain) {
    if (grain.drawings < 1 || grain.side < 1 || size_px.x < 1 || size_px.y < 1)
        throw std::invalid_argument("an exposure takes at least one drawing of at least one pixel");
    state_ = std::make_unique<State>(renderer, size_px, grain);
}

Exposure::~Exposure() = default;

void Exposure::add(const Picture& picture, const Quality& quality) {
    State& state = *state_;
    if (state.plain) {
        state.renderer.draw(picture, quality, state.size_px, state.renderer.own_target(state.size_px));
        return;
    }
    const glm::ivec2 size_px = state.drawn.size_px;
    state.renderer.draw(in_finer_pixels(picture, state.grain.side), quality, size_px, state.drawn.framebuffer.name());
    state.add_light();
    state.added = (state.added + 1) % state.grain.drawings;
    if (state.added == 0) state.develop_frame();
}

unsigned Exposure::framebuffer() const {
    return state_->plain ? state_->renderer.own_target(state_->size_px) : state_->frame.framebuffer.name();
}

}  // namespace couplet
