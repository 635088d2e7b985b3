#include "place/running_rules.hpp"

#include <algorithm>
#include <complex>
#include <numbers>

#include "place/assembly.hpp"
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

// Equal spacing is exact; a sum of rounded directions would leave a trace.
double unbalance_of(const Member& member) {
    if (member.at_deg.empty()) return 0.0;
    std::complex<double> sum;
    for (int k = 0; k < member.copies; ++k)
        sum += std::polar(1.0, 2.0 * std::numbers::pi * turns_from_first(member, k).fraction().to_double());
    return std::abs(sum) / member.copies;
}

Finding balance_finding(const Member& member) {
    const double unbalance = unbalance_of(member);
    const bool balanced = unbalance <= kMostUnbalance;
    return {"balance of the copies",
            member.name,
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
        if (train[MemberIndex{m}].copies > 1 && is_in_mesh(train, {m}))
            findings.push_back(balance_finding(train[MemberIndex{m}]));
    return findings;
}

}  // namespace couplet
