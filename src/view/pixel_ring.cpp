#include "view/pixel_ring.hpp"

#include <algorithm>
#include <cstddef>
#include <cstring>
#include <stdexcept>
#include <vector>

#include "view/gl.hpp"

namespace couplet {

namespace {

// Colours come out of the renderer multiplied by their alpha.
void straighten(std::vector<std::uint8_t>& rgba) {
    for (std::size_t i = 0; i < rgba.size(); i += 4) {
        const unsigned alpha = rgba[i + 3];
        if (alpha == 0 || alpha == 255) continue;
        for (std::size_t k = i; k < i + 3; ++k)
            rgba[k] = static_cast<std::uint8_t>(std::min(255U, (rgba[k] * 255U + alpha / 2) / alpha));
    }
}

}  // namespace

struct PixelRing::State {
    glm::ivec2 size_px;
    std::vector<Buffer> buffers;
    std::size_t first = 0;  // the oldest under way
    std::size_t under_way = 0;

    [[nodiscard]] std::size_t row_bytes() const { return static_cast<std::size_t>(size_px.x) * 4; }
    [[nodiscard]] std::size_t frame_bytes() const { return row_bytes() * static_cast<std::size_t>(size_px.y); }
};

PixelRing::PixelRing(glm::ivec2 size_px, int frames) : state_(std::make_unique<State>()) {
    state_->size_px = size_px;
    for (int i = 0; i < std::max(1, frames); ++i) {
        state_->buffers.push_back(new_buffer());
        glBindBuffer(GL_PIXEL_PACK_BUFFER, state_->buffers.back().name());
        glBufferData(GL_PIXEL_PACK_BUFFER, static_cast<GLsizeiptr>(state_->frame_bytes()), nullptr, GL_STREAM_READ);
    }
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
}

PixelRing::~PixelRing() = default;

bool PixelRing::is_full() const {
    return state_->under_way == state_->buffers.size();
}

bool PixelRing::is_empty() const {
    return state_->under_way == 0;
}

void PixelRing::ask(unsigned framebuffer) {
    State& state = *state_;
    if (is_full()) throw std::logic_error("every buffer of the ring is under way");
    const Buffer& buffer = state.buffers[(state.first + state.under_way) % state.buffers.size()];
    glBindFramebuffer(GL_READ_FRAMEBUFFER, framebuffer);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, buffer.name());
    glReadPixels(0, 0, state.size_px.x, state.size_px.y, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
    ++state.under_way;
}

Image PixelRing::fetch(Alpha alpha, Image spare) {
    State& state = *state_;
    if (is_empty()) throw std::logic_error("no frame was asked for");
    Image image{state.size_px.x, state.size_px.y, std::move(spare.rgba)};
    image.rgba.resize(state.frame_bytes());
    glBindBuffer(GL_PIXEL_PACK_BUFFER, state.buffers[state.first].name());
    const void* pixels =
        glMapBufferRange(GL_PIXEL_PACK_BUFFER, 0, static_cast<GLsizeiptr>(state.frame_bytes()), GL_MAP_READ_BIT);
    if (pixels == nullptr) throw std::runtime_error("the driver does not give the picture's pixels out");
    const auto* rows = static_cast<const std::uint8_t*>(pixels);
    const auto height = static_cast<std::size_t>(state.size_px.y);
    for (std::size_t y = 0; y < height; ++y)
        std::memcpy(&image.rgba[y * state.row_bytes()], rows + (height - 1 - y) * state.row_bytes(), state.row_bytes());
    glUnmapBuffer(GL_PIXEL_PACK_BUFFER);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
    state.first = (state.first + 1) % state.buffers.size();
    --state.under_way;
    if (alpha == Alpha::straightened) straighten(image.rgba);
    return image;
}

}  // namespace couplet
