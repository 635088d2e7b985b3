// Small clip: a shipped scene as a clip of few and small frames, the camera going round.
#pragma once

#include <string>

#include "record/clip.hpp"
#include "support/shipped_scenes.hpp"

namespace couplet {

inline constexpr glm::ivec2 kSmallClip_px{96, 54};

[[nodiscard]] inline Clip small_clip(const std::string& scene, std::size_t setting, const Ratio& turns, int frames) {
    const Train train = shipped_train(scene);
    Clip clip;
    clip.stage = stage_of(train);
    clip.schedule = {30, frames, {{solve(train, train.settings.at(setting)), turns}}};
    clip.size_px = kSmallClip_px;
    clip.quality = kLightQuality;
    clip.path.camera = fitted_all_round(Camera{}, clip.stage, clip.look,
                                        static_cast<double>(kSmallClip_px.x) / static_cast<double>(kSmallClip_px.y));
    return clip;
}

}  // namespace couplet
