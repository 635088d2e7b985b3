#include "view/targets.hpp"

#include <algorithm>
#include <stdexcept>

namespace couplet {

namespace {

void check_complete() {
    if (glCheckFramebufferStatus(GL_FRAMEBUFFER) != GL_FRAMEBUFFER_COMPLETE)
        throw std::runtime_error("the driver cannot draw into an image of this size; a smaller picture would do");
}

Texture new_image(glm::ivec2 size_px, GLint internal, GLenum format, GLenum type) {
    Texture image = new_texture();
    glBindTexture(GL_TEXTURE_2D, image.name());
    glTexImage2D(GL_TEXTURE_2D, 0, internal, size_px.x, size_px.y, 0, format, type, nullptr);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    return image;
}

}  // namespace

ReadableTarget depth_target(glm::ivec2 size_px) {
    ReadableTarget target{new_framebuffer(),
                          new_image(size_px, GL_DEPTH_COMPONENT24, GL_DEPTH_COMPONENT, GL_UNSIGNED_INT), size_px};
    glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer.name());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, target.image.name(), 0);
    glDrawBuffer(GL_NONE);
    glReadBuffer(GL_NONE);
    check_complete();
    return target;
}

ReadableTarget colour_target(glm::ivec2 size_px, GLint format) {
    const bool bytes = format == GL_RGBA8;
    ReadableTarget target{new_framebuffer(),
                          new_image(size_px, format, GL_RGBA, static_cast<GLenum>(bytes ? GL_UNSIGNED_BYTE : GL_FLOAT)),
                          size_px};
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer.name());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, target.image.name(), 0);
    check_complete();
    return target;
}

Renderbuffer depth_for(const ReadableTarget& target) {
    Renderbuffer depth = new_renderbuffer();
    glBindRenderbuffer(GL_RENDERBUFFER, depth.name());
    glRenderbufferStorage(GL_RENDERBUFFER, GL_DEPTH_COMPONENT24, target.size_px.x, target.size_px.y);
    glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer.name());
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, depth.name());
    check_complete();
    return depth;
}

SampledTarget sampled_target(glm::ivec2 size_px, int samples) {
    GLint most = 1;
    glGetIntegerv(GL_MAX_SAMPLES, &most);
    const GLsizei count = samples <= 1 ? 0 : std::min(samples, most);
    SampledTarget target{new_framebuffer(), new_renderbuffer(), new_renderbuffer(), size_px, samples};
    glBindRenderbuffer(GL_RENDERBUFFER, target.colour.name());
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, count, GL_RGBA8, size_px.x, size_px.y);
    glBindRenderbuffer(GL_RENDERBUFFER, target.depth.name());
    glRenderbufferStorageMultisample(GL_RENDERBUFFER, count, GL_DEPTH_COMPONENT24, size_px.x, size_px.y);
    glBindFramebuffer(GL_FRAMEBUFFER, target.framebuffer.name());
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_RENDERBUFFER, target.colour.name());
    glFramebufferRenderbuffer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_RENDERBUFFER, target.depth.name());
    check_complete();
    return target;
}

}  // namespace couplet
