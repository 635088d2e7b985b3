// Clip wish: what follows from the Record panel's choice: where the clip goes, what is wrong with it, its plan and
// size, and the command line of `couplet record` that records exactly this.
//
// Nothing here throws.
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "app/session.hpp"

namespace couplet {

// The kinds that are offered, as they are called.
struct NamedClipKind {
    ClipKind kind;
    std::string_view name;
};
inline constexpr std::array kClipKinds = {
    NamedClipKind{ClipKind::mp4, "mp4"},   NamedClipKind{ClipKind::webm, "webm"},
    NamedClipKind{ClipKind::gif, "gif"},   NamedClipKind{ClipKind::apng, "apng"},
    NamedClipKind{ClipKind::webp, "webp"}, NamedClipKind{ClipKind::picture_folder, "pictures"},
};

inline constexpr int kLeastClipSide_px = 16;
inline constexpr int kMostClipSide_px = 16384;

// The same choice as another kind; what was typed of the target keeps its name and gets the kind's ending.
[[nodiscard]] ClipChoice with_kind(ClipChoice choice, ClipKind kind);
// With another target, as typed: its ending chooses the kind, where a kind has it.
[[nodiscard]] ClipChoice with_target(const Session& session, ClipChoice choice, const std::string& typed);
// What the target's field shows, and the whole path; that of a picture folder ends in "/".
[[nodiscard]] std::string clip_name(const Session& session, const ClipChoice& choice);
[[nodiscard]] std::filesystem::path clip_target(const Session& session, const ClipChoice& choice);
// A file that is named after the scene and stands beside it, with that ending; "/" at the end stays.
[[nodiscard]] std::filesystem::path beside_scene(const Session& session, std::string_view ending);
// "clip.mp4", "pictures/".
[[nodiscard]] std::string last_name(const std::filesystem::path& target);

// What is wrong with the size and with the background, in the words of `couplet record`; empty: nothing.
[[nodiscard]] std::string size_fault(const ClipChoice& choice);
[[nodiscard]] std::string background_fault(const ClipChoice& choice);

// The train that the clip shows: what is only tried is one of its settings.
[[nodiscard]] Draft clip_draft(const Draft& draft);
// The plan of the session's train and view, or why there is none.
[[nodiscard]] const OrWhyNot<ClipPlan>& clip_plan_of(const Session& session, const ClipChoice& choice);
struct ClipEstimate {
    int frames = 0;
    double seconds = 0.0;
    double megabytes = 0.0;  // of 10^6 bytes; good to a factor of two
};
[[nodiscard]] ClipEstimate clip_estimate(const ClipChoice& choice, const ClipPlan& plan);

// What `couplet` is given after its own name, to record the train of `scene`, a file that holds clip_draft's. `zoom` is
// how much closer than the whole machine the stage's camera stands; used where the choice is as_shown.
[[nodiscard]] std::vector<std::string> clip_arguments(const Session& session, const ClipChoice& choice, double zoom,
                                                      const std::filesystem::path& scene);

}  // namespace couplet
