#include "view/context.hpp"

#include <fmt/format.h>
// EGL's header comes before OpenGL's.
#include <glad/egl.h>
#include <glad/gl.h>

#include <array>

namespace couplet {

struct OffscreenContext::Handles {
    EGLDisplay display = EGL_NO_DISPLAY;
    EGLContext context = EGL_NO_CONTEXT;
};

namespace {

constexpr const char* kAdvice =
    "install a GPU driver with EGL, or Mesa's software renderer (Debian: libegl1 libgl1-mesa-dri)";

std::vector<EGLDisplay> device_displays() {
    std::vector<EGLDisplay> displays;
    if (GLAD_EGL_EXT_device_enumeration == 0 || GLAD_EGL_EXT_platform_device == 0) return displays;
    std::array<EGLDeviceEXT, 16> devices{};
    EGLint count = 0;
    if (eglQueryDevicesEXT(static_cast<EGLint>(devices.size()), devices.data(), &count) == EGL_FALSE) return displays;
    for (EGLint i = 0; i < count; ++i)
        displays.push_back(
            eglGetPlatformDisplayEXT(EGL_PLATFORM_DEVICE_EXT, devices[static_cast<std::size_t>(i)], nullptr));
    return displays;
}

// GPUs come first in the driver's list of devices; Mesa's software device ends it.
std::vector<EGLDisplay> displays_to_try() {
    std::vector<EGLDisplay> displays = device_displays();
    if (GLAD_EGL_MESA_platform_surfaceless != 0)
        displays.push_back(eglGetPlatformDisplayEXT(EGL_PLATFORM_SURFACELESS_MESA, EGL_DEFAULT_DISPLAY, nullptr));
    return displays;
}

EGLContext context_on(EGLDisplay display) {
    constexpr EGLint kConfigWish[] = {EGL_SURFACE_TYPE, 0, EGL_RENDERABLE_TYPE, EGL_OPENGL_BIT, EGL_NONE};
    EGLConfig config = nullptr;
    EGLint count = 0;
    if (eglBindAPI(EGL_OPENGL_API) == EGL_FALSE ||
        eglChooseConfig(display, kConfigWish, &config, 1, &count) == EGL_FALSE || count == 0)
        return EGL_NO_CONTEXT;
    constexpr EGLint kContextWish[] = {
        EGL_CONTEXT_MAJOR_VERSION,           3,       EGL_CONTEXT_MINOR_VERSION, 3, EGL_CONTEXT_OPENGL_PROFILE_MASK,
        EGL_CONTEXT_OPENGL_CORE_PROFILE_BIT, EGL_NONE};
    return eglCreateContext(display, config, EGL_NO_CONTEXT, kContextWish);
}

bool make_context(EGLDisplay display, EGLContext& context) {
    if (display == EGL_NO_DISPLAY || eglInitialize(display, nullptr, nullptr) == EGL_FALSE) return false;
    // Which functions there are is known only of a display that is ready.
    gladLoaderLoadEGL(display);
    context = context_on(display);
    if (context != EGL_NO_CONTEXT && eglMakeCurrent(display, EGL_NO_SURFACE, EGL_NO_SURFACE, context) == EGL_TRUE)
        return true;
    if (context != EGL_NO_CONTEXT) eglDestroyContext(display, context);
    eglTerminate(display);
    return false;
}

std::vector<std::string>& error_list() {
    static std::vector<std::string> errors;
    return errors;
}

void GLAD_API_PTR take_message(GLenum /*source*/, GLenum type, GLuint /*id*/, GLenum severity, GLsizei length,
                               const GLchar* message, const void* /*user*/) {
    if (type == GL_DEBUG_TYPE_ERROR || severity == GL_DEBUG_SEVERITY_HIGH)
        error_list().emplace_back(message, static_cast<std::size_t>(length));
}

}  // namespace

OffscreenContext::OffscreenContext() : handles_(std::make_unique<Handles>()) {
    if (gladLoaderLoadEGL(EGL_NO_DISPLAY) == 0)
        throw NoDrawing(fmt::format("no picture can be drawn here: libEGL is not there; {}", kAdvice));
    for (EGLDisplay display : displays_to_try()) {
        if (!make_context(display, handles_->context)) continue;
        handles_->display = display;
        load_functions(eglGetProcAddress);
        return;
    }
    throw NoDrawing(fmt::format("no picture can be drawn here: no EGL device offers OpenGL 3.3; {}", kAdvice));
}

OffscreenContext::~OffscreenContext() {
    if (handles_->context == EGL_NO_CONTEXT) return;
    eglMakeCurrent(handles_->display, EGL_NO_SURFACE, EGL_NO_SURFACE, EGL_NO_CONTEXT);
    // The display is the whole process's: ending it would take it from other contexts.
    eglDestroyContext(handles_->display, handles_->context);
}

void load_functions(FunctionFinder find) {
    const int version = gladLoadGL(reinterpret_cast<GLADloadfunc>(find));
    if (version < GLAD_MAKE_VERSION(3, 3))
        throw NoDrawing(
            fmt::format("no picture can be drawn here: the driver offers OpenGL {}.{}, and 3.3 is needed; {}",
                        GLAD_VERSION_MAJOR(version), GLAD_VERSION_MINOR(version), kAdvice));
}

std::string renderer_name() {
    const auto* name = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
    return name != nullptr ? name : "";
}

void collect_errors() {
    error_list().clear();
    if (GLAD_GL_KHR_debug == 0) return;
    glEnable(GL_DEBUG_OUTPUT);
    glEnable(GL_DEBUG_OUTPUT_SYNCHRONOUS);
    glDebugMessageCallback(take_message, nullptr);
}

const std::vector<std::string>& collected_errors() {
    // Errors that a driver without KHR_debug only counts.
    for (GLenum error = glGetError(); error != GL_NO_ERROR; error = glGetError())
        error_list().push_back(fmt::format("OpenGL error 0x{:04x}", error));
    return error_list();
}

}  // namespace couplet
