// Shown scene: a shipped scene on its stage and in a setting, for tests of pictures.
#pragma once

#include <string>

#include "support/shipped_scenes.hpp"
#include "view/stage.hpp"

namespace couplet {

struct ShownScene {
    Stage stage;
    Motion motion;

    [[nodiscard]] Standing after(const Ratio& turns) const { return standing_at(stage, motion, turns); }
    [[nodiscard]] Picture picture(const StageLook& look, const Ratio& turns, const Camera& camera) const {
        return picture_of(stage, after(turns), look, camera);
    }
    [[nodiscard]] Picture picture(const StageLook& look, const Ratio& turns, NamedView view = NamedView::iso,
                                  double width_over_height = 1.0) const {
        return picture(look, turns, camera_for(stage, look, view, width_over_height));
    }
    [[nodiscard]] MemberIndex member(const std::string& name) const { return find_member(stage.train, name).value(); }
    [[nodiscard]] PlaceIndex place(const std::string& name, int copy = 1) const {
        return {stage.placement.first_place[member(name).position()] + copy - 1};
    }
};

[[nodiscard]] inline ShownScene on_stage(const Train& train, std::size_t setting = 0) {
    return {stage_of(train), solve(train, train.settings.at(setting))};
}
[[nodiscard]] inline ShownScene shown_scene(const std::string& name, std::size_t setting = 0) {
    return on_stage(shipped_train(name), setting);
}

}  // namespace couplet
