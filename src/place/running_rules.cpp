#include "place/running_rules.hpp"

#include <algorithm>

#include "place/assembly.hpp"
#include "place/copies_balance.hpp"
#include "place/copy_places.hpp"
#include "tooth/train_teeth.hpp"

namespace couplet {

namespace {

Finding hunting_finding(const Train& train, MeshIndex mesh) {
    const int phases = hunting_of(train, mesh).phases;
    const bool hunts = phases == 1;
    return {"hunting tooth",
            mesh_where(train, train[mesh]),
            static_cast<double>(phases),
            1.0,
            "",
            hunts ? Verdict::holds : Verdict::caution,
            "gear makers' handbooks",
            hunts ? "" : "teeth without a common factor, where even wear matters"};
}

Finding balance_finding(const Train& train, MemberIndex index) {
    std::vector<Ratio> places;
    for (int k = 0; k < train[index].copies; ++k) places.push_back(turns_from_first(train, index, k));
    constexpr int kAnyTeeth = 1;  // only phases depend on them
    const double unbalance = balance_of(places, kAnyTeeth).residual;
    const bool balanced = unbalance <= kMostUnbalance;
    return {"balance of the copies",
            train[index].name,
            unbalance,
            kMostUnbalance,
            "",
            balanced ? Verdict::holds : Verdict::caution,
            "statics",
            balanced ? ""
                     : "space the copies equally or in opposite pairs; else the axis in their middle needs a bearing "
                       "that carries what is left"};
}

bool is_in_mesh(const Train& train, MemberIndex member) {
    return std::ranges::any_of(train.meshes, [&](const Mesh& mesh) {
        return train[mesh.first].member == member || train[mesh.second].member == member;
    });
}

}  // namespace

std::vector<Finding> hunting_findings(const Train& train) {
    std::vector<Finding> findings;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.meshes.size()); ++m)
        findings.push_back(hunting_finding(train, {m}));
    return findings;
}

std::vector<Finding> balance_findings(const Train& train) {
    std::vector<Finding> findings;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
        if (train[MemberIndex{m}].copies > 1 && is_in_mesh(train, {m})) findings.push_back(balance_finding(train, {m}));
    return findings;
}

}  // namespace couplet
