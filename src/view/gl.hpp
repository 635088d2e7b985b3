// GL: OpenGL's functions and move-only owners of its objects. For files of this room only: no header that others
// include may include it.
#pragma once

#include <glad/gl.h>

#include <utility>

namespace couplet {

// Deletes what it owns once; a context must be current.
template <void (*Delete)(GLuint)>
class GlObject {
  public:
    GlObject() = default;
    explicit GlObject(GLuint name) : name_(name) {}
    GlObject(GlObject&& other) noexcept : name_(std::exchange(other.name_, 0)) {}
    GlObject& operator=(GlObject&& other) noexcept {
        if (this != &other) {
            release();
            name_ = std::exchange(other.name_, 0);
        }
        return *this;
    }
    GlObject(const GlObject&) = delete;
    GlObject& operator=(const GlObject&) = delete;
    ~GlObject() { release(); }

    [[nodiscard]] GLuint name() const { return name_; }
    explicit operator bool() const { return name_ != 0; }

  private:
    void release() {
        if (name_ != 0) Delete(name_);
    }

    GLuint name_ = 0;
};

inline void delete_buffer(GLuint name) {
    glDeleteBuffers(1, &name);
}
inline void delete_vertex_array(GLuint name) {
    glDeleteVertexArrays(1, &name);
}
inline void delete_texture(GLuint name) {
    glDeleteTextures(1, &name);
}
inline void delete_framebuffer(GLuint name) {
    glDeleteFramebuffers(1, &name);
}
inline void delete_renderbuffer(GLuint name) {
    glDeleteRenderbuffers(1, &name);
}
inline void delete_program(GLuint name) {
    glDeleteProgram(name);
}

using Buffer = GlObject<delete_buffer>;
using VertexArray = GlObject<delete_vertex_array>;
using Texture = GlObject<delete_texture>;
using Framebuffer = GlObject<delete_framebuffer>;
using Renderbuffer = GlObject<delete_renderbuffer>;
using Program = GlObject<delete_program>;

template <class Object, class Generate>
[[nodiscard]] Object generated(Generate generate) {
    GLuint name = 0;
    generate(1, &name);
    return Object(name);
}

[[nodiscard]] inline Buffer new_buffer() {
    return generated<Buffer>(glGenBuffers);
}
[[nodiscard]] inline VertexArray new_vertex_array() {
    return generated<VertexArray>(glGenVertexArrays);
}
[[nodiscard]] inline Texture new_texture() {
    return generated<Texture>(glGenTextures);
}
[[nodiscard]] inline Framebuffer new_framebuffer() {
    return generated<Framebuffer>(glGenFramebuffers);
}
[[nodiscard]] inline Renderbuffer new_renderbuffer() {
    return generated<Renderbuffer>(glGenRenderbuffers);
}

}  // namespace couplet
