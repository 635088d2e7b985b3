// Edits: what the user has asked for during one frame. Panels read a Session and write Edits; nothing else changes it.
#pragma once

#include <filesystem>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "app/draft.hpp"
#include "app/keepsakes.hpp"
#include "app/view_state.hpp"
#include "train/arrangement.hpp"

namespace couplet {

// A new draft (history.hpp says what `what` and `key` mean).
struct ChangeDraft {
    std::string what;
    Draft draft;
    std::string key;
};
struct ChooseSetting {
    SettingIndex setting;  // drops a trial
};
struct Undo {};
struct Redo {};
// Turns of the member against the observer, by hand.
struct TurnMember {
    MemberIndex member;
    double turns;
};
struct StepTooth {
    int direction;  // 1 or -1, the way it is driven or against it
};
struct BackToStart {};
// A scene from a file, from an arrangement, or one that was left unsaved (position in Session::left_unsaved). Where the
// present one is not saved, a question is put first.
enum class Unsaved { ask, drop };
struct OpenScene {
    std::filesystem::path path;
    Unsaved unsaved = Unsaved::ask;
};
struct NewScene {
    Arrangement arrangement;
    Unsaved unsaved = Unsaved::ask;
};
// The train of a row that was found.
struct OpenFound {
    SearchWish wish;
    SearchRow row;
    Unsaved unsaved = Unsaved::ask;
};
struct OpenUnsaved {
    std::size_t which;
    Unsaved unsaved = Unsaved::ask;
};
struct DropUnsaved {
    std::size_t which;
};
struct SaveScene {};  // where it has no file yet: opens the scene panel, which asks for its name
enum class Existing { ask, replace };
struct SaveSceneAs {
    std::filesystem::path path;
    Existing existing = Existing::ask;
};
// What the file on disk says instead of what is here, or the other way round.
struct TakeFromDisk {};
struct KeepMine {};
// Into the clipboard; `what` is told in a note ("-241.5 copied").
struct CopyText {
    std::string text;
};
// A note, which goes by itself.
struct Tell {
    std::string text;
};
struct Answer {
    std::size_t notice;  // position in Session::notices
    std::size_t action;  // position in its actions
};
struct SetPreferences {
    Preferences preferences;
};
// In the background; `zoom` as clip_wish.hpp says.
struct RecordClip {
    ClipChoice choice;
    double zoom = 1.0;
    Existing existing = Existing::ask;
};
// One of kHandOverKinds (hand_over.hpp), in the background.
struct HandOver {
    std::size_t kind;
    Existing existing = Existing::ask;
};
struct CancelJob {};

using Command = std::variant<ChangeDraft, ChooseSetting, Undo, Redo, TurnMember, StepTooth, BackToStart, OpenScene,
                             NewScene, OpenFound, OpenUnsaved, DropUnsaved, SaveScene, SaveSceneAs, TakeFromDisk,
                             KeepMine, CopyText, Tell, Answer, SetPreferences, RecordClip, HandOver, CancelJob>;

struct Edits {
    // As the user will see it in the next frame; begins as it is.
    ViewState view;
    std::vector<Command> commands;

    void ask(Command command) { commands.push_back(std::move(command)); }
    void change(std::string what, Draft draft, std::string key = {}) {
        ask(ChangeDraft{std::move(what), std::move(draft), std::move(key)});
    }
};

}  // namespace couplet
