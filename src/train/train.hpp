// Train: a gear train as plain values, just as its user describes it.
//
// Members turn about axes parallel to Z unless they say otherwise; counter-clockwise seen from +Z is positive. The
// frame is not in the list of members: kFrame names it. Every exact number is the decimal that was written. Lengths
// are in mm, or in inches where the teeth are given by diametral pitch; angles in degrees; speeds in rpm. A Train
// holds whatever was said, right or wrong: faults.hpp tells what is wrong with it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "exact/ratio.hpp"
#include "train/index.hpp"

namespace couplet {

using MemberIndex = Index<struct Member>;
using GearIndex = Index<struct Gear>;
using MeshIndex = Index<struct Mesh>;
using SettingIndex = Index<struct Setting>;
using JointIndex = Index<struct Joint>;

// The fixed member. Written "frame" in files and messages.
inline constexpr MemberIndex kFrame{-1};

inline constexpr int kFewestTeeth = 3;
inline constexpr int kMostTeeth = 100000;
inline constexpr int kMostMembers = 100000;
inline constexpr int kMostShots = 100;

// What a gear's teeth look like; each key may be left to the train's defaults, and those to ISO 53 profile A.
struct ToothSpec {
    std::optional<Ratio> module_mm;           // normal module
    std::optional<Ratio> diametral_pitch;     // normal, per inch; never both
    std::optional<Ratio> pressure_angle_deg;  // normal
    std::optional<Ratio> helix_angle_deg;     // positive: right-handed
    std::optional<Ratio> face_width;
    std::optional<Ratio> backlash;     // circular, per mesh
    std::optional<Ratio> addendum;     // x module
    std::optional<Ratio> dedendum;     // x module
    std::optional<Ratio> root_radius;  // x module

    friend bool operator==(const ToothSpec&, const ToothSpec&) = default;
};

struct Member {
    std::string name;
    MemberIndex rides_on = kFrame;
    // Identical members spread round what it rides on; 1 where there is just one.
    int copies = 1;
    // Where the copies stand, in degrees; empty: equally spaced from 0.
    std::vector<Ratio> at_deg;
    // Direction of the axis in the frame of what it rides on; none: +Z.
    std::optional<std::array<Ratio, 3>> axis;

    friend bool operator==(const Member&, const Member&) = default;
};

struct Gear {
    MemberIndex member;
    // Empty where the member's only gear has no name of its own.
    std::string name;
    int teeth = 0;
    bool internal = false;
    std::optional<Ratio> shift;  // profile shift coefficient
    std::optional<Ratio> bore;
    ToothSpec spec;

    friend bool operator==(const Gear&, const Gear&) = default;
};

struct Mesh {
    GearIndex first;
    GearIndex second;
    // An override; none: the centre distance follows from the teeth.
    std::optional<Ratio> centre_distance;

    friend bool operator==(const Mesh&, const Mesh&) = default;
};

struct Drive {
    MemberIndex member;
    Ratio rpm;  // against the frame

    friend bool operator==(const Drive&, const Drive&) = default;
};

struct Setting {
    std::string name;
    std::vector<MemberIndex> hold;                         // against the frame
    std::vector<std::pair<MemberIndex, MemberIndex>> tie;  // pairs that turn as one
    std::vector<Drive> drive;                              // in the order written

    friend bool operator==(const Setting&, const Setting&) = default;
};

// A turning pair; its angle is that of `turns` minus that of `against`, negated where it is flipped.
struct Joint {
    std::string name;
    MemberIndex turns;
    MemberIndex against = kFrame;
    bool flipped = false;

    friend bool operator==(const Joint&, const Joint&) = default;
};

// What the user says of two joints, by name: an explicit joint's or a default one's ("planet on drum").
struct CouplingEntry {
    std::array<std::string, 2> joints;
    std::optional<std::array<Ratio, 2>> typed;  // degrees of the first and of the second joint

    friend bool operator==(const CouplingEntry&, const CouplingEntry&) = default;
};

// A keyed view on a clip's camera path. What is not given is as in the shot before; the first shot has it from the view
// that the clip begins with.
struct Shot {
    Ratio at;                            // part of the clip, from 0 to 1; rises from shot to shot
    std::optional<Ratio> azimuth_deg;    // round the upright; 0 is the front
    std::optional<Ratio> elevation_deg;  // above the horizon; 90 looks straight down
    std::optional<Ratio> zoom;           // 1 shows the whole train, 2 twice as large
    std::optional<MemberIndex> look_at;  // kFrame: the middle of the train

    friend bool operator==(const Shot&, const Shot&) = default;
};

struct Train {
    std::string title;
    std::string notes;
    ToothSpec teeth;
    std::vector<Member> members;
    std::vector<Gear> gears;  // grouped by member, in the order of the members
    std::vector<Mesh> meshes;
    std::vector<Setting> settings;
    std::vector<Joint> joints;
    std::vector<CouplingEntry> couplings;
    std::vector<Shot> shots;

    friend bool operator==(const Train&, const Train&) = default;

    [[nodiscard]] const Member& operator[](MemberIndex index) const { return members[index.position()]; }
    [[nodiscard]] const Gear& operator[](GearIndex index) const { return gears[index.position()]; }
    [[nodiscard]] const Mesh& operator[](MeshIndex index) const { return meshes[index.position()]; }
    [[nodiscard]] const Setting& operator[](SettingIndex index) const { return settings[index.position()]; }
};

// What the member rides on; a member that rides on the frame gives kFrame.
[[nodiscard]] inline MemberIndex rides_on(const Train& train, MemberIndex member) {
    return train[member].rides_on;
}

// Whether the setting holds the member against the frame, or drives it.
[[nodiscard]] bool is_held(const Setting& setting, MemberIndex member);
[[nodiscard]] bool is_driven(const Setting& setting, MemberIndex member);

// "frame" or the member's name.
[[nodiscard]] const std::string& name_of(const Train& train, MemberIndex member);
// "planet" where the member has one gear, else "planet/outer".
[[nodiscard]] std::string name_of(const Train& train, GearIndex gear);
// "planet on drum": the name of a joint that was given none.
[[nodiscard]] std::string default_joint_name(const Train& train, MemberIndex turns, MemberIndex against);

// Linear search; nothing where no member has the name. "frame" gives kFrame.
[[nodiscard]] std::optional<MemberIndex> find_member(const Train& train, const std::string& name);
[[nodiscard]] std::optional<SettingIndex> find_setting(const Train& train, const std::string& name);
[[nodiscard]] std::vector<GearIndex> gears_of(const Train& train, MemberIndex member);

// Calls visit(member) for every member, what it rides on before it. The train's riding has no cycles.
template <class Visit>
void each_member_from_the_frame(const Train& train, Visit visit) {
    std::vector<char> visited(train.members.size(), 0);
    std::vector<MemberIndex> path;
    const auto waits = [&](MemberIndex member) { return member != kFrame && visited[member.position()] == 0; };
    const auto take = [&](MemberIndex member) {
        visited[member.position()] = 1;
        visit(member);
    };
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
        // Most members stand behind what they ride on; the others wait on a path down to it.
        for (MemberIndex under = rides_on(train, {m}); waits({m}) && waits(under); under = rides_on(train, under))
            path.push_back(under);
        for (; !path.empty(); path.pop_back()) take(path.back());
        if (waits({m})) take({m});
    }
}

}  // namespace couplet
