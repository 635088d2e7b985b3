#include "train/faults.hpp"

#include <algorithm>
#include <unordered_set>
#include <utility>

#include "exact/decimal.hpp"

namespace couplet {

namespace {

std::string in_quotes(const std::string& name) {
    return "'" + name + "'";
}

// The train under examination and what has been found in it so far.
struct Examination {
    const Train& train;
    std::vector<TrainFault> found;

    void add(TrainList list, std::size_t position, std::string key, std::string wrong, std::string right) {
        found.push_back({list, position, std::move(key), std::move(wrong), std::move(right)});
    }
    [[nodiscard]] bool has(MemberIndex member) const {
        return member.value >= 0 && member.position() < train.members.size();
    }
    [[nodiscard]] bool has_or_frame(MemberIndex member) const { return member == kFrame || has(member); }
    [[nodiscard]] bool has(GearIndex gear) const {
        return gear.value >= 0 && gear.position() < train.gears.size() && has(train[gear].member);
    }
};

const char* const kRightIndex = "name a member of the train";

// "by way of 'b', 'c', 'd' and 7 more": the members of a cycle after its first one.
std::string way_round(const Train& train, const std::vector<std::size_t>& cycle) {
    constexpr std::size_t kMostNamed = 3;
    if (cycle.size() == 1) return "";
    std::string way = " by way of ";
    const std::size_t named = std::min(cycle.size() - 1, kMostNamed);
    for (std::size_t i = 1; i <= named; ++i) {
        if (i > 1) way += i == cycle.size() - 1 ? " and " : ", ";
        way += in_quotes(train.members[cycle[i]].name);
    }
    if (named + 1 < cycle.size()) way += " and " + std::to_string(cycle.size() - 1 - named) + " more";
    return way;
}

void add_cycle(Examination& examination, std::vector<std::size_t> cycle) {
    std::rotate(cycle.begin(), std::ranges::min_element(cycle), cycle.end());
    const Train& train = examination.train;
    examination.add(
        TrainList::members, cycle.front(), "on",
        "member " + in_quotes(train.members[cycle.front()].name) + " rides on itself" + way_round(train, cycle),
        "what a member rides on must lead to the frame");
}

// Walks down from every member until the frame or known ground; a walk that meets itself has found a cycle.
void examine_riding(Examination& examination) {
    const std::vector<Member>& members = examination.train.members;
    std::vector<std::size_t> walk_of(members.size(), 0);
    for (std::size_t start = 0; start < members.size(); ++start) {
        const std::size_t walk = start + 1;
        std::vector<std::size_t> path;
        MemberIndex at{static_cast<std::int32_t>(start)};
        while (examination.has(at) && walk_of[at.position()] == 0) {
            walk_of[at.position()] = walk;
            path.push_back(at.position());
            at = members[at.position()].rides_on;
        }
        if (examination.has(at) && walk_of[at.position()] == walk && !path.empty())
            add_cycle(examination, {std::ranges::find(path, at.position()), path.end()});
    }
}

void examine_copies(Examination& examination, std::size_t position) {
    const Member& member = examination.train.members[position];
    if (member.copies < 1 || member.copies > kMostMembers)
        examination.add(TrainList::members, position, "copies",
                        "member " + in_quotes(member.name) + " has " + std::to_string(member.copies) + " copies",
                        "a member has from 1 to " + std::to_string(kMostMembers) + " copies");
    else if (!member.at_deg.empty() && member.at_deg.size() != static_cast<std::size_t>(member.copies))
        examination.add(TrainList::members, position, "at",
                        "member " + in_quotes(member.name) + " has " + std::to_string(member.copies) + " copies and " +
                            std::to_string(member.at_deg.size()) + " places for them",
                        "give one angle for each copy");
}

void examine_member(Examination& examination, std::size_t position) {
    const Member& member = examination.train.members[position];
    if (!examination.has_or_frame(member.rides_on))
        examination.add(TrainList::members, position, "on",
                        "member " + in_quotes(member.name) + " rides on a member that is not there", kRightIndex);
    examine_copies(examination, position);
    if (member.axis && std::ranges::all_of(*member.axis, &Ratio::is_zero))
        examination.add(TrainList::members, position, "axis",
                        "the axis of member " + in_quotes(member.name) + " has no direction",
                        "give three numbers of which at least one is not 0");
}

void examine_members(Examination& examination) {
    const std::vector<Member>& members = examination.train.members;
    const auto most_members = static_cast<std::size_t>(kMostMembers);
    if (members.size() > most_members)
        examination.add(TrainList::members, most_members, "",
                        "the train has " + std::to_string(members.size()) + " members",
                        "a train has at most " + std::to_string(kMostMembers) + " members");
    for (std::size_t position = 0; position < members.size(); ++position) examine_member(examination, position);
    examine_riding(examination);
    std::ranges::stable_sort(examination.found, {}, &TrainFault::position);
}

void examine_gears(Examination& examination) {
    const std::vector<Gear>& gears = examination.train.gears;
    for (std::size_t position = 0; position < gears.size(); ++position) {
        const Gear& gear = gears[position];
        if (!examination.has(gear.member)) {
            examination.add(TrainList::gears, position, "", "a gear belongs to a member that is not there",
                            kRightIndex);
            continue;
        }
        const std::string whose = in_quotes(name_of(examination.train, gear.member));
        if (position > 0 && gear.member < gears[position - 1].member)
            examination.add(TrainList::gears, position, "", "a gear of member " + whose + " stands out of order",
                            "gears follow the order of their members");
        if (gear.teeth < kFewestTeeth || gear.teeth > kMostTeeth)
            examination.add(
                TrainList::gears, position, "teeth",
                "a gear of member " + whose + " has " + std::to_string(gear.teeth) + " teeth",
                "a gear has from " + std::to_string(kFewestTeeth) + " to " + std::to_string(kMostTeeth) + " teeth");
    }
}

void examine_mesh(Examination& examination, std::size_t position) {
    const Train& train = examination.train;
    const Mesh& mesh = train.meshes[position];
    const auto add = [&](std::string wrong, std::string right) {
        examination.add(TrainList::meshes, position, "gears", std::move(wrong), std::move(right));
    };
    if (!examination.has(mesh.first) || !examination.has(mesh.second))
        return add("a mesh has a gear that is not there", "name two gears of the train");
    const Gear& first = train[mesh.first];
    const Gear& second = train[mesh.second];
    const auto both = [&] {
        return in_quotes(name_of(train, mesh.first)) + " and " + in_quotes(name_of(train, mesh.second));
    };
    if (first.member == second.member)
        return add("the gears " + both() + " are fast on one member", "a mesh joins gears of two members");
    if (first.internal && second.internal)
        add("the gears " + both() + " are both internal", "at most one gear of a mesh is internal");
    if (!examination.has_or_frame(rides_on(train, first.member)) ||
        !examination.has_or_frame(rides_on(train, second.member)))
        return;
    if (!arm_of(train, mesh))
        add("the mesh of " + both() + " has no arm, a member in which both axes stand still",
            "both members ride on the same one, or one rides on a member beside the other");
}

// The holds, ties and drivers of settings; `held` and `driven` say in which setting a member was last seen so.
class SettingExaminer {
  public:
    explicit SettingExaminer(Examination& examination)
        : examination_(examination),
          held_(examination.train.members.size(), 0),
          driven_(examination.train.members.size(), 0) {}

    void examine(std::size_t position) {
        position_ = position;
        const Setting& setting = examination_.train.settings[position];
        for (const MemberIndex member : setting.hold) once(held_, member, "hold", "holds");
        for (const Drive& drive : setting.drive) once(driven_, drive.member, "drive", "drives");
        tied_.clear();
        for (const auto& [first, second] : setting.tie) tie(first, second);
    }

  private:
    void add(const char* key, const std::string& wrong, std::string right) {
        examination_.add(TrainList::settings, position_, key,
                         "setting " + in_quotes(examination_.train.settings[position_].name) + " " + wrong,
                         std::move(right));
    }

    void once(std::vector<std::size_t>& seen, MemberIndex member, const char* key, const std::string& does) {
        if (member == kFrame) return add(key, does + " the frame", "the frame never turns: leave it out");
        if (!examination_.has(member)) return add(key, does + " a member that is not there", kRightIndex);
        std::size_t& last_seen = seen[member.position()];
        if (last_seen == position_ + 1)
            add(key, does + " " + in_quotes(name_of(examination_.train, member)) + " twice", "name each member once");
        last_seen = position_ + 1;
    }

    void tie(MemberIndex first, MemberIndex second) {
        const Train& train = examination_.train;
        if (!examination_.has_or_frame(first) || !examination_.has_or_frame(second))
            return add("tie", "ties a member that is not there", kRightIndex);
        if (first == second)
            return add("tie", "ties " + in_quotes(name_of(train, first)) + " to itself", "tie two different members");
        const auto [lower, upper] = std::minmax(first, second);
        if (lower == kFrame)
            return add("tie", "ties " + in_quotes(name_of(train, upper)) + " to the frame",
                       "to tie a member to the frame is to hold it: write it under hold");
        const auto pair = static_cast<std::uint64_t>(lower.value) << 32U | static_cast<std::uint64_t>(upper.value);
        if (!tied_.insert(pair).second)
            add("tie",
                "ties " + in_quotes(name_of(train, first)) + " and " + in_quotes(name_of(train, second)) + " twice",
                "name each pair once");
    }

    Examination& examination_;
    std::size_t position_ = 0;
    std::vector<std::size_t> held_;
    std::vector<std::size_t> driven_;
    std::unordered_set<std::uint64_t> tied_;
};

void examine_joint(Examination& examination, std::size_t position) {
    const Joint& joint = examination.train.joints[position];
    const auto add = [&](const char* key, const std::string& wrong, std::string right) {
        examination.add(TrainList::joints, position, key, "joint " + in_quotes(joint.name) + " " + wrong,
                        std::move(right));
    };
    if (!examination.has_or_frame(joint.turns) || !examination.has_or_frame(joint.against))
        add("", "names a member that is not there", kRightIndex);
    else if (joint.turns == joint.against)
        add("against", "turns " + in_quotes(name_of(examination.train, joint.turns)) + " against itself",
            "a joint names two different members");
}

void examine_shots(Examination& examination) {
    const std::vector<Shot>& shots = examination.train.shots;
    const auto most_shots = static_cast<std::size_t>(kMostShots);
    if (shots.size() > most_shots)
        examination.add(TrainList::shots, most_shots, "", "the train has " + std::to_string(shots.size()) + " shots",
                        "a train has at most " + std::to_string(kMostShots) + " shots");
    for (std::size_t position = 0; position < shots.size(); ++position) {
        const Shot& shot = shots[position];
        const std::string which = "shot " + std::to_string(position + 1);
        if (position > 0 && shot.at <= shots[position - 1].at)
            examination.add(TrainList::shots, position, "at",
                            which + " is at " + exact_text(shot.at) + ", and the one before it at " +
                                exact_text(shots[position - 1].at),
                            "each shot comes later in the clip than the one before");
        if (shot.look_at && !examination.has_or_frame(*shot.look_at))
            examination.add(TrainList::shots, position, "look_at", which + " looks at a member that is not there",
                            kRightIndex);
    }
}

}  // namespace

std::vector<TrainFault> faults(const Train& train) {
    Examination examination{train, {}};
    examine_members(examination);
    examine_gears(examination);
    for (std::size_t position = 0; position < train.meshes.size(); ++position) examine_mesh(examination, position);
    SettingExaminer settings(examination);
    for (std::size_t position = 0; position < train.settings.size(); ++position) settings.examine(position);
    for (std::size_t position = 0; position < train.joints.size(); ++position) examine_joint(examination, position);
    examine_shots(examination);
    return std::move(examination.found);
}

}  // namespace couplet
