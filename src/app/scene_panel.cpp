#include <fmt/format.h>
#include <imgui.h>
#include <imgui_stdlib.h>

#include "app/clip_wish.hpp"
#include "app/hand_over.hpp"
#include "app/keys.hpp"
#include "app/panels.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

bool has_text(const std::string& text) {
    return text.find_first_not_of(" \n\t") != std::string::npos;
}

// Lines of any number, finished when the field is left; Escape gives the old text back.
std::optional<std::string> lines_field(Screen& screen, std::string_view name, const std::string& value) {
    const std::string label = "##" + std::string(name);
    const ImGuiID id = ImGui::GetID(label.c_str());
    const auto kept = screen.drafts.find(id);
    std::string text = kept == screen.drafts.end() ? value : kept->second;
    ImGui::InputTextMultiline(label.c_str(), &text, {ImGui::GetContentRegionAvail().x, screen.px(110)});
    say(screen, "field", name, text);
    if (ImGui::IsItemActive()) screen.drafts[id] = text;
    if (!ImGui::IsItemDeactivated()) return std::nullopt;
    screen.drafts.erase(id);
    return text == value ? std::nullopt : std::optional(text);
}

void draw_title(Screen& screen, const Session& session, Edits& edits) {
    const Train& train = session.train();
    if (const std::optional<std::string> title = text_field(screen, "title", train.title, "title", 340)) {
        Draft draft = session.draft();
        draft.train.title = *title;
        edits.change("title: " + *title, std::move(draft));
    }
    if (session.view.notes_open) {
        if (const std::optional<std::string> notes = lines_field(screen, "notes", train.notes)) {
            Draft draft = session.draft();
            draft.train.notes = *notes;
            edits.change("notes", std::move(draft));
        }
    } else if (has_text(train.notes)) {
        words(screen, train.notes);
    }
    const bool writes = session.view.notes_open;
    const char* name = writes ? "Notes are done" : has_text(train.notes) ? "Write in the notes" : "Write notes";
    if (button(screen, name, ButtonKind::quiet)) edits.view.notes_open = !writes;
}

// What a new file would be called.
std::string suggested_name(const Session& session) {
    return session.file.path.empty() ? file_name_for(session.train().title) : session.file.path.filename().string();
}

void begin_task(const Session& session, Edits& edits, FileTask task) {
    edits.view.files = session.view.files.task == task
                           ? FolderView{}
                           : choosing_file(task, session.file.path,
                                           task == FileTask::save_as ? suggested_name(session) : std::string());
}

void draw_file(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "File");
    const bool has_file = !session.file.path.empty();
    if (has_file) words(screen, session.file.path.filename().string());
    faint_words(screen, has_file ? session.file.path.parent_path().string() : "not in a file yet");
    verdict(screen, session.is_saved() ? Verdict::holds : Verdict::caution, "saved",
            session.is_saved() ? (has_file ? "saved" : "nothing changed yet") : "changes are not saved");
    const FileTask task = session.view.files.task;
    if (button(screen, "Save", session.is_saved() ? ButtonKind::plain : ButtonKind::main,
               has_file && !session.is_saved()))
        edits.ask(SaveScene{});
    tip(screen, has_file ? strokes_text(KeyDeed::save) : "give it a file name first: Save as");
    ImGui::SameLine();
    if (button(screen, "Save as", task == FileTask::save_as ? ButtonKind::main : ButtonKind::plain))
        begin_task(session, edits, FileTask::save_as);
    tip(screen, strokes_text(KeyDeed::save_as));
    ImGui::SameLine();
    if (button(screen, "Open", task == FileTask::open ? ButtonKind::main : ButtonKind::plain))
        begin_task(session, edits, FileTask::open);
    tip(screen, strokes_text(KeyDeed::open_file));
}

// A line of the listing. True where it was clicked.
bool listed(Screen& screen, const std::string& shown, const std::string& name, const ImVec4& ink) {
    ImGui::PushStyleColor(ImGuiCol_Text, ink);
    const bool clicked = ImGui::Selectable(fmt::format("{}##{}", shown, name).c_str());
    ImGui::PopStyleColor();
    say(screen, "file", name, shown);
    return clicked;
}

void choose(Edits& edits, const fs::path& path) {
    FolderView& view = edits.view.files;
    if (view.task == FileTask::open) {
        edits.ask(OpenScene{path});
        view = {};
    } else {
        view.name = path.filename().string();
        view.folder = path.parent_path();
    }
}

void draw_listing(Screen& screen, const Session& session, Edits& edits) {
    FolderView& view = edits.view.files;
    look_again(view, session.now_s);
    faint_words(screen, view.folder.string());
    ImGui::PushStyleColor(ImGuiCol_ChildBg, screen.theme->field);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {screen.px(8), screen.px(6)});
    ImGui::BeginChild("files", {0, screen.px(230)}, true, ImGuiWindowFlags_AlwaysUseWindowPadding);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
    // What is listed, while a click may change the view.
    const FolderView now = view;
    if (now.folder.has_relative_path() &&
        listed(screen, "..  (the folder above)", "folder above", screen.theme->accent))
        go_into(view, now.folder.parent_path());
    for (const FolderView::Entry& entry : *now.entries) {
        const std::string shown = entry.is_folder ? entry.name + "/" : entry.name;
        if (!listed(screen, shown, shown, entry.is_folder ? screen.theme->accent : screen.theme->ink)) continue;
        entry.is_folder ? go_into(view, now.folder / entry.name) : choose(edits, now.folder / entry.name);
    }
    if (!now.why_not.empty()) faint_words(screen, now.why_not);
    if (now.why_not.empty() && now.entries->empty()) faint_words(screen, "no folders and no scenes here");
    if (now.entries->size() == FolderView::kMostEntries)
        faint_words(screen, "there are more; type the name of what is not listed");
    ImGui::EndChild();
}

// A typed path leads into a folder, or chooses a file.
void take_typed(Edits& edits, const std::string& text) {
    FolderView& view = edits.view.files;
    const fs::path path = typed_path(view, text);
    std::error_code ignored;
    if (fs::is_directory(path, ignored)) {
        go_into(view, path);
    } else if (view.task == FileTask::open) {
        choose(edits, path);
    } else {
        view.name = text;
    }
}

void draw_choosing(Screen& screen, const Session& session, Edits& edits) {
    const bool saves = edits.view.files.task == FileTask::save_as;
    ImGui::Dummy({0, screen.px(4)});
    if (const std::optional<std::string> text =
            text_field(screen, saves ? "save as" : "open", edits.view.files.name, "file or folder", 340);
        text && has_text(*text))
        take_typed(edits, *text);
    draw_listing(screen, session, edits);
    if (saves) {
        const fs::path path = typed_scene_path(edits.view.files, edits.view.files.name);
        if (button(screen, "Save here", ButtonKind::main, path.has_filename())) {
            edits.ask(SaveSceneAs{path});
            edits.view.files = {};
        }
        ImGui::SameLine();
    }
    if (button(screen, "Not now", ButtonKind::quiet)) edits.view.files = {};
}

void draw_history(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Undo");
    const History& history = session.history;
    const auto line = [&](Icon icon, const char* name, KeyDeed deed, const std::string& what) {
        const bool clicked = icon_button(screen, icon, name, strokes_text(deed), !what.empty());
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        words(screen, what.empty() ? fmt::format("nothing to {}", name) : fmt::format("{} {}", name, what));
        return clicked;
    };
    if (line(Icon::undo, "undo", KeyDeed::undo, history.undo_what())) edits.ask(Undo{});
    if (line(Icon::redo, "redo", KeyDeed::redo, history.redo_what())) edits.ask(Redo{});
}

void draw_left_unsaved(Screen& screen, const Session& session, Edits& edits) {
    if (session.left_unsaved.empty()) return;
    heading(screen, "Left unsaved");
    for (std::size_t i = 0; i < session.left_unsaved.size(); ++i) {
        const UnsavedWork& work = session.left_unsaved[i];
        words(screen, work.title.empty() ? "without a title" : work.title);
        faint_words(screen, work.scene.empty() ? work.when : fmt::format("{}, {}", work.when, work.scene.string()));
        if (button(screen, fmt::format("Open it## (left {})", i + 1))) edits.ask(OpenUnsaved{i});
        ImGui::SameLine();
        if (button(screen, fmt::format("Drop it## (left {})", i + 1), ButtonKind::quiet)) edits.ask(DropUnsaved{i});
    }
}

void draw_recent(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Recent");
    if (session.recent.empty()) faint_words(screen, "Scenes that are opened or saved will stand here.");
    for (std::size_t i = 0; i < session.recent.size(); ++i) {
        const fs::path& path = session.recent[i];
        if (button(screen, fmt::format("{}## (recent {})", path.filename().string(), i + 1), ButtonKind::quiet))
            edits.ask(OpenScene{path});
        tip(screen, path.string());
    }
}

// Files for paper and for other programs, made from the train as it is now.
void draw_hand_over(Screen& screen, const Session& session, Edits& edits) {
    heading(screen, "Hand over");
    if (session.job) {
        words(screen, fmt::format("{} is being {}", last_name(session.job->order().target), session.job->order().done));
        if (button(screen, "Cancel##job")) edits.ask(CancelJob{});
        return;
    }
    for (std::size_t kind = 0; kind < kHandOverKinds.size(); ++kind) {
        const HandOverKind& one = kHandOverKinds[kind];
        if (button(screen, one.name)) edits.ask(HandOver{kind});
        tip(screen, one.what);
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        faint_words(screen, last_name(hand_over_target(session, one)));
    }
}

void draw_new(Screen& screen, Edits& edits) {
    heading(screen, "New train");
    for (const ArrangementForm& form : arrangement_forms()) {
        if (button(screen, form.name)) edits.ask(NewScene{form.arrangement});
        faint_words(screen, form.what_it_is);
        ImGui::Dummy({0, screen.px(4)});
    }
}

}  // namespace

void draw_scene_panel(Screen& screen, const Session& session, Edits& edits) {
    draw_title(screen, session, edits);
    draw_file(screen, session, edits);
    if (edits.view.files.task != FileTask::none) draw_choosing(screen, session, edits);
    draw_history(screen, session, edits);
    draw_hand_over(screen, session, edits);
    draw_left_unsaved(screen, session, edits);
    draw_recent(screen, session, edits);
    draw_new(screen, edits);
}

}  // namespace couplet
