// Keys: the one table of what the keyboard does; the window obeys it and the card of keys shows it.
//
// A key is what is written on it: the character that the keyboard's layout gives it without modifiers, letters large,
// or a name for keys without one. Signs that a layout may put behind Shift (+ and ?) count as that sign however they
// are typed. A key does nothing here while a field is being written in, unless it goes with Ctrl.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace couplet {

enum class NamedKey { none, space, left, right, tab, escape, f1 };

struct Key {
    NamedKey named = NamedKey::none;
    char sign = 0;  // where it has no name: 'Z', '+', '1'

    friend constexpr bool operator==(const Key&, const Key&) = default;
};

enum class Modifiers { none, shift, ctrl, ctrl_shift };

struct KeyStroke {
    Key key;
    Modifiers modifiers = Modifiers::none;

    friend constexpr bool operator==(const KeyStroke&, const KeyStroke&) = default;
};

enum class KeyDeed {
    run_or_stop,
    step_on,
    step_back,
    to_start,
    turn_backwards,
    faster,
    slower,
    next_setting,
    open_scene_panel,
    open_find,
    open_size,
    open_place,
    open_couple,
    open_watch,
    open_record,
    open_keys,
    close_panel,
    next_widget,
    previous_widget,
    undo,
    redo,
    save,
    save_as,
    open_file,
    new_scene,
    copy_first_pair,
    quit,
    fit,
    next_view,
    next_look,
    next_observer,
    cutaway,
    spread,
    tooth_marks,
    names,
    contacts,
    pitch_circles,
    larger_text,
    smaller_text,
    daylight,
};

// What a group of keys is about, in the order of the card.
enum class KeyGroup { motion, panels, work, view, window };
inline constexpr std::array<std::string_view, 5> kKeyGroupNames = {"Motion", "Panels", "Work", "View", "Window"};

struct KeyEntry {
    KeyStroke stroke;
    KeyDeed deed;
    KeyGroup group;
    std::string_view words;
};

// Group by group. Strokes of one deed stand together and have the same words.
[[nodiscard]] std::span<const KeyEntry> key_table();

// What the stroke does; nothing where it does nothing.
[[nodiscard]] std::optional<KeyDeed> deed_of(const KeyStroke& stroke);

// "Ctrl+Shift+Z", "Space", "+".
[[nodiscard]] std::string stroke_text(const KeyStroke& stroke);
// All strokes of a deed, as a tooltip names them: "Ctrl+Shift+Z or Ctrl+Y".
[[nodiscard]] std::string strokes_text(KeyDeed deed);

}  // namespace couplet
