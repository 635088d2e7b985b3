#include "app/key_queue.hpp"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <imgui.h>

#include <cctype>
#include <string_view>

namespace couplet {

namespace {

// GLFW names keys by their places on a US keyboard; shortcuts go by what is written on them.
int key_by_layout(int key, int scancode) {
    if (key >= GLFW_KEY_KP_0 && key <= GLFW_KEY_KP_EQUAL) return key;
    const char* name = glfwGetKeyName(key, scancode);
    if (name == nullptr || name[0] == '\0' || name[1] != '\0') return key;
    const auto sign = static_cast<unsigned char>(name[0]);
    if (std::isalpha(sign) != 0) return GLFW_KEY_A + (std::toupper(sign) - 'A');
    if (std::isdigit(sign) != 0) return GLFW_KEY_0 + (sign - '0');
    return key;
}

}  // namespace

void KeyQueue::key(int key, int scancode, int action) {
    // Dear ImGui repeats by itself.
    if (key < 0 || action == GLFW_REPEAT) return;
    events_.push_back(
        {action == GLFW_PRESS ? Event::Kind::press : Event::Kind::release, key_by_layout(key, scancode), 0});
}

void KeyQueue::letter(unsigned code) {
    events_.push_back({Event::Kind::letter, 0, code});
}

void KeyQueue::hand_over() {
    ImGuiIO& io = ImGui::GetIO();
    // One press, with the letter that it types; whatever is let go after it waits, so that its modifiers still count.
    bool pressed = false;
    while (!events_.empty()) {
        const Event event = events_.front();
        if (pressed && event.kind != Event::Kind::letter) break;
        events_.pop_front();
        if (event.kind == Event::Kind::letter) {
            io.AddInputCharacter(event.code);
            continue;
        }
        io.KeysDown[event.key] = event.kind == Event::Kind::press;
        pressed = pressed || event.kind == Event::Kind::press;
    }
    io.KeyCtrl = io.KeysDown[GLFW_KEY_LEFT_CONTROL] || io.KeysDown[GLFW_KEY_RIGHT_CONTROL];
    io.KeyShift = io.KeysDown[GLFW_KEY_LEFT_SHIFT] || io.KeysDown[GLFW_KEY_RIGHT_SHIFT];
    io.KeyAlt = io.KeysDown[GLFW_KEY_LEFT_ALT] || io.KeysDown[GLFW_KEY_RIGHT_ALT];
    io.KeySuper = io.KeysDown[GLFW_KEY_LEFT_SUPER] || io.KeysDown[GLFW_KEY_RIGHT_SUPER];
}

}  // namespace couplet
