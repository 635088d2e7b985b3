// Hand over: the files that leave the window for paper and for other programs, by `couplet sheet` and `couplet export`.
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "app/session.hpp"

namespace couplet {

struct HandOverKind {
    std::string_view name;    // as it is offered
    std::string_view verb;    // of `couplet`
    std::string_view ending;  // of the file, "/" where it is a folder
    std::string_view what;    // one sentence
};
inline constexpr std::array<HandOverKind, 9> kHandOverKinds = {{
    {"sheet to print", "sheet", ".html", "Sizes, places, joints, couplings, a proving table and all checks on paper."},
    {"sheet in Markdown", "sheet", ".md", "The same as text, its figures in a folder beside it."},
    {"profiles, DXF", "export", ".dxf", "Tooth outlines to model from, where the gears stand."},
    {"profiles, SVG", "export", ".svg", "The same at true scale, to cut or to engrave."},
    {"moving model, glTF", "export", ".glb", "The whole train, turning, for slides and pages."},
    {"robot description, URDF", "export", ".urdf", "Joints that follow the driver, for simulators."},
    {"solids, 3MF", "export", ".3mf", "Every member in one file, to print."},
    {"solids, STL", "export", ".stl/", "A file for each member, to print."},
    {"motion table, CSV", "export", ".csv", "The angle of every joint, step by step."},
}};

// Beside the scene and named after it; that of a folder ends in "/".
[[nodiscard]] std::filesystem::path hand_over_target(const Session& session, const HandOverKind& kind);

// What `couplet` is given after its own name; `scene` holds the session's train with the running setting in it.
[[nodiscard]] std::vector<std::string> hand_over_arguments(const Session& session, const HandOverKind& kind,
                                                           const std::filesystem::path& scene);

}  // namespace couplet
