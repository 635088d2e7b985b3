#include "place/placement.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <stdexcept>

#include "place/copy_places.hpp"
#include "place/layout.hpp"
#include "tooth/mesh_checks.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

void require_parallel_axes(const Train& train) {
    for (const Member& member : train.members) {
        if (!member.axis) continue;
        const auto& [x, y, z] = *member.axis;
        if (!x.is_zero() || !y.is_zero() || z.sign() <= 0)
            throw std::invalid_argument(
                "the axis of '" + member.name +
                "' is not along +Z, and only members whose axes are along +Z can be placed: leave "
                "out 'axis' or write [0, 0, 1]");
    }
}

std::string both_names(const Train& train, const Mesh& mesh) {
    return name_of(train, mesh.first) + ", " + name_of(train, mesh.second);
}

class Placer {
  public:
    Placer(const Train& train, const TrainTeeth& teeth)
        : train_(train),
          teeth_(teeth),
          coaxial_with_(train.members.size()),
          axis_of_(train.members.size()),
          layouts_(train.members.size() + 1) {}

    Placement run() {
        require_parallel_axes(train_);
        join_coaxial_members();
        make_layouts();
        lay_out_from_the_leaves();
        make_places();
        make_meshes();
        return std::move(placement_);
    }

  private:
    CarrierLayout& layout_on(MemberIndex carrier) { return layouts_[MemberIndex{carrier.value + 1}.position()]; }

    std::int32_t root_of(std::int32_t m) {
        while (coaxial_with_[static_cast<std::size_t>(m)] != m) {
            std::int32_t& up = coaxial_with_[static_cast<std::size_t>(m)];
            up = coaxial_with_[static_cast<std::size_t>(up)];
            m = up;
        }
        return m;
    }

    void join_coaxial_members() {
        std::iota(coaxial_with_.begin(), coaxial_with_.end(), 0);
        for (const Mesh& mesh : train_.meshes) {
            const std::optional<MemberIndex> arm = arm_of(train_, mesh);
            arms_.push_back(arm.value());
            if (*arm == kFrame) continue;
            for (const GearIndex gear : {mesh.first, mesh.second}) {
                const MemberIndex member = train_[gear].member;
                if (rides_on(train_, member) == *arm) continue;
                const std::int32_t a = root_of(member.value);
                const std::int32_t b = root_of(arm->value);
                coaxial_with_[static_cast<std::size_t>(std::max(a, b))] = std::min(a, b);
            }
        }
    }

    void make_layouts() {
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(layouts_.size()); ++m)
            layout_on({m - 1}).carrier = {m - 1};
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.members.size()); ++m) add_to_axis({m});
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train_.meshes.size()); ++m) add_mesh({m});
    }

    void add_to_axis(MemberIndex index) {
        const Member& member = train_[index];
        CarrierLayout& layout = layout_on(member.rides_on);
        const std::int32_t root = root_of(index.value);
        int& node = axis_of_[index.position()];
        if (root == index.value) {
            node = static_cast<int>(layout.axes.size());
            layout.axes.emplace_back().copies = member.copies;
        } else {
            node = axis_of_[static_cast<std::size_t>(root)];
            const Member& first = train_[MemberIndex{root}];
            if (member.copies != first.copies || member.at_deg != first.at_deg)
                placement_.findings.push_back({"copies on one axis", first.name + ", " + member.name,
                                               static_cast<double>(member.copies), static_cast<double>(first.copies),
                                               "", Verdict::fails, "geometry of the train",
                                               "give coaxial members the same copies at the same places"});
        }
        layout.axes[static_cast<std::size_t>(node)].members.push_back(index);
    }

    void add_mesh(MeshIndex index) {
        const Mesh& mesh = train_[index];
        const MemberIndex arm = arms_[index.position()];
        const auto node = [&](GearIndex gear) {
            const MemberIndex member = train_[gear].member;
            return rides_on(train_, member) == arm ? axis_of_[member.position()] : 0;
        };
        const bool internal = train_[mesh.first].internal || train_[mesh.second].internal;
        layout_on(arm).meshes.push_back({index, node(mesh.first), node(mesh.second), distance_of(index), internal, {}});
    }

    double distance_of(MeshIndex index) {
        if (teeth_.meshes[index.position()].pair) return teeth_.meshes[index.position()].pair->centre_distance_mm;
        const Mesh& mesh = train_[index];
        const GearSizes& a = teeth_.gears[mesh.first.position()];
        const GearSizes& b = teeth_.gears[mesh.second.position()];
        const bool internal = a.spec.internal || b.spec.internal;
        placement_.findings.push_back({"operating angle", mesh_where(train_, mesh), 0.0, 0.0, "mm", Verdict::fails,
                                       "involute geometry",
                                       "no operating angle exists for these gears: change tooth counts, shifts or "
                                       "'centre_distance'; their reference circles are used meanwhile"});
        return std::abs(internal ? a.pitch_diameter_mm - b.pitch_diameter_mm
                                 : a.pitch_diameter_mm + b.pitch_diameter_mm) /
               2.0;
    }

    void lay_out_from_the_leaves() {
        std::vector<double> reach_mm(train_.members.size(), 0.0);
        for (std::size_t g = 0; g < train_.gears.size(); ++g) {
            double& reach = reach_mm[train_.gears[g].member.position()];
            reach = std::max(reach, outer_diameter_mm(teeth_, {static_cast<std::int32_t>(g)}) / 2.0);
        }
        each_member_from_the_frame(train_, [&](MemberIndex member) { order_.push_back(member); });
        for (std::size_t i = order_.size(); i-- > 0;) {
            const MemberIndex member = order_[i];
            lay_out(train_, layout_on(member), placement_.direction_turns, placement_.findings);
            double& reach = reach_mm[member.position()];
            reach = std::max(reach, reach_of(layout_on(member)));
            LaidAxis& axis = axis_at(member);
            axis.reach_mm = std::max(axis.reach_mm, reach);
        }
        lay_out(train_, layout_on(kFrame), placement_.direction_turns, placement_.findings);
    }

    LaidAxis& axis_at(MemberIndex member) {
        return layout_on(rides_on(train_, member)).axes[static_cast<std::size_t>(axis_of_[member.position()])];
    }

    std::size_t count_of(MemberIndex member) const {
        if (member == kFrame) return 1;
        return static_cast<std::size_t>(placement_.first_place[member.position() + 1] -
                                        placement_.first_place[member.position()]);
    }

    PlaceIndex place_at(MemberIndex member, std::size_t under, int own_copy) const {
        const int copies = train_[member].copies;
        return {placement_.first_place[member.position()] + static_cast<int>(under) * copies + own_copy - 1};
    }

    void make_places() {
        std::vector<std::size_t> counts(train_.members.size());
        std::size_t total = 0;
        for (const MemberIndex member : order_) {
            const MemberIndex under = rides_on(train_, member);
            counts[member.position()] =
                static_cast<std::size_t>(train_[member].copies) * (under == kFrame ? 1 : counts[under.position()]);
            total += counts[member.position()];
            if (total > kMostPlaces)
                throw std::length_error("copies of copies: more than " + std::to_string(kMostPlaces) +
                                        " parts to place; lower 'copies'");
        }
        placement_.first_place.push_back(0);
        for (const std::size_t count : counts)
            placement_.first_place.push_back(placement_.first_place.back() + static_cast<int>(count));
        placement_.places.resize(total);
        for (const MemberIndex member : order_)
            for (std::size_t under = 0; under < count_of(rides_on(train_, member)); ++under)
                place_copies(member, under);
    }

    void place_copies(MemberIndex member, std::size_t under) {
        const MemberIndex carrier = rides_on(train_, member);
        const LaidAxis& axis = axis_at(member);
        for (int k = 0; k < train_[member].copies; ++k) {
            const PlaceIndex index = place_at(member, under, k + 1);
            Place& place = placement_.places[index.position()];
            place.member = member;
            place.copy = index.value - placement_.first_place[member.position()] + 1;
            place.own_copy = k + 1;
            place.turns_from_first = turns_from_first(train_, member, k);
            const int axis_copy = std::min(k, axis.copies - 1);
            place.centre_on_carrier_mm =
                position_of(train_, layout_on(carrier), axis_of_[member.position()], axis_copy);
            place.centre_mm = place.centre_on_carrier_mm;
            if (carrier == kFrame) continue;
            place.under = {placement_.first_place[carrier.position()] + static_cast<int>(under)};
            const PlanePoint& origin = placement_[place.under].centre_mm;
            place.centre_mm.x_mm += origin.x_mm;
            place.centre_mm.y_mm += origin.y_mm;
        }
    }

    void make_meshes() {
        std::vector<const LaidMesh*> laid(train_.meshes.size());
        for (const CarrierLayout& layout : layouts_)
            for (const LaidMesh& mesh : layout.meshes) laid[mesh.mesh.position()] = &mesh;
        for (const LaidMesh* mesh : laid) place_mesh(*mesh);
    }

    void place_mesh(const LaidMesh& laid) {
        const Mesh& mesh = train_[laid.mesh];
        const MemberIndex arm = arms_[laid.mesh.position()];
        const MemberIndex first = train_[mesh.first].member;
        const MemberIndex second = train_[mesh.second].member;
        const int first_copies = laid.first == 0 ? 1 : train_[first].copies;
        const int second_copies = laid.second == 0 ? 1 : train_[second].copies;
        if (first_copies > 1 && second_copies > 1 && first_copies != second_copies) {
            placement_.findings.push_back({"copies in mesh", both_names(train_, mesh),
                                           static_cast<double>(first_copies), static_cast<double>(second_copies), "",
                                           Verdict::fails, "geometry of the train",
                                           "give members in mesh the same number of copies"});
            return;
        }
        const int copies = std::max(first_copies, second_copies);
        double worst_mm = 0.0;
        for (std::size_t under = 0; under < count_of(arm); ++under) {
            for (int k = 0; k < copies; ++k) {
                PlacedMesh placed;
                placed.mesh = laid.mesh;
                placed.copy = static_cast<int>(under) * copies + k + 1;
                placed.first = end_of(first, laid.first, arm, under, std::min(k, first_copies - 1));
                placed.second = end_of(second, laid.second, arm, under, std::min(k, second_copies - 1));
                placed.turns_with_copy = copies > 1 || arm != kFrame;
                const PlaceIndex moving = second_copies > 1 ? placed.second : placed.first;
                const Ratio turned = copies > 1 ? placement_[moving].turns_from_first : Ratio(0);
                set_direction(placed, laid.direction + exact_angle(turned));
                worst_mm = std::max(worst_mm, std::abs(placed.centre_distance_mm - laid.distance_mm));
                placement_.meshes.push_back(placed);
            }
        }
        if (worst_mm > kCentreDistanceLimit_mm)
            placement_.findings.push_back(
                {"centre distances agree", axes_where(train_, mesh), worst_mm, kCentreDistanceLimit_mm, "mm",
                 Verdict::fails, "geometry of the train",
                 "solve the shifts so that both meshes of the axis have one centre distance"});
    }

    // The place of one end of a mesh: carried by the arm, or on the arm's own axis beside it.
    PlaceIndex end_of(MemberIndex member, int node, MemberIndex arm, std::size_t under, int copy) const {
        if (node != 0) return place_at(member, under, copy + 1);
        const Place& carrier =
            placement_.places[static_cast<std::size_t>(placement_.first_place[arm.position()]) + under];
        const MemberIndex beneath = rides_on(train_, arm);
        const std::size_t beside =
            beneath == kFrame
                ? 0
                : static_cast<std::size_t>(carrier.under.value - placement_.first_place[beneath.position()]);
        return place_at(member, beside, std::min(carrier.own_copy, train_[member].copies));
    }

    // The exact direction, where the places bear it out; a symbol where copies stand otherwise than round that axis.
    void set_direction(PlacedMesh& placed, const Angle& direction) {
        const PlanePoint& a = placement_[placed.first].centre_mm;
        const PlanePoint& b = placement_[placed.second].centre_mm;
        placed.centre_distance_mm = std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
        placed.direction = direction;
        if (placed.centre_distance_mm < kCentreDistanceLimit_mm) return;
        const double seen = std::atan2(b.y_mm - a.y_mm, b.x_mm - a.x_mm) / kTurn;
        const double off = seen - direction.value(placement_.direction_turns);
        constexpr double kRounding_turns = 1e-8;
        if (std::abs(off - std::round(off)) < kRounding_turns) return;
        placement_.direction_turns.push_back(seen);
        placed.direction = direction_angle(static_cast<int>(placement_.direction_turns.size()) - 1);
    }

    const Train& train_;
    const TrainTeeth& teeth_;
    std::vector<std::int32_t> coaxial_with_;
    std::vector<MemberIndex> arms_;
    std::vector<int> axis_of_;
    std::vector<CarrierLayout> layouts_;
    std::vector<MemberIndex> order_;
    Placement placement_;
};

}  // namespace

Placement place_members(const Train& train, const TrainTeeth& teeth) {
    return Placer(train, teeth).run();
}

}  // namespace couplet
