#include "place/starting_rotation.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <numeric>

#include "train/faults.hpp"

namespace couplet {

namespace {

const Ratio kHalf(1, 2);

// The gears of a placed mesh with the direction that both see the contact in, the outer gear of an internal mesh first.
struct MeshEnds {
    GearIndex a;
    GearIndex b;
    PlaceIndex place_a;
    PlaceIndex place_b;
    Angle seen_by_a;
    Angle seen_by_b;
    bool internal;
};

MeshEnds ends_of(const Train& train, const PlacedMesh& placed) {
    const Mesh& mesh = train[placed.mesh];
    const Angle back = placed.direction + exact_angle(kHalf);
    if (train[mesh.second].internal) return {mesh.second, mesh.first, placed.second, placed.first, back, back, true};
    const bool internal = train[mesh.first].internal;
    return {mesh.first, mesh.second, placed.first, placed.second, placed.direction, internal ? placed.direction : back,
            internal};
}

// u_A + u_B - 1/2, or u_inner - u_outer - 1/2, unreduced.
Angle miss_of(const Train& train, const MeshEnds& ends, const Angle& tooth_a, const Angle& tooth_b) {
    const Angle phase_a = (ends.seen_by_a - tooth_a) * Ratio(train[ends.a].teeth);
    const Angle phase_b = (ends.seen_by_b - tooth_b) * Ratio(train[ends.b].teeth);
    return (ends.internal ? phase_b - phase_a : phase_b + phase_a) - exact_angle(kHalf);
}

class Walk {
  public:
    Walk(const Train& train, const Placement& placement, const StartOptions& options)
        : train_(train),
          placement_(placement),
          options_(options),
          gears_of_(train.members.size()),
          common_(train.gears.size()) {
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(train.gears.size()); ++g)
            gears_of_[train.gears[static_cast<std::size_t>(g)].member.position()].push_back({g});
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(placement.places.size()); ++p) {
            first_node_.push_back(static_cast<int>(nodes_.size()));
            for (const GearIndex gear : gears_of_[placement.places[static_cast<std::size_t>(p)].member.position()])
                nodes_.push_back({gear, {p}, {}, Ratio(0), false, false});
        }
        first_node_.push_back(static_cast<int>(nodes_.size()));
        meshes_of_.resize(nodes_.size());
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(placement.meshes.size()); ++m) {
            ends_.push_back(ends_of(train, placement.meshes[static_cast<std::size_t>(m)]));
            meshes_of_[node_of(ends_.back().a, ends_.back().place_a)].push_back({m});
            meshes_of_[node_of(ends_.back().b, ends_.back().place_b)].push_back({m});
        }
        walked_.resize(ends_.size());
    }

    StartingRotations run() {
        result_.drawn = options_.drawn;
        result_.copies = options_.copies;
        for (std::size_t start = 0; start < nodes_.size(); ++start) {
            if (nodes_[start].set) continue;
            const Ratio turned = start == 0 ? options_.first_gear_deg / Ratio(360) : Ratio(0);
            set(start, exact_angle(turned + drawn_offset(nodes_[start].gear)), Ratio(0));
            spread();
        }
        close_meshes();
        if (options_.copies == Copies::alike) close_bodies();
        write_bodies();
        write_gears();
        return std::move(result_);
    }

  private:
    struct Node {
        GearIndex gear;
        PlaceIndex place;
        Angle tooth;
        // How the tooth's direction grows as this copy alone is moved round its centre.
        Ratio per_turn_of_copy;
        bool set;
        // Its angle to the body's first gear was free, and is nothing to check.
        bool free_on_body;
    };

    std::size_t node_of(GearIndex gear, PlaceIndex place) const {
        const std::vector<GearIndex>& gears = gears_of_[train_[gear].member.position()];
        return static_cast<std::size_t>(first_node_[place.position()] + gear.value - gears.front().value);
    }

    Ratio pitch(GearIndex gear) const { return {1, train_[gear].teeth}; }
    Ratio drawn_offset(GearIndex gear) const { return options_.drawn == Drawn::tooth ? Ratio(0) : pitch(gear) * kHalf; }
    const std::vector<double>& directions() const { return placement_.direction_turns; }

    void set(std::size_t n, const Angle& tooth, const Ratio& per_turn_of_copy) {
        Node& node = nodes_[n];
        node.tooth = reduced(tooth, pitch(node.gear), directions());
        node.per_turn_of_copy = per_turn_of_copy;
        node.set = true;
        by_mesh_.push_back(n);
        by_body_.push_back(n);
    }

    // Everything that meshes and bodies lead to; bodies only where no mesh leads on.
    void spread() {
        while (!by_mesh_.empty() || !by_body_.empty()) {
            std::deque<std::size_t>& queue = by_mesh_.empty() ? by_body_ : by_mesh_;
            const bool over_mesh = !by_mesh_.empty();
            const std::size_t n = queue.front();
            queue.pop_front();
            if (over_mesh)
                spread_over_meshes(n);
            else
                spread_over_body(n);
        }
    }

    // True where the copy at this place is what moves in the mesh when it is moved round its centre.
    bool moves_in(PlacedMeshIndex m, PlaceIndex place) const {
        const PlacedMesh& mesh = placement_.meshes[m.position()];
        if (!mesh.turns_with_copy) return false;
        const MemberIndex arm = arms_of(mesh);
        const MemberIndex member = placement_[place].member;
        if (rides_on(train_, member) != arm) return false;
        return arm != kFrame || train_[member].copies > 1;
    }

    MemberIndex arms_of(const PlacedMesh& mesh) const { return arm_of(train_, train_[mesh.mesh]).value_or(kFrame); }

    // How the mesh's miss grows as the copies in it are moved round their centre, from what each end adds to it.
    Ratio miss_per_turn(PlacedMeshIndex m) const {
        const MeshEnds& ends = ends_[m.position()];
        return end_part(m, ends.b, ends.place_b, Ratio(1)) +
               end_part(m, ends.a, ends.place_a, Ratio(ends.internal ? -1 : 1));
    }

    // The contact's direction turns with the copy, whichever end it is.
    Ratio end_part(PlacedMeshIndex m, GearIndex gear, PlaceIndex place, const Ratio& sign) const {
        const MeshEnds& ends = ends_[m.position()];
        const bool any_moves = moves_in(m, ends.place_a) || moves_in(m, ends.place_b);
        const Node& node = nodes_[node_of(gear, place)];
        const Ratio own = moves_in(m, place) ? node.per_turn_of_copy : Ratio(0);
        return sign * (Ratio(any_moves ? 1 : 0) - own) * Ratio(train_[gear].teeth);
    }

    void spread_over_meshes(std::size_t n) {
        for (const PlacedMeshIndex m : meshes_of_[n]) {
            const MeshEnds& ends = ends_[m.position()];
            const bool from_a = node_of(ends.a, ends.place_a) == n;
            const GearIndex gear = from_a ? ends.b : ends.a;
            const PlaceIndex place = from_a ? ends.place_b : ends.place_a;
            const std::size_t other = node_of(gear, place);
            if (nodes_[other].set) continue;
            // The miss is linear in the unknown tooth: solve it from the miss at 0.
            const Angle zero;
            const Angle& known = nodes_[n].tooth;
            const Angle miss = miss_of(train_, ends, from_a ? known : zero, from_a ? zero : known);
            const Ratio slope = Ratio(!from_a && ends.internal ? train_[gear].teeth : -train_[gear].teeth);
            nodes_[other].per_turn_of_copy = Ratio(0);
            const Ratio per_turn = moves_in(m, place) ? -(miss_per_turn(m) / slope) : Ratio(0);
            walked_[m.position()] = true;
            set(other, miss * (-slope.inverse()), per_turn);
        }
    }

    void spread_over_body(std::size_t n) {
        const PlaceIndex place = nodes_[n].place;
        const std::size_t first = static_cast<std::size_t>(first_node_[place.position()]);
        const std::size_t end = static_cast<std::size_t>(first_node_[place.position() + 1]);
        const Angle drawn = nodes_[n].tooth - exact_angle(drawn_offset(nodes_[n].gear)) - relative_of(nodes_[n].gear);
        for (std::size_t other = first; other < end; ++other) {
            if (nodes_[other].set) continue;
            const GearIndex gear = nodes_[other].gear;
            nodes_[other].free_on_body = true;
            set(other, drawn + relative_of(gear) + exact_angle(drawn_offset(gear)), nodes_[n].per_turn_of_copy);
            // Meshes lead on from here before any other body does.
            return by_body_.push_front(n);
        }
        for (std::size_t g = first + 1; g < end; ++g) settle_relative(first, g);
    }

    // The angle between a gear and its body's first one, as drawn; 0 until some copy needs another.
    Angle relative_of(GearIndex gear) const { return common_[gear.position()].value_or(Angle{}); }

    Angle relative_at(std::size_t first, std::size_t n) const {
        return (nodes_[n].tooth - exact_angle(drawn_offset(nodes_[n].gear))) -
               (nodes_[first].tooth - exact_angle(drawn_offset(nodes_[first].gear)));
    }

    void settle_relative(std::size_t first, std::size_t n) {
        std::optional<Angle>& common = common_[nodes_[n].gear.position()];
        if (common) return;
        common = reduced(relative_at(first, n), lattice(first, n), directions());
        nodes_[n].free_on_body = true;
    }

    // A body may stand on any tooth of its first gear, so two gears' angle counts modulo 1 / lcm.
    Ratio lattice(std::size_t first, std::size_t n) const {
        const std::int64_t a = train_[nodes_[first].gear].teeth;
        const std::int64_t b = train_[nodes_[n].gear].teeth;
        return {1, std::lcm(a, b)};
    }

    void close_meshes() {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(ends_.size()); ++m) {
            if (walked_[static_cast<std::size_t>(m)]) continue;
            const MeshEnds& ends = ends_[static_cast<std::size_t>(m)];
            const Node& a = nodes_[node_of(ends.a, ends.place_a)];
            const Node& b = nodes_[node_of(ends.b, ends.place_b)];
            const Angle miss = reduced_to_least(miss_of(train_, ends, a.tooth, b.tooth), Ratio(1), directions());
            RotationLoop loop;
            loop.mesh = {m};
            const bool a_moves = moves_in({m}, ends.place_a);
            loop.place = a_moves ? ends.place_a : ends.place_b;
            loop.gear = a_moves ? ends.a : ends.b;
            loop.periods_per_turn = miss_per_turn({m});
            add_loop(loop, miss, Ratio(train_[loop.gear].teeth));
        }
    }

    void close_bodies() {
        for (std::size_t p = 0; p + 1 < first_node_.size(); ++p) {
            const auto first = static_cast<std::size_t>(first_node_[p]);
            for (std::size_t n = first + 1; n < static_cast<std::size_t>(first_node_[p + 1]); ++n) {
                if (nodes_[n].free_on_body) continue;
                const Ratio period = lattice(first, n);
                const Angle off = relative_at(first, n) - relative_of(nodes_[n].gear);
                RotationLoop loop;
                loop.gear = nodes_[n].gear;
                loop.place = nodes_[n].place;
                loop.periods_per_turn = (nodes_[n].per_turn_of_copy - nodes_[first].per_turn_of_copy) / period;
                add_loop(loop, reduced_to_least(off * period.inverse(), Ratio(1), directions()), period.inverse());
            }
        }
    }

    void add_loop(RotationLoop& loop, const Angle& miss, const Ratio& periods_per_gear_turn) {
        loop.miss_periods = miss;
        loop.miss = miss.value(directions());
        loop.miss_of_gear = shown(miss * periods_per_gear_turn.inverse(), directions());
        result_.loops.push_back(loop);
    }

    void write_gears() {
        for (const int n : first_node_) result_.first_gear.push_back(n);
        for (const Node& node : nodes_) {
            GearStart start;
            start.gear = node.gear;
            start.place = node.place;
            start.tooth = node.tooth;
            const Angle rotation = node.tooth - exact_angle(drawn_offset(node.gear));
            start.starting_rotation = shown(reduced(rotation, pitch(node.gear), directions()), directions());
            const Angle extra = node.tooth - first_copy(node).tooth - turned_with_copy(node.place);
            start.extra_turn = shown(reduced_to_least(extra, pitch(node.gear), directions()), directions());
            result_.gears.push_back(start);
        }
    }

    const Node& first_copy(const Node& node) const { return nodes_[node_of(node.gear, first_copy_of(node.place))]; }
    // Copies are made on one carrier: the first one of the same carrier's place.
    PlaceIndex first_copy_of(PlaceIndex place) const { return {place.value - (placement_[place].own_copy - 1)}; }
    Angle turned_with_copy(PlaceIndex place) const { return exact_angle(placement_[place].turns_from_first); }

    void write_bodies() {
        std::vector<Angle> rotations(placement_.places.size());
        for (std::size_t p = 0; p + 1 < first_node_.size(); ++p) {
            const auto first = static_cast<std::size_t>(first_node_[p]);
            const auto end = static_cast<std::size_t>(first_node_[p + 1]);
            if (first == end) continue;
            BodyStart body;
            body.place = {static_cast<std::int32_t>(p)};
            rotations[p] = body_rotation(first, end, body.fits);
            body.rotation = shown(rotations[p], directions());
            const Angle extra =
                rotations[p] - rotations[first_copy_of(body.place).position()] - turned_with_copy(body.place);
            body.extra_turn = shown(reduced_to_least(extra, symmetry(first, end), directions()), directions());
            result_.bodies.push_back(body);
            for (std::size_t n = first + 1; n < end; ++n) {
                write_timing_mark(first, n, body.fits);
                if (body.fits || options_.copies == Copies::timed_each) continue;
                nodes_[n].tooth =
                    rotations[p] + relative_of(nodes_[n].gear) + exact_angle(drawn_offset(nodes_[n].gear));
            }
        }
    }

    Ratio symmetry(std::size_t first, std::size_t end) const {
        int teeth = 0;
        for (std::size_t n = first; n < end; ++n) teeth = std::gcd(teeth, train_[nodes_[n].gear].teeth);
        return {1, teeth};
    }

    // Of the places on its first gear's teeth the one in which the further gears miss least, in pitches of their own.
    Angle body_rotation(std::size_t first, std::size_t end, bool& fits) const {
        const Ratio step = pitch(nodes_[first].gear);
        const Angle base =
            reduced(nodes_[first].tooth - exact_angle(drawn_offset(nodes_[first].gear)), step, directions());
        std::vector<std::pair<double, int>> off;  // in turns, and teeth
        for (std::size_t n = first + 1; n < end; ++n)
            off.emplace_back((relative_of(nodes_[n].gear) - relative_at(first, n)).value(directions()),
                             train_[nodes_[n].gear].teeth);
        const int teeth = train_[nodes_[first].gear].teeth;
        int best = 0;
        double least = std::numeric_limits<double>::infinity();
        for (int j = 0; j < teeth && least > kClosedLoop_periods; ++j) {
            double worst = 0.0;
            for (const auto& [turns, own_teeth] : off) {
                const double pitches = (turns + static_cast<double>(j) / teeth) * own_teeth;
                worst = std::max(worst, std::abs(pitches - std::round(pitches)));
            }
            if (worst < least) {
                least = worst;
                best = j;
            }
        }
        fits = least < kClosedLoop_periods;
        return base + exact_angle(step * Ratio(best));
    }

    void write_timing_mark(std::size_t first, std::size_t n, bool fits) {
        const Angle relative = fits ? relative_of(nodes_[n].gear) : relative_at(first, n);
        const bool in_line = fits && relative == Angle{};
        if (in_line) return;
        result_.timing_marks.push_back({nodes_[n].gear, nodes_[n].place,
                                        shown(reduced(relative, pitch(nodes_[n].gear), directions()), directions())});
    }

    const Train& train_;
    const Placement& placement_;
    const StartOptions& options_;
    std::vector<std::vector<GearIndex>> gears_of_;
    std::vector<std::optional<Angle>> common_;
    std::vector<Node> nodes_;
    std::vector<int> first_node_;
    std::vector<MeshEnds> ends_;
    std::vector<std::vector<PlacedMeshIndex>> meshes_of_;
    std::vector<bool> walked_;
    std::deque<std::size_t> by_mesh_;
    std::deque<std::size_t> by_body_;
    StartingRotations result_;
};

}  // namespace

const GearStart& StartingRotations::of(GearIndex gear, PlaceIndex place) const {
    const auto first = static_cast<std::size_t>(first_gear[place.position()]);
    return gears[first + static_cast<std::size_t>(gear.value - gears[first].gear.value)];
}

StartingRotations starting_rotations(const Train& train, const Placement& placement, const StartOptions& options) {
    return Walk(train, placement, options).run();
}

Angle mesh_miss_pitches(const Train& train, const Placement& placement, const StartingRotations& rotations,
                        const PlacedMesh& mesh) {
    const MeshEnds ends = ends_of(train, mesh);
    const Angle miss =
        miss_of(train, ends, rotations.of(ends.a, ends.place_a).tooth, rotations.of(ends.b, ends.place_b).tooth);
    return reduced_to_least(miss, Ratio(1), placement.direction_turns);
}

}  // namespace couplet
