#include "view/program.hpp"

#include <fmt/format.h>

#include <stdexcept>
#include <string>
#include <vector>

namespace couplet {

namespace {

GLuint compiled(GLenum stage, std::initializer_list<std::string_view> parts) {
    constexpr std::string_view kVersion = "#version 330 core\n";
    std::vector<const GLchar*> texts = {kVersion.data()};
    std::vector<GLint> lengths = {static_cast<GLint>(kVersion.size())};
    for (const std::string_view part : parts) {
        texts.push_back(part.data());
        lengths.push_back(static_cast<GLint>(part.size()));
    }
    const GLuint shader = glCreateShader(stage);
    glShaderSource(shader, static_cast<GLsizei>(texts.size()), texts.data(), lengths.data());
    glCompileShader(shader);
    GLint good = 0;
    glGetShaderiv(shader, GL_COMPILE_STATUS, &good);
    if (good != 0) return shader;
    std::string log(4000, '\0');
    GLsizei length = 0;
    glGetShaderInfoLog(shader, static_cast<GLsizei>(log.size()), &length, log.data());
    log.resize(static_cast<std::size_t>(length));
    glDeleteShader(shader);
    std::string source;
    for (const std::string_view part : parts) source += part;
    throw std::logic_error(fmt::format("a shader does not compile: {}\n{}", log, source.substr(0, 200)));
}

}  // namespace

Program linked(std::initializer_list<std::string_view> vertex, std::initializer_list<std::string_view> fragment) {
    Program program(glCreateProgram());
    for (const auto& [stage, parts] : {std::pair{GL_VERTEX_SHADER, vertex}, std::pair{GL_FRAGMENT_SHADER, fragment}}) {
        const GLuint shader = compiled(static_cast<GLenum>(stage), parts);
        glAttachShader(program.name(), shader);
        glDeleteShader(shader);
    }
    glLinkProgram(program.name());
    GLint good = 0;
    glGetProgramiv(program.name(), GL_LINK_STATUS, &good);
    if (good == 0) {
        std::string log(4000, '\0');
        GLsizei length = 0;
        glGetProgramInfoLog(program.name(), static_cast<GLsizei>(log.size()), &length, log.data());
        log.resize(static_cast<std::size_t>(length));
        throw std::logic_error("a shader program does not link: " + log);
    }
    const GLuint block = glGetUniformBlockIndex(program.name(), "Frame");
    if (block != GL_INVALID_INDEX) glUniformBlockBinding(program.name(), block, 0);
    return program;
}

void set_sampler(const Program& program, const char* name, int unit) {
    glUseProgram(program.name());
    glUniform1i(glGetUniformLocation(program.name(), name), unit);
}

}  // namespace couplet
