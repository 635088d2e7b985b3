// Export model: a train with everything that leaves the tool to be loaded by other programs.
//
// One plain value for all exports, made once: sizes, places, starting rotations, the machine on its bench, and the
// motion of the setting that was chosen. An export is a pure function of it that returns the bytes of a file: the same
// model and options give the same bytes, on every day and every run.
#pragma once

#include <optional>
#include <stdexcept>

#include "motion/motion.hpp"
#include "solid/machine.hpp"

namespace couplet {

// What a kind of file cannot hold. what() is "what is wrong; what would be right".
struct ExportRefused : std::runtime_error {
    using std::runtime_error::runtime_error;
};

struct ExportModel {
    Train train;
    TrainTeeth teeth;
    Placement placement;
    StartingRotations rotations;
    Machine machine;
    std::optional<Setting> setting;  // none: the train has none, and stands
    Motion motion;                   // of the setting; resting_motion() without one

    [[nodiscard]] bool moves() const { return motion.outcome == Outcome::moves; }
};

// as_written: the scene's own shifts, even where centre distances then differ. matched: match_shifts first.
enum class Shifts { as_written, matched };

// The train must have no faults; the setting is one of its own or alike. Throws what teeth_of, match_shifts,
// place_members and solve throw.
[[nodiscard]] ExportModel export_model_of(const Train& train, const std::optional<Setting>& setting,
                                          Shifts shifts = Shifts::as_written);

// For exports of motion alone: train, setting and motion, without sizes, so that the teeth need none. Throws what solve
// throws.
[[nodiscard]] ExportModel moving_model_of(const Train& train, const std::optional<Setting>& setting);

// Where a place stands in a list of the frame (PlaceIndex{-1}) and then all places.
[[nodiscard]] inline std::size_t behind_the_frame(PlaceIndex place) {
    return place.value < 0 ? 0 : place.position() + 1;
}

}  // namespace couplet
