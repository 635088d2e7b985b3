#include "scene/outline.hpp"
#include "scene/scene.hpp"

namespace couplet {

std::string write_scene(const Train& train) {
    const Outline outline = outline_of(train);
    std::string text = lines_of(outline.top);
    if (const std::string teeth = lines_of(outline.teeth); !teeth.empty()) text += "\n[teeth]\n" + teeth;
    for (const EntryList& list : outline.lists) {
        // Meshes are short and many: they stand without empty lines between them.
        const bool close = list.key == "mesh";
        for (std::size_t i = 0; i < list.entries.size(); ++i) {
            if (i == 0 || !close) text += '\n';
            text += entry_text(list.header, list.entries[i]);
        }
    }
    return text;
}

}  // namespace couplet
