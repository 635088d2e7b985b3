#include "app/hand_over.hpp"

#include "app/clip_wish.hpp"

namespace couplet {

std::filesystem::path hand_over_target(const Session& session, const HandOverKind& kind) {
    return beside_scene(session, kind.ending);
}

std::vector<std::string> hand_over_arguments(const Session& session, const HandOverKind& kind,
                                             const std::filesystem::path& scene) {
    std::vector<std::string> arguments = {std::string(kind.verb), scene.string(),
                                          "--output=" + hand_over_target(session, kind).string(), "--force"};
    const Draft draft = clip_draft(session.draft());
    arguments.push_back("--setting=" + draft.train[draft.chosen].name);
    return arguments;
}

}  // namespace couplet
