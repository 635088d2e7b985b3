#include "place/assembly.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <numeric>

#include "place/copy_places.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

const char* const kTexts = "texts on planetary gears: assembly condition";
const char* const kTeethMeetGaps = "teeth meet gaps all round";
const char* const kLoopOfMeshes = "loop of meshes";

std::string copy_name(const Train& train, const Placement& placement, PlaceIndex place) {
    const Place& p = placement[place];
    const std::string& name = name_of(train, p.member);
    const bool alone = placement.first_place[p.member.position() + 1] - placement.first_place[p.member.position()] == 1;
    return alone ? name : name + " " + std::to_string(p.copy);
}

// True where the gear's copies are carried round the arm of the mesh, or spread round the other gear.
bool goes_round(const Train& train, GearIndex gear, MemberIndex arm) {
    const MemberIndex member = train[gear].member;
    return rides_on(train, member) == arm && (arm != kFrame || train[member].copies > 1);
}

// One planet gear in mesh with a central one.
struct CentralMesh {
    GearIndex central;
    GearIndex planet;
};

// How the planet gear's turn against the carrier's place grows, times its teeth: minus the central teeth outside,
// plus them inside a ring.
Ratio signed_teeth(const Train& train, const CentralMesh& mesh) {
    const bool internal = train[mesh.central].internal || train[mesh.planet].internal;
    return Ratio(internal ? train[mesh.central].teeth : -train[mesh.central].teeth);
}

// Places are written as decimals, and many a place that fits has none: near enough is what closes a loop of meshes.
bool is_nearly_whole(const Ratio& periods) {
    if (periods.is_whole()) return true;
    const double part = periods.fraction().to_double();
    return std::min(part, 1.0 - part) < kClosedLoop_periods;
}

class Conditions {
  public:
    explicit Conditions(const Train& train) : train_(train), central_(train.members.size()) {}

    std::vector<AssemblyCondition> run() {
        std::vector<CentralMesh> pairs;
        for (const Mesh& mesh : train_.meshes) {
            const MemberIndex arm = arm_of(train_, mesh).value_or(kFrame);
            const bool first = goes_round(train_, mesh.first, arm);
            const bool second = goes_round(train_, mesh.second, arm);
            if (first && second)
                pairs.push_back({mesh.first, mesh.second});
            else if (first)
                central_[train_[mesh.first].member.position()].push_back({mesh.second, mesh.first});
            else if (second)
                central_[train_[mesh.second].member.position()].push_back({mesh.first, mesh.second});
        }
        for (const std::vector<CentralMesh>& meshes : central_)
            for (std::size_t i = 1; i < meshes.size(); ++i) add_on_one_planet(meshes.front(), meshes[i]);
        for (const CentralMesh& pair : pairs) add_paired(pair);
        return std::move(conditions_);
    }

  private:
    void add_on_one_planet(const CentralMesh& first, const CentralMesh& second) {
        const std::int64_t p1 = train_[first.planet].teeth;
        const std::int64_t p2 = train_[second.planet].teeth;
        const Ratio sum = (signed_teeth(train_, second) * Ratio(p1) - signed_teeth(train_, first) * Ratio(p2)) /
                          Ratio(std::gcd(p1, p2));
        add(first.planet == second.planet ? AssemblyForm::simple : AssemblyForm::stepped, first, second, sum);
    }

    // Only where each planet has one gear for both of its meshes: else the loops alone judge.
    void add_paired(const CentralMesh& pair) {
        if (train_[pair.central].internal || train_[pair.planet].internal) return;
        for (const CentralMesh& first : central_[train_[pair.central].member.position()]) {
            if (first.planet != pair.central) continue;
            for (const CentralMesh& second : central_[train_[pair.planet].member.position()])
                if (second.planet == pair.planet)
                    add(AssemblyForm::paired, first, second,
                        signed_teeth(train_, first) + signed_teeth(train_, second));
            return;
        }
    }

    void add(AssemblyForm form, const CentralMesh& first, const CentralMesh& second, const Ratio& signed_sum) {
        const MemberIndex planet = train_[first.planet].member;
        const Member& member = train_[planet];
        AssemblyCondition condition{};
        condition.form = form;
        condition.first_central = first.central;
        condition.first_planet = first.planet;
        condition.second_planet = second.planet;
        condition.second_central = second.central;
        condition.sum = signed_sum.magnitude();
        condition.copies = member.copies;
        if (member.at_deg.empty()) condition.quotient = condition.sum / Ratio(member.copies);
        if (!condition.sum.is_zero()) condition.least_mesh_angle_deg = Ratio(360) / condition.sum;
        condition.holds = true;
        for (int k = 0; k < member.copies; ++k)
            condition.holds = condition.holds && is_nearly_whole(turns_from_first(train_, planet, k) * condition.sum);
        conditions_.push_back(condition);
    }

    const Train& train_;
    std::vector<std::vector<CentralMesh>> central_;
    std::vector<AssemblyCondition> conditions_;
};

bool misses(const RotationLoop& loop) {
    return std::abs(loop.miss) > kClosedLoop_periods;
}

// Moves of a copy, in turns round its centre, that close one loop: off, and every multiple of step from there.
struct Moves {
    Ratio off;
    Ratio step;
};

// The moves in both, exactly; nothing where there is none.
std::optional<Moves> common_moves(const Moves& a, const Moves& b) {
    // In units in which both steps and the difference are whole: a.off + i a.step = b.off + j b.step.
    const Ratio difference = b.off - a.off;
    const Ratio turns = a.step / b.step;
    // i a.step runs through all residues modulo b.step before turns.denominator() steps are over.
    constexpr int kMostTries = 100000;
    const Ratio tries = turns.denominator();
    for (int i = 0; i < kMostTries && Ratio(i) < tries; ++i) {
        if (!((Ratio(i) * a.step - difference) / b.step).is_whole()) continue;
        return Moves{a.off + Ratio(i) * a.step, a.step * tries};
    }
    return std::nullopt;
}

class Judge {
  public:
    Judge(const Train& train, const TrainTeeth& teeth, const Placement& placement, const StartingRotations& rotations)
        : train_(train), teeth_(teeth), placement_(placement), rotations_(rotations) {}

    Assembly run() {
        assembly_.findings = placement_.findings;
        assembly_.conditions = Conditions(train_).run();
        for (const AssemblyCondition& condition : assembly_.conditions) report(condition);
        judge_loops();
        judge_clearances();
        for (const TimingMark& mark : rotations_.timing_marks)
            if (placement_[mark.place].copy == 1 || !fits(mark.place)) report(mark);
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.meshes.size()); ++m)
            assembly_.hunting.push_back(hunting_of(train_, {m}));
        const bool failed =
            std::ranges::any_of(assembly_.findings, [](const Finding& f) { return f.verdict == Verdict::fails; });
        assembly_.outcome = failed ? AssemblyOutcome::does_not_assemble : AssemblyOutcome::assembles;
        return std::move(assembly_);
    }

  private:
    void report(const AssemblyCondition& condition) {
        if (!condition.quotient) return;
        const double figure = condition.quotient->to_double();
        const std::string where = name_of(train_, condition.first_central) + ", " +
                                  name_of(train_, condition.first_planet) + ", " +
                                  name_of(train_, condition.second_central);
        const bool timed = condition.form == AssemblyForm::stepped && rotations_.copies == Copies::timed_each;
        const Verdict verdict = condition.holds ? Verdict::holds : timed ? Verdict::caution : Verdict::fails;
        assembly_.findings.push_back({"assembly condition", where, figure, std::round(figure), "", verdict, kTexts,
                                      condition.holds ? ""
                                                      : "change a tooth count or the number of copies, or place the "
                                                        "copies at multiples of the least mesh angle"});
    }

    void judge_loops() {
        std::map<PlaceIndex, std::vector<const RotationLoop*>> by_place;
        for (const RotationLoop& loop : rotations_.loops) by_place[loop.place].push_back(&loop);
        for (const auto& [place, loops] : by_place) {
            if (std::ranges::none_of(loops, [](const RotationLoop* loop) { return misses(*loop); })) continue;
            const MisplacedCopy copy = misplaced(place, loops);
            report(copy, *loops.front());
            assembly_.misplaced.push_back(copy);
        }
    }

    MisplacedCopy misplaced(PlaceIndex place, const std::vector<const RotationLoop*>& loops) const {
        MisplacedCopy copy;
        copy.place = place;
        copy.stands_at_deg = placement_[place].turns_from_first * Ratio(360);
        const bool movable = std::ranges::none_of(
            loops, [](const RotationLoop* loop) { return misses(*loop) && loop->periods_per_turn.is_zero(); });
        const bool exact =
            std::ranges::all_of(loops, [](const RotationLoop* loop) { return loop->miss_periods.is_exact(); });
        if (movable && exact)
            set_exact_places(copy, loops);
        else if (movable && loops.size() == 1)
            set_place(copy, *loops.front());
        return copy;
    }

    static void set_exact_places(MisplacedCopy& copy, const std::vector<const RotationLoop*>& loops) {
        std::optional<Moves> moves;
        for (const RotationLoop* loop : loops) {
            if (loop->periods_per_turn.is_zero()) continue;
            const Moves own{-(loop->miss_periods.turns / loop->periods_per_turn),
                            loop->periods_per_turn.magnitude().inverse()};
            moves = moves ? common_moves(*moves, own) : own;
            if (!moves) return;
        }
        const Ratio up = moves->off - (moves->off / moves->step).floor() * moves->step;
        const Ratio down = up - moves->step;
        const auto degrees = [&](const Ratio& move) {
            const Ratio at = copy.stands_at_deg + move * Ratio(360);
            return ShownAngle{at, at.to_double()};
        };
        copy.above = degrees(up);
        copy.below = degrees(down);
        const Ratio nearest = (up.magnitude() <= down.magnitude() ? up : down).magnitude() * Ratio(360);
        copy.misses_by = {nearest, nearest.to_double()};
    }

    static void set_place(MisplacedCopy& copy, const RotationLoop& loop) {
        const double slope = loop.periods_per_turn.to_double();
        const double nearest = -360.0 * loop.miss / slope;
        const double step = std::abs(360.0 / slope);
        const double at = copy.stands_at_deg.to_double();
        copy.misses_by = {std::nullopt, std::abs(nearest)};
        copy.below = ShownAngle{std::nullopt, at + (nearest > 0.0 ? nearest - step : nearest)};
        copy.above = ShownAngle{std::nullopt, at + (nearest > 0.0 ? nearest : nearest + step)};
    }

    void report(const MisplacedCopy& copy, const RotationLoop& loop) {
        const double at = copy.stands_at_deg.to_double();
        Finding finding{kTeethMeetGaps,
                        copy_name(train_, placement_, copy.place),
                        at,
                        at,
                        "deg",
                        Verdict::fails,
                        kLoopOfMeshes,
                        "change a tooth count: no place round the centre suits this copy"};
        if (copy.above) {
            const bool up = copy.above->value_deg - at <= at - copy.below->value_deg;
            finding.limit = up ? copy.above->value_deg : copy.below->value_deg;
            finding.mend = "place the copy at the nearest angle that suits all its meshes";
        } else {
            finding.figure = loop.miss_of_gear.value_deg;
            finding.limit = 0.0;
        }
        assembly_.findings.push_back(finding);
    }

    bool fits(PlaceIndex place) const {
        const auto body = std::ranges::lower_bound(rotations_.bodies, place, {}, &BodyStart::place);
        return body == rotations_.bodies.end() || body->place != place || body->fits;
    }

    void report(const TimingMark& mark) {
        assembly_.findings.push_back(
            {"timing mark", name_of(train_, mark.gear) + ", copy " + std::to_string(placement_[mark.place].copy),
             mark.relative.value_deg, 0.0, "deg", Verdict::caution, "loop of meshes",
             "turn this gear by the figure against its body's first gear, and mark the teeth"});
    }

    void judge_clearances() {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.members.size()); ++m) {
            const std::vector<GearIndex> gears = gears_of(train_, {m});
            if (train_[MemberIndex{m}].copies == 1 || gears.empty()) continue;
            double tip_mm = 0.0;
            for (const GearIndex gear : gears) tip_mm = std::max(tip_mm, outer_diameter_mm(teeth_, gear));
            add_clearance(closest_copies(placement_, {m}, {m}), tip_mm);
        }
        for (const Mesh& mesh : train_.meshes) {
            const MemberIndex a = train_[mesh.first].member;
            const MemberIndex b = train_[mesh.second].member;
            if (rides_on(train_, a) != rides_on(train_, b) || train_[a].copies != train_[b].copies) continue;
            if (train_[a].copies == 1 || train_[mesh.first].internal || train_[mesh.second].internal) continue;
            add_clearance(closest_copies(placement_, a, b),
                          (outer_diameter_mm(teeth_, mesh.first) + outer_diameter_mm(teeth_, mesh.second)) / 2.0);
        }
    }

    void add_clearance(const ClosestCopies& closest, double needed_mm) {
        const double clearance = closest.distance_mm - needed_mm;
        assembly_.clearances.push_back({closest.first, closest.second, clearance});
        const std::string where =
            copy_name(train_, placement_, closest.first) + ", " + copy_name(train_, placement_, closest.second);
        const bool apart = clearance > 0.0;
        assembly_.findings.push_back({"neighbour clearance", where, clearance, 0.0, "mm",
                                      apart ? Verdict::holds : Verdict::fails, "common practice",
                                      apart ? "" : "use fewer or smaller copies: their tip circles collide"});
    }

    const Train& train_;
    const TrainTeeth& teeth_;
    const Placement& placement_;
    const StartingRotations& rotations_;
    Assembly assembly_;
};

}  // namespace

std::optional<Ratio> nearest_place_deg(const MisplacedCopy& copy) {
    if (!copy.below || !copy.above || !copy.below->exact_deg || !copy.above->exact_deg) return std::nullopt;
    const bool up = *copy.above->exact_deg - copy.stands_at_deg <= copy.stands_at_deg - *copy.below->exact_deg;
    return up ? *copy.above->exact_deg : *copy.below->exact_deg;
}

Assembly assembly_of(const Train& train, const TrainTeeth& teeth, const Placement& placement,
                     const StartingRotations& rotations) {
    return Judge(train, teeth, placement, rotations).run();
}

std::vector<Finding> suiting_copies(const Train& train, const Placement& placement,
                                    const StartingRotations& rotations) {
    // By member: the largest miss of its copies, in degrees of the gear; nothing where one does not suit.
    std::map<MemberIndex, std::optional<double>> largest_miss_deg;
    for (const RotationLoop& loop : rotations.loops) {
        const MemberIndex member = placement[loop.place].member;
        std::optional<double>& largest = largest_miss_deg.try_emplace(member, 0.0).first->second;
        if (misses(loop))
            largest.reset();
        else if (largest)
            largest = std::max(*largest, std::abs(loop.miss_of_gear.value_deg));
    }
    std::vector<Finding> findings;
    for (const auto& [member, miss_deg] : largest_miss_deg)
        if (miss_deg)
            findings.push_back(
                {kTeethMeetGaps, name_of(train, member), *miss_deg, 0.0, "deg", Verdict::holds, kLoopOfMeshes, ""});
    return findings;
}

int most_equal_copies(double centre_distance_mm, double tip_diameter_mm) {
    const double sine = tip_diameter_mm / (2.0 * centre_distance_mm);
    if (!(sine < 1.0)) return 1;
    int copies = static_cast<int>(std::min(std::numbers::pi / std::asin(sine) + 1.0, double{kMostCopiesCounted}));
    while (copies > 1 && 2.0 * centre_distance_mm * std::sin(std::numbers::pi / copies) <= tip_diameter_mm) --copies;
    return copies;
}

Hunting hunting_of(const Train& train, MeshIndex mesh) {
    const int first = train[train[mesh].first].teeth;
    const int second = train[train[mesh].second].teeth;
    const int phases = std::gcd(first, second);
    return {mesh, phases, second / phases, first / phases};
}

}  // namespace couplet
