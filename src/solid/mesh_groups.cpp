#include "solid/mesh_groups.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <unordered_set>

namespace couplet {

namespace {

// Beyond this many gears of places a picture shows none of them: only what shares a member is kept apart.
constexpr std::size_t kMostPlacedGears = 8000;

class Grouper {
  public:
    Grouper(const Train& train, const Placement& placement, const Anatomy& anatomy)
        : train_(train),
          placement_(placement),
          anatomy_(anatomy),
          meshes_of_(train.gears.size()),
          listed_(train.meshes.size(), 0) {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.meshes.size()); ++m)
            for (const GearIndex gear : {train[MeshIndex{m}].first, train[MeshIndex{m}].second})
                meshes_of_[gear.position()].push_back({m});
        groups_.groups_of.resize(train.gears.size());
    }

    MeshGroups run() {
        find_clashes();
        std::vector<char> seen(train_.gears.size(), 0);
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(train_.gears.size()); ++g)
            if (seen[static_cast<std::size_t>(g)] == 0) group(component_of({g}, seen));
        exclude();
        groups_.clashing = std::move(clashing_with_);
        if (clashes_.empty()) groups_.clashing.clear();
        return std::move(groups_);
    }

  private:
    struct Component {
        std::vector<GearIndex> gears;
        std::vector<MeshIndex> meshes;  // each touches one before it
    };

    static std::uint64_t key(GearIndex a, GearIndex b) {
        const auto [low, high] = std::minmax(a.value, b.value);
        return static_cast<std::uint64_t>(low) << 32 | static_cast<std::uint64_t>(high);
    }

    bool clash(GearIndex a, GearIndex b) const { return clashes_.contains(key(a, b)); }

    bool in_mesh(GearIndex a, GearIndex b) const {
        return std::ranges::any_of(meshes_of_[a.position()],
                                   [&](MeshIndex m) { return train_[m].first == b || train_[m].second == b; });
    }

    void find_clashes() {
        std::vector<std::pair<GearIndex, Band>> placed;
        double sum_mm = 0.0;
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(placement_.places.size()); ++p) {
            const Place& place = placement_[PlaceIndex{p}];
            for (const GearIndex gear : anatomy_.gears[place.member.position()]) {
                Band band = anatomy_.bands[gear.position()];
                band.body = {p};
                band.centre_mm = place.centre_mm;
                placed.emplace_back(gear, band);
                sum_mm += band.outer_mm;
            }
            if (placed.size() > kMostPlacedGears) return;
        }
        if (placed.empty()) return;
        Surroundings around(placement_, 2.0 * sum_mm / static_cast<double>(placed.size()), 2.0);
        clashing_with_.resize(train_.gears.size());
        for (std::size_t i = 0; i < placed.size(); ++i) {
            const auto& [gear, band] = placed[i];
            for (const std::size_t other : around.meeting(band)) add_clash(gear, placed[other].first);
            around.add(band);
        }
    }

    void add_clash(GearIndex a, GearIndex b) {
        if (a == b || in_mesh(a, b) || !clashes_.insert(key(a, b)).second) return;
        clashing_with_[a.position()].push_back(b);
        clashing_with_[b.position()].push_back(a);
    }

    Component component_of(GearIndex start, std::vector<char>& seen) {
        Component component;
        std::deque<GearIndex> queue{start};
        seen[start.position()] = 1;
        for (; !queue.empty(); queue.pop_front()) {
            const GearIndex gear = queue.front();
            component.gears.push_back(gear);
            for (const MeshIndex m : meshes_of_[gear.position()]) {
                const GearIndex other = train_[m].first == gear ? train_[m].second : train_[m].first;
                if (listed_[m.position()] == 0) component.meshes.push_back(m);
                listed_[m.position()] = 1;
                if (seen[other.position()] != 0) continue;
                seen[other.position()] = 1;
                queue.push_back(other);
            }
        }
        return component;
    }

    bool clashes_within(const std::vector<GearIndex>& gears) const {
        if (clashes_.empty()) return false;
        const std::unordered_set<std::int32_t> inside = values_of(gears);
        return std::ranges::any_of(gears, [&](GearIndex gear) {
            return std::ranges::any_of(clashing_with_[gear.position()],
                                       [&](GearIndex other) { return inside.contains(other.value); });
        });
    }

    static std::unordered_set<std::int32_t> values_of(const std::vector<GearIndex>& gears) {
        std::unordered_set<std::int32_t> values;
        for (const GearIndex gear : gears) values.insert(gear.value);
        return values;
    }

    void group(const Component& component) {
        if (!clashes_within(component.gears)) {
            const int all = new_group();
            for (const GearIndex gear : component.gears) put(gear, all);
            return;
        }
        for (const MeshIndex m : component.meshes) {
            const Mesh& mesh = train_[m];
            const int into = group_for(mesh);
            put(mesh.first, into);
            put(mesh.second, into);
        }
    }

    int group_for(const Mesh& mesh) {
        for (const GearIndex gear : {mesh.first, mesh.second})
            for (const int g : groups_.groups_of[gear.position()])
                if (fits(mesh.first, g) && fits(mesh.second, g)) return g;
        return new_group();
    }

    bool fits(GearIndex gear, int into) const {
        return std::ranges::none_of(groups_.gears[static_cast<std::size_t>(into)],
                                    [&](GearIndex other) { return clash(gear, other); });
    }

    int new_group() {
        groups_.gears.emplace_back();
        return groups_.size() - 1;
    }

    void put(GearIndex gear, int into) {
        std::vector<int>& groups = groups_.groups_of[gear.position()];
        if (std::ranges::find(groups, into) != groups.end()) return;
        groups.push_back(into);
        groups_.gears[static_cast<std::size_t>(into)].push_back(gear);
    }

    void exclude() {
        groups_.excluded.resize(groups_.gears.size());
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(train_.gears.size()); ++g) {
            for (const int group : groups_.groups_of[static_cast<std::size_t>(g)]) {
                for (const GearIndex sister :
                     anatomy_.gears[train_.gears[static_cast<std::size_t>(g)].member.position()])
                    exclude_groups_of(sister, group);
                if (clashes_.empty()) continue;
                for (const GearIndex other : clashing_with_[static_cast<std::size_t>(g)])
                    exclude_groups_of(other, group);
            }
        }
        for (std::vector<int>& excluded : groups_.excluded) {
            std::ranges::sort(excluded);
            excluded.erase(std::unique(excluded.begin(), excluded.end()), excluded.end());
        }
    }

    void exclude_groups_of(GearIndex gear, int group) {
        for (const int other : groups_.groups_of[gear.position()])
            if (other != group) groups_.excluded[static_cast<std::size_t>(group)].push_back(other);
    }

    const Train& train_;
    const Placement& placement_;
    const Anatomy& anatomy_;
    std::vector<std::vector<MeshIndex>> meshes_of_;
    std::vector<char> listed_;  // meshes that a component has
    std::unordered_set<std::uint64_t> clashes_;
    std::vector<std::vector<GearIndex>> clashing_with_;
    MeshGroups groups_;
};

}  // namespace

MeshGroups mesh_groups(const Train& train, const Placement& placement, const Anatomy& anatomy) {
    return Grouper(train, placement, anatomy).run();
}

}  // namespace couplet
