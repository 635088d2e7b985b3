// Stage options: what the verbs that draw have in common: from where the train is seen, and how it looks.
#pragma once

#include <glm/vec2.hpp>
#include <optional>
#include <string>
#include <vector>

#include "view/stage.hpp"

namespace CLI {
class App;
}

namespace couplet {

struct StageOptions {
    std::string size;
    std::string observer = "frame";
    std::string look = "metal";
    std::string view = "iso";
    std::string marks = "on";
    std::string spread = "0";
    std::string zoom = "1";
    std::optional<std::string> at;
    std::optional<std::string> azimuth;
    std::optional<std::string> elevation;
    std::string quality = "full";
    std::vector<std::string> finishes;
    std::vector<std::string> show;
    bool cutaway = false;
    bool transparent = false;
};

// `usual_size` is what they draw where nobody asks for another; the options must outlive the parsing.
void add_stage_options(CLI::App& verb, StageOptions& options, const std::string& usual_size);

// All of the following throw UsageError where the text is not what they ask for.
[[nodiscard]] glm::ivec2 size_of(const StageOptions& options);
[[nodiscard]] Quality quality_of(const StageOptions& options);
[[nodiscard]] StageLook stage_look(const StageOptions& options, const Train& train);
// Turned as asked; it holds nothing yet.
[[nodiscard]] Camera turned_camera(const StageOptions& options);
[[nodiscard]] double zoom_of(const StageOptions& options);
// Closer by --zoom, and looking at --at, which stands where the pose has it.
[[nodiscard]] Camera aimed(const StageOptions& options, Camera camera, const Stage& stage, const Standing& standing,
                           const StageLook& look);

// The text's number, from `least` to `most`.
[[nodiscard]] double number_within(std::string_view option, const std::string& text, double least, double most,
                                   std::string_view example);

}  // namespace couplet
