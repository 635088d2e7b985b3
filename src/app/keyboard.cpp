#include "app/keyboard.hpp"

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

#include <algorithm>
#include <cctype>

namespace couplet {

namespace {

int glfw_key(const Key& key) {
    switch (key.named) {
        case NamedKey::space:
            return GLFW_KEY_SPACE;
        case NamedKey::left:
            return GLFW_KEY_LEFT;
        case NamedKey::right:
            return GLFW_KEY_RIGHT;
        case NamedKey::tab:
            return GLFW_KEY_TAB;
        case NamedKey::escape:
            return GLFW_KEY_ESCAPE;
        case NamedKey::f1:
            return GLFW_KEY_F1;
        case NamedKey::none:
            break;
    }
    // Letters and figures have their own signs as codes.
    return std::isalnum(static_cast<unsigned char>(key.sign)) != 0 ? key.sign : -1;
}

// Signs other than letters and figures are taken as they were typed, wherever the layout has them.
bool was_typed(char sign) {
    const ImVector<ImWchar>& typed = ImGui::GetIO().InputQueueCharacters;
    return std::any_of(typed.begin(), typed.end(),
                       [&](ImWchar letter) { return letter == static_cast<ImWchar>(sign); });
}

bool was_struck(const KeyStroke& stroke) {
    const ImGuiIO& io = ImGui::GetIO();
    const bool ctrl = stroke.modifiers == Modifiers::ctrl || stroke.modifiers == Modifiers::ctrl_shift;
    const bool shift = stroke.modifiers == Modifiers::shift || stroke.modifiers == Modifiers::ctrl_shift;
    if (io.KeyCtrl != ctrl || io.KeyAlt || io.KeySuper) return false;
    if (const int key = glfw_key(stroke.key); key >= 0) return io.KeyShift == shift && ImGui::IsKeyPressed(key);
    if (!ctrl) return was_typed(stroke.key.sign);
    // With Ctrl nothing is typed: the keys that have these signs on most layouts.
    const bool is_plus = stroke.key.sign == '+' || stroke.key.sign == '=';
    return is_plus ? ImGui::IsKeyPressed(GLFW_KEY_EQUAL) || ImGui::IsKeyPressed(GLFW_KEY_KP_ADD)
                   : ImGui::IsKeyPressed(GLFW_KEY_MINUS) || ImGui::IsKeyPressed(GLFW_KEY_KP_SUBTRACT);
}

// While the keyboard is on a widget, these move it and press it.
bool belongs_to_the_widget(const KeyStroke& stroke) {
    const bool moves = stroke.key.named == NamedKey::space || stroke.key.named == NamedKey::left ||
                       stroke.key.named == NamedKey::right;
    return moves && ImGui::GetIO().NavVisible;
}

}  // namespace

AfterKeys obey_keys(Screen& screen, const Session& session, Edits& edits) {
    if (ImGui::IsPopupOpen("", ImGuiPopupFlags_AnyPopup)) return AfterKeys::go_on;
    const bool writing = ImGui::GetIO().WantTextInput;
    for (const KeyEntry& entry : key_table()) {
        const bool with_ctrl =
            entry.stroke.modifiers == Modifiers::ctrl || entry.stroke.modifiers == Modifiers::ctrl_shift;
        if ((writing && !with_ctrl) || belongs_to_the_widget(entry.stroke) || !was_struck(entry.stroke)) continue;
        // A field has its own copy and undo.
        if (writing &&
            (entry.deed == KeyDeed::copy_first_pair || entry.deed == KeyDeed::undo || entry.deed == KeyDeed::redo))
            continue;
        if (obey(entry.deed, screen, session, edits) == AfterKeys::quit) return AfterKeys::quit;
    }
    return AfterKeys::go_on;
}

}  // namespace couplet
