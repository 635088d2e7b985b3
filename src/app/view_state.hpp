// View state: how the user looks at the train: what is open, lit, running. Not undone, not saved with the scene.
#pragma once

#include <optional>
#include <string>

#include "app/clip_choice.hpp"
#include "app/find_choice.hpp"
#include "app/folder_view.hpp"
#include "couple/coupling.hpp"
#include "view/camera.hpp"
#include "view/stage.hpp"

namespace couplet {

// A step of the job on the rail; `scene` is about the file itself, `keys` the card of keys and what the program is.
enum class Step { scene, find, size, place, couple, watch, record, keys };

// The user is about to name the two members of a joint by clicking on them.
struct JointPick {
    std::optional<MemberIndex> turns;  // the first one clicked
};

// The user is about to name the two joints of a coupling.
struct CouplingPick {
    std::optional<Joint> first;  // may be none of the train's by now
};

// What is unfolded in the panels, and the texts to which their long lists are narrowed.
struct PanelLook {
    std::string joints_named;            // Couple
    std::string gears_named;             // Size
    std::string places_named;            // Place
    std::optional<GearIndex> gear_open;  // its data in Size; may be none of the train's
    bool centres_on_carrier = false;     // Place
};

struct ViewState {
    std::optional<Step> open = Step::couple;
    StageLook look;
    Camera camera;
    bool fit_camera = true;  // the camera goes to hold the whole machine, from its present direction
    std::optional<NamedView> go_to;
    bool running = false;
    bool backwards = false;
    double speed = 1.0;  // x the setting's own speeds, from kSlowest to kFastest
    static constexpr double kSlowest = 0.01;
    static constexpr double kFastest = 100;
    CoupleOptions couple_options;
    // The member under the cursor, in the stage, a dial or a table; lit up everywhere.
    std::optional<MemberIndex> pointed;
    // A planet's copy and the mesh shown closely by the Place panel: position in MeshProof::meshes.
    std::optional<std::size_t> mesh_shown;
    std::optional<JointPick> joint_pick;
    std::optional<CouplingPick> coupling_pick;
    double dial_scroll_px = 0.0;
    PanelLook panels;
    FolderView files;         // where the scene panel looks for files
    bool notes_open = false;  // the scene's notes are being written
    FindChoice find;
    ClipChoice clip;
    std::optional<double> preview_since_s;  // the clip is shown on the stage, from its beginning at that time
};

}  // namespace couplet
