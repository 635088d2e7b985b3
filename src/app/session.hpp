// Session: the state of the window as a value, and how edits change it. No window, no drawing.
//
// session.cpp obeys commands; session_files.cpp those about files, and begins and ends a session; session_clips.cpp
// those about recordings; session_finds.cpp goes after the search for tooth counts.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "app/crank.hpp"
#include "app/edits.hpp"
#include "app/find_job.hpp"
#include "app/history.hpp"
#include "app/keepsakes.hpp"
#include "app/program_job.hpp"
#include "app/scene_file.hpp"
#include "app/study.hpp"
#include "app/view_state.hpp"

namespace couplet {

// Something to tell the user, in the way of nothing. It goes when it is answered, or by itself where `fades`.
struct Notice {
    enum class Kind { note, question, error };
    Kind kind = Kind::note;
    std::string text;
    // Of an error in a file: its lines around the place, and which of them it is.
    struct Excerpt {
        int first_line = 1;
        std::vector<std::string> lines;
        int error_line = 1;
    };
    std::optional<Excerpt> excerpt;
    struct Action {
        std::string name;
        std::vector<Command> does;  // then the notice goes
    };
    std::vector<Action> actions;
    std::string about;        // a notice about the same thing takes this one's place
    double fades_at_s = 0.0;  // 0: stays
};

struct BeforeFound {
    std::shared_ptr<const Stage> stage;
    Camera camera;
    bool fit_camera;
    StageLook look;
};

struct Session {
    SceneFile file;
    History history{Draft{}};
    std::shared_ptr<const Study> study;
    Crank crank;
    ViewState view;
    // The last stage that could be made; the machine on screen. Null before the first.
    std::shared_ptr<const Stage> stage;
    // Rises with every new stage.
    unsigned stage_count = 0;
    std::vector<Notice> notices;
    std::vector<std::filesystem::path> recent;
    std::vector<UnsavedWork> left_unsaved;
    Preferences preferences;
    std::filesystem::path keepsakes;       // folder
    std::optional<std::string> clipboard;  // just copied; the window hands it on
    // A file that was to be opened and could not be read: it is tried again when it changes.
    struct Awaited {
        std::filesystem::path path;
        std::optional<FileStamp> stamp;
    };
    std::optional<Awaited> awaited;
    std::shared_ptr<ProgramJob> job;                      // that goes on in the background; null: none
    std::filesystem::path program;                        // that does the jobs; empty: `couplet`, beside this one
    std::shared_ptr<FindJob> find_job;                    // the search for what the Find panel wants; null: none yet
    std::vector<std::shared_ptr<FindJob>> retired_finds;  // stopped, and not yet at rest
    std::optional<SearchRow> found_on_stage;              // its train stands there in the place of the draft's
    std::optional<BeforeFound> before_found;              // the draft's train, and how it was looked at
    std::optional<Train> kept_unsaved;                    // what keepsakes hold of this session's work
    double now_s = 0.0;                                   // of the window's clock

    [[nodiscard]] const Draft& draft() const { return history.now(); }
    [[nodiscard]] const Train& train() const { return history.now().train; }
    [[nodiscard]] bool is_saved() const { return history.now().train == file.saved; }
};

// Begins with the file, or with the default scene where the path is empty. A file that cannot be read is told in a
// notice, and the default scene stands behind it.
[[nodiscard]] Session open_session(const std::filesystem::path& scene, const std::filesystem::path& keepsakes);

// Takes over the edits' view and obeys the commands. `now_s` is the window's clock.
void apply(Session& session, const Edits& edits, double now_s);

// Passes `seconds` of running; nothing unless it runs. True where anything moved.
bool run_for(Session& session, double seconds);

// Looks at the file on disk: an untouched draft follows it, a changed one gets a question. Keeps unsaved work. For once
// a second. True where something changed.
bool look_after_files(Session& session, double now_s);

// Sees how far the job is, and tells what has become of it. For a few times a second while there is one. True
// where something changed.
bool look_after_job(Session& session, double now_s);

// Sees how far the search is, for ten times a second while there is one. True where something changed.
bool look_after_find(Session& session);

// The end of the session: unsaved work is kept, to be offered at the next start; a recording is cancelled.
void close_session(Session& session);

// Where everything stands on the stage now; the start pose where the stage shows another train than the draft.
[[nodiscard]] Standing standing_now(const Session& session);

}  // namespace couplet
