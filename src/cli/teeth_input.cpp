#include "cli/teeth_input.hpp"

#include <string>

namespace couplet {

SceneError scene_error(const SceneInput& scene, const TeethError& error) {
    // Both halves of its sentence, parted by a semicolon or else by a colon.
    const std::string what = error.what();
    for (const std::string_view between : {"; ", ": "})
        if (const std::size_t end = what.find(between); end != std::string::npos)
            return {scene.file, 0, what.substr(0, end), what.substr(end + between.size())};
    return {scene.file, 0, what, "change the teeth of the scene"};
}

}  // namespace couplet
