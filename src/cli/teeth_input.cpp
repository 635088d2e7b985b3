#include "cli/teeth_input.hpp"

#include <cmath>
#include <string>

#include "cli/options.hpp"

namespace couplet {

namespace {

// A table value of a rack, exactly as the standard prints it, to two decimals.
Ratio printed(double value) {
    return Ratio(std::llround(value * 100.0), 100);
}

}  // namespace

void add_timed_option(CLI::App& verb, bool& timed) {
    verb.add_flag("--timed", timed, "each copy of a part with several gears is made with its own angle");
}

void add_teeth_options(CLI::App& verb, TeethOptions& options) {
    verb.add_flag("--match-shifts", options.match_shifts,
                  "solve the profile shifts that make a planet's centre distances agree");
    verb.add_option("--rack", options.rack,
                    "basic rack of ISO 53 for all gears: A, B, C or D; default: the scene's own")
        ->type_name("A|B|C|D");
}

Train train_with_rack(const SceneInput& scene, const TeethOptions& options) {
    Train train = scene.train;
    if (!options.rack) return train;
    const std::optional<BasicRack> rack = options.rack->size() == 1 ? iso_53_rack(options.rack->front()) : std::nullopt;
    if (!rack) throw UsageError("--rack takes A, B, C or D, the basic racks of ISO 53, not '" + *options.rack + "'");
    train.teeth.pressure_angle_deg = 20;
    train.teeth.addendum = printed(rack->addendum);
    train.teeth.dedendum = printed(rack->dedendum);
    train.teeth.root_radius = printed(rack->root_radius);
    return train;
}

SceneError scene_error(const SceneInput& scene, const TeethError& error) {
    return {scene.file, 0, error.wrong, error.broken.mend};
}

}  // namespace couplet
