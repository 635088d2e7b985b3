#include "cli/scene_input.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "cli/options.hpp"
#include "scene/default_scene.hpp"
#include "scene/error.hpp"
#include "scene/scene.hpp"

namespace couplet {

SceneInput load_scene(const std::string& path) {
    if (path.empty()) {
        const std::string name = "harbour_capstan (built in)";
        return {name, read_scene(default_scene(), name)};
    }
    SceneInput scene{path, read_scene(load_scene_text(path), path)};
    if (scene.train.title.empty()) scene.train.title = std::filesystem::path(path).stem().string();
    return scene;
}

const Setting& chosen_setting(const SceneInput& scene, const std::optional<std::string>& name) {
    const Train& train = scene.train;
    constexpr std::string_view kAddOne =
        "add a [[setting]] to it, or say what is held and driven with --hold and --drive";
    if (!name) {
        if (train.settings.empty()) throw UsageError(fmt::format("{} has no setting; {}", scene.file, kAddOne));
        return train.settings.front();
    }
    if (const std::optional<SettingIndex> found = find_setting(train, *name)) return train[*found];
    std::vector<std::string> names;
    for (const Setting& setting : train.settings) names.push_back(setting.name);
    throw UsageError(fmt::format("unknown setting {}; {}", in_quotes(*name),
                                 name_suggestion(*name, names, "the settings are", kAddOne)));
}

}  // namespace couplet
