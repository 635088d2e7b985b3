#include "app/keys.hpp"

#include <algorithm>

namespace couplet {

namespace {

constexpr KeyStroke plain(char sign) {
    return {{NamedKey::none, sign}, Modifiers::none};
}
constexpr KeyStroke plain(NamedKey key) {
    return {{key, 0}, Modifiers::none};
}
constexpr KeyStroke shift(NamedKey key) {
    return {{key, 0}, Modifiers::shift};
}
constexpr KeyStroke ctrl(char sign) {
    return {{NamedKey::none, sign}, Modifiers::ctrl};
}
constexpr KeyStroke ctrl_shift(char sign) {
    return {{NamedKey::none, sign}, Modifiers::ctrl_shift};
}

constexpr std::array kKeys = {
    KeyEntry{plain(NamedKey::space), KeyDeed::run_or_stop, KeyGroup::motion, "run or stop"},
    KeyEntry{plain(NamedKey::right), KeyDeed::step_on, KeyGroup::motion, "on by one tooth"},
    KeyEntry{plain(NamedKey::left), KeyDeed::step_back, KeyGroup::motion, "back by one tooth"},
    KeyEntry{plain('R'), KeyDeed::to_start, KeyGroup::motion, "back to the start pose"},
    KeyEntry{plain('B'), KeyDeed::turn_backwards, KeyGroup::motion, "backwards or forwards"},
    KeyEntry{plain('+'), KeyDeed::faster, KeyGroup::motion, "faster"},
    KeyEntry{plain('-'), KeyDeed::slower, KeyGroup::motion, "slower"},
    KeyEntry{plain('S'), KeyDeed::next_setting, KeyGroup::motion, "next setting"},

    KeyEntry{plain('0'), KeyDeed::open_scene_panel, KeyGroup::panels, "the scene and its file"},
    KeyEntry{plain('1'), KeyDeed::open_find, KeyGroup::panels, "Find"},
    KeyEntry{plain('2'), KeyDeed::open_size, KeyGroup::panels, "Size"},
    KeyEntry{plain('3'), KeyDeed::open_place, KeyGroup::panels, "Place"},
    KeyEntry{plain('4'), KeyDeed::open_couple, KeyGroup::panels, "Couple"},
    KeyEntry{plain('5'), KeyDeed::open_watch, KeyGroup::panels, "Watch"},
    KeyEntry{plain('6'), KeyDeed::open_record, KeyGroup::panels, "Record"},
    KeyEntry{plain(NamedKey::f1), KeyDeed::open_keys, KeyGroup::panels, "this card"},
    KeyEntry{plain('?'), KeyDeed::open_keys, KeyGroup::panels, "this card"},
    KeyEntry{plain(NamedKey::tab), KeyDeed::next_widget, KeyGroup::panels, "next field or button"},
    KeyEntry{shift(NamedKey::tab), KeyDeed::previous_widget, KeyGroup::panels, "the one before"},
    KeyEntry{plain(NamedKey::escape), KeyDeed::close_panel, KeyGroup::panels, "close the panel"},

    KeyEntry{ctrl('C'), KeyDeed::copy_first_pair, KeyGroup::work, "copy the first coupling's pair"},
    KeyEntry{ctrl('Z'), KeyDeed::undo, KeyGroup::work, "undo"},
    KeyEntry{ctrl_shift('Z'), KeyDeed::redo, KeyGroup::work, "redo"},
    KeyEntry{ctrl('Y'), KeyDeed::redo, KeyGroup::work, "redo"},
    KeyEntry{ctrl('S'), KeyDeed::save, KeyGroup::work, "save"},
    KeyEntry{ctrl_shift('S'), KeyDeed::save_as, KeyGroup::work, "save under another name"},
    KeyEntry{ctrl('O'), KeyDeed::open_file, KeyGroup::work, "open a scene"},
    KeyEntry{ctrl('N'), KeyDeed::new_scene, KeyGroup::work, "new train"},

    KeyEntry{plain('F'), KeyDeed::fit, KeyGroup::view, "show the whole machine"},
    KeyEntry{plain('V'), KeyDeed::next_view, KeyGroup::view, "next view"},
    KeyEntry{plain('O'), KeyDeed::next_observer, KeyGroup::view, "ride on the next member"},
    KeyEntry{plain('L'), KeyDeed::next_look, KeyGroup::view, "next look"},
    KeyEntry{plain('X'), KeyDeed::cutaway, KeyGroup::view, "cutaway"},
    KeyEntry{plain('E'), KeyDeed::spread, KeyGroup::view, "pull the parts apart"},
    KeyEntry{plain('M'), KeyDeed::tooth_marks, KeyGroup::view, "tooth marks"},
    KeyEntry{plain('N'), KeyDeed::names, KeyGroup::view, "names"},
    KeyEntry{plain('C'), KeyDeed::contacts, KeyGroup::view, "contacts"},
    KeyEntry{plain('P'), KeyDeed::pitch_circles, KeyGroup::view, "pitch circles"},

    KeyEntry{ctrl('='), KeyDeed::larger_text, KeyGroup::window, "larger text"},
    KeyEntry{ctrl('-'), KeyDeed::smaller_text, KeyGroup::window, "smaller text"},
    KeyEntry{plain('D'), KeyDeed::daylight, KeyGroup::window, "light or dark"},
    KeyEntry{ctrl('Q'), KeyDeed::quit, KeyGroup::window, "quit"},
};

std::string_view name_of(NamedKey key) {
    switch (key) {
        case NamedKey::space:
            return "Space";
        case NamedKey::left:
            return "Left";
        case NamedKey::right:
            return "Right";
        case NamedKey::tab:
            return "Tab";
        case NamedKey::escape:
            return "Escape";
        case NamedKey::f1:
            return "F1";
        case NamedKey::none:
            break;
    }
    return "";
}

}  // namespace

std::span<const KeyEntry> key_table() {
    return kKeys;
}

std::optional<KeyDeed> deed_of(const KeyStroke& stroke) {
    const auto entry = std::ranges::find(kKeys, stroke, &KeyEntry::stroke);
    return entry == kKeys.end() ? std::nullopt : std::optional(entry->deed);
}

std::string stroke_text(const KeyStroke& stroke) {
    const bool with_ctrl = stroke.modifiers == Modifiers::ctrl || stroke.modifiers == Modifiers::ctrl_shift;
    const bool with_shift = stroke.modifiers == Modifiers::shift || stroke.modifiers == Modifiers::ctrl_shift;
    std::string text = with_ctrl ? "Ctrl+" : "";
    if (with_shift) text += "Shift+";
    if (stroke.key.named == NamedKey::none) return text += stroke.key.sign;
    return text += name_of(stroke.key.named);
}

std::string strokes_text(KeyDeed deed) {
    std::string text;
    for (const KeyEntry& entry : kKeys)
        if (entry.deed == deed) text += (text.empty() ? "" : " or ") + stroke_text(entry.stroke);
    return text;
}

}  // namespace couplet
