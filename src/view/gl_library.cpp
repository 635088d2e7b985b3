// The loaders of OpenGL's and EGL's functions, compiled once.
#define GLAD_GL_IMPLEMENTATION
#define GLAD_EGL_IMPLEMENTATION
#include <glad/egl.h>
#include <glad/gl.h>
