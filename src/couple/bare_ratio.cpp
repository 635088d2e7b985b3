#include "couple/bare_ratio.hpp"

#include <deque>

namespace couplet {

std::vector<std::optional<Ratio>> bare_turns_per_turn(const Train& train, MemberIndex from) {
    std::vector<std::vector<const Mesh*>> meshes_of(train.members.size());
    for (const Mesh& mesh : train.meshes) {
        meshes_of[train[mesh.first].member.position()].push_back(&mesh);
        meshes_of[train[mesh.second].member.position()].push_back(&mesh);
    }
    std::vector<std::optional<Ratio>> turns(train.members.size());
    if (from == kFrame) return turns;
    turns[from.position()] = 1;
    for (std::deque<MemberIndex> reached = {from}; !reached.empty(); reached.pop_front()) {
        const MemberIndex member = reached.front();
        for (const Mesh* mesh : meshes_of[member.position()]) {
            const bool forward = train[mesh->first].member == member;
            const Gear& near = train[forward ? mesh->first : mesh->second];
            const Gear& far = train[forward ? mesh->second : mesh->first];
            std::optional<Ratio>& there = turns[far.member.position()];
            if (there) continue;
            const std::int64_t sense = near.internal != far.internal ? 1 : -1;
            there = *turns[member.position()] * Ratio(sense * near.teeth, far.teeth);
            reached.push_back(far.member);
        }
    }
    return turns;
}

}  // namespace couplet
