// Teeth input: what the verbs that need teeth have in common: their options, and errors of a train's teeth told as
// errors of its scene.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <utility>

#include "cli/scene_input.hpp"
#include "scene/scene.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

struct TeethOptions {
    bool match_shifts = false;
    std::optional<std::string> rack;
};

// --timed, of verbs that place copies.
void add_timed_option(CLI::App& verb, bool& timed);

void add_teeth_options(CLI::App& verb, TeethOptions& options);

// The scene's train, with the basic rack of ISO 53 that was asked for in place of its own [teeth]; gears that give an
// addendum, dedendum or root radius keep theirs. UsageError where there is no such rack.
[[nodiscard]] Train train_with_rack(const SceneInput& scene, const TeethOptions& options);

[[nodiscard]] SceneError scene_error(const SceneInput& scene, const TeethError& error);

// What `work` returns; a TeethError out of it becomes a SceneError of the scene.
template <class Work>
[[nodiscard]] auto of_teeth(const SceneInput& scene, Work work) {
    try {
        return work();
    } catch (const TeethError& error) {
        throw scene_error(scene, error);
    }
}

}  // namespace couplet
