#include "solid/stack.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "solid/mesh_groups.hpp"

namespace couplet {

namespace {

constexpr double kGapOfFace = 0.25;
constexpr double kLiftOfReach = 0.1;
// Every order of this many groups is tried; beyond it just the two along shared members.
constexpr int kMostOrdered = 5;
constexpr double kRounding_mm = 1e-6;

double middle(const Span& span) {
    return (span.bottom_mm + span.top_mm) / 2.0;
}

// One way to stand the groups on levels, with its heights.
class Standing {
  public:
    Standing(const Train& train, const TrainTeeth& teeth, const Placement& placement, const Anatomy& anatomy,
             const MeshGroups& groups, const std::vector<int>& order)
        : train_(train), teeth_(teeth), placement_(placement), anatomy_(anatomy), groups_(groups) {
        set_levels(order);
        set_plates();
        set_discs();
        set_upper_plates();
        set_heights();
        set_spans();
    }

    [[nodiscard]] const Stack& stack() const { return stack_; }

    // How ill a machine on this stack would work; less is better. The weights rank what an exhibit suffers from most:
    // a pin through a foreign gear, a ring that no post reaches, a mesh that is hidden, height.
    [[nodiscard]] double cost() const;

  private:
    struct Slot {
        double thickness_mm = 0.0;
        std::vector<Band> bands;
        Span span;
    };
    struct Level {
        double height_mm = 0.0;
        std::vector<Slot> below;  // from the gears down
        std::vector<Slot> above;  // from the gears up
        Span span;
    };
    struct SlotPlace {
        int level;
        int rank;
    };
    struct Item {
        Band band;
        MemberIndex member;
        int axis;
        bool central;  // joined to its axis, as a ring is not
    };

    Level& level(int l) { return levels_[static_cast<std::size_t>(l)]; }

    void set_levels(const std::vector<int>& order) {
        level_of_group_.assign(static_cast<std::size_t>(groups_.size()), -1);
        for (const int group : order) level_of_group_[static_cast<std::size_t>(group)] = level_for(group);
        const auto top = std::ranges::max_element(level_of_group_);
        levels_.resize(top == level_of_group_.end() ? 1 : static_cast<std::size_t>(*top) + 1);
        for (int group = 0; group < groups_.size(); ++group) {
            double& height = level(level_of_group_[static_cast<std::size_t>(group)]).height_mm;
            height = std::max(height, height_of(group));
        }
    }

    // The lowest that is free; with long gears one where these pass nothing that they clash with, if there is any.
    int level_for(int group) const {
        std::set<int> taken;
        for (const int other : groups_.excluded[static_cast<std::size_t>(group)])
            taken.insert(level_of_group_[static_cast<std::size_t>(other)]);
        const int beyond = *std::ranges::max_element(level_of_group_) + 1;
        int first = -1;
        for (int l = 0; l <= beyond; ++l) {
            if (taken.contains(l)) continue;
            if (first < 0) first = l;
            if (groups_.clashing.empty() || passes_freely(group, l)) return l;
        }
        return first;
    }

    [[nodiscard]] bool passes_freely(int group, int at) const {
        return std::ranges::all_of(groups_.gears[static_cast<std::size_t>(group)], [&](GearIndex gear) {
            const std::pair<int, int> own = levels_with(gear, at);
            return std::ranges::none_of(groups_.clashing[gear.position()], [&](GearIndex other) {
                const std::pair<int, int> its = levels_with(other, -1);
                return its.second >= 0 && own.first <= its.second && its.first <= own.second;
            });
        });
    }

    // The levels that a gear reaches through so far, and one more where it is not -1.
    [[nodiscard]] std::pair<int, int> levels_with(GearIndex gear, int one_more) const {
        int low = one_more;
        int high = one_more;
        for (const int group : groups_.groups_of[gear.position()]) {
            const int l = level_of_group_[static_cast<std::size_t>(group)];
            if (l < 0) continue;
            low = low < 0 ? l : std::min(low, l);
            high = std::max(high, l);
        }
        return {low, high};
    }

    // A gear in several groups is as long as they ask for.
    double height_of(int group) const {
        double shared = 0.0;
        double own = 0.0;
        for (const GearIndex gear : groups_.gears[static_cast<std::size_t>(group)]) {
            double& height = groups_.groups_of[gear.position()].size() > 1 ? shared : own;
            height = std::max(height, face_of(gear));
        }
        return own > 0.0 ? own : shared;
    }

    double face_of(GearIndex gear) const { return teeth_.gears[gear.position()].spec.face_width_mm; }

    int lowest_level_of(GearIndex gear) const { return std::max(levels_with(gear, -1).first, 0); }
    int highest_level_of(GearIndex gear) const { return std::max(levels_with(gear, -1).second, 0); }

    // The first slot from `rank` on in which the band meets nothing.
    int put(std::vector<Slot>& slots, int rank, const Band& band, double thickness_mm) const {
        constexpr std::size_t kMostCompared = 64;
        for (;; ++rank) {
            if (static_cast<std::size_t>(rank) >= slots.size()) slots.resize(static_cast<std::size_t>(rank) + 1);
            Slot& slot = slots[static_cast<std::size_t>(rank)];
            if (slot.bands.size() <= kMostCompared && std::ranges::any_of(slot.bands, [&](const Band& other) {
                    return can_meet_in_plan(placement_, band, other);
                }))
                continue;
            slot.bands.push_back(band);
            slot.thickness_mm = std::max(slot.thickness_mm, thickness_mm);
            return rank;
        }
    }

    Band disc_of(MemberIndex member, double radius_mm) const {
        const PlaceIndex place = first_place_of(placement_, member);
        return {place, placement_[place].centre_mm, 0.0, radius_mm, {0.0, 1.0}};
    }

    // A carrier that is a ring too reaches out to it.
    double plate_radius_mm(MemberIndex carrier) const {
        double radius = anatomy_.plate_reach_mm(carrier);
        for (const GearIndex gear : anatomy_.gears[carrier.position()])
            if (train_[gear].internal) radius = std::max(radius, anatomy_.bands[gear.position()].outer_mm);
        return radius;
    }

    void set_plates() {
        plate_of_.assign(train_.members.size(), {-1, -1});
        for (auto carrier = anatomy_.carriers.rbegin(); carrier != anatomy_.carriers.rend(); ++carrier) {
            SlotPlace at{-1, 0};
            for (const int a : anatomy_.axes_on[carrier->position()])
                for (const MemberIndex rider : anatomy_.axes[static_cast<std::size_t>(a)].members) lower_to(at, rider);
            at.level = std::max(at.level, 0);
            at.rank = put(level(at.level).below, at.rank, disc_of(*carrier, plate_radius_mm(*carrier)),
                          anatomy_.plate_thickness_mm(*carrier));
            plate_of_[carrier->position()] = at;
        }
    }

    // Below all gears of the rider and below its own plate.
    void lower_to(SlotPlace& at, MemberIndex rider) const {
        const auto lower = [&](int l, int rank) {
            if (at.level < 0 || l < at.level || (l == at.level && rank > at.rank)) at = {l, rank};
        };
        for (const GearIndex gear : anatomy_.gears[rider.position()]) lower(lowest_level_of(gear), 0);
        const SlotPlace& plate = plate_of_[rider.position()];
        if (plate.level >= 0) lower(plate.level, plate.rank + 1);
    }

    // Rings of members with external gears and no plate: towards the nearest of these.
    void set_discs() {
        for (std::size_t m = 0; m < train_.members.size(); ++m) {
            const std::vector<GearIndex>& gears = anatomy_.gears[m];
            if (gears.size() < 2 || plate_of_[m].level >= 0) continue;
            const auto outward = std::ranges::find_if(gears, [&](GearIndex g) { return !train_[g].internal; });
            if (outward == gears.end()) continue;
            for (const GearIndex ring : gears)
                if (train_[ring].internal) put_disc(ring, *outward);
        }
    }

    void put_disc(GearIndex ring, GearIndex outward) {
        const bool above = lowest_level_of(outward) > lowest_level_of(ring);
        const int l = above ? highest_level_of(ring) : lowest_level_of(ring);
        const double radius = anatomy_.bands[ring.position()].outer_mm;
        std::vector<Slot>& slots = above ? level(l).above : level(l).below;
        constexpr double kOfFace = 0.4;
        const int rank = put(slots, 0, disc_of(train_[ring].member, radius), kOfFace * anatomy_.typical_face_mm);
        discs_.push_back({ring, above, {l, rank}});
    }

    // Where pins are long, reaching through several levels, and all stand at one distance.
    void set_upper_plates() {
        upper_of_.assign(train_.members.size(), {-1, -1});
        for (const MemberIndex carrier : anatomy_.carriers) {
            bool is_long = false;
            int highest = -1;
            double inner = 0.0;
            double outer = 0.0;
            for (const int a : anatomy_.axes_on[carrier.position()]) {
                const Axis& axis = anatomy_.axes[static_cast<std::size_t>(a)];
                const double lobe = anatomy_.lobe_mm(axis);
                inner = inner == 0.0 ? axis.distance_mm - lobe : std::min(inner, axis.distance_mm - lobe);
                outer = std::max(outer, axis.distance_mm + lobe);
                for (const MemberIndex rider : axis.members) {
                    int lowest = -1;
                    int own = -1;
                    for (const GearIndex gear : anatomy_.gears[rider.position()]) {
                        const int low = lowest_level_of(gear);
                        lowest = lowest < 0 ? low : std::min(lowest, low);
                        own = std::max(own, highest_level_of(gear));
                    }
                    is_long = is_long || lowest < own;
                    highest = std::max(highest, own);
                }
            }
            constexpr double kWidestPart = 0.5;
            if (!is_long || inner <= 0.0 || outer - inner > kWidestPart * outer) continue;
            Band band = disc_of(carrier, outer);
            band.inner_mm = inner;
            constexpr double kOfPlate = 0.6;
            const int rank = put(level(highest).above, 0, band, kOfPlate * anatomy_.plate_thickness_mm(carrier));
            upper_of_[carrier.position()] = {highest, rank};
        }
    }

    void set_heights() {
        stack_.gap_mm = kGapOfFace * anatomy_.typical_face_mm;
        double z = std::max(kLiftOfReach * anatomy_.reach_mm, 2.0 * stack_.gap_mm);
        constexpr double kMostLift_faces = 2.5;
        if (anatomy_.typical_face_mm > 0.0) z = std::min(z, kMostLift_faces * anatomy_.typical_face_mm);
        const auto stand = [&](Span& span, double height_mm) {
            span = {z, z + height_mm};
            stack_.tiers.push_back(span);
            stack_.top_mm = span.top_mm;
            z = span.top_mm + stack_.gap_mm;
        };
        for (Level& each : levels_) {
            for (std::size_t rank = each.below.size(); rank-- > 0;)
                stand(each.below[rank].span, each.below[rank].thickness_mm);
            stand(each.span, each.height_mm);
            for (Slot& slot : each.above) stand(slot.span, slot.thickness_mm);
        }
    }

    Span slot_span(const SlotPlace& at, bool above) const {
        const Level& each = levels_[static_cast<std::size_t>(at.level)];
        return (above ? each.above : each.below)[static_cast<std::size_t>(at.rank)].span;
    }

    void set_spans() {
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(train_.gears.size()); ++g) {
            const int low = lowest_level_of({g});
            const int high = highest_level_of({g});
            if (low != high) {
                stack_.gears.push_back({levels_[static_cast<std::size_t>(low)].span.bottom_mm,
                                        levels_[static_cast<std::size_t>(high)].span.top_mm});
                continue;
            }
            const double centre = middle(levels_[static_cast<std::size_t>(low)].span);
            stack_.gears.push_back({centre - face_of({g}) / 2.0, centre + face_of({g}) / 2.0});
        }
        for (const MemberIndex carrier : anatomy_.carriers) {
            stack_.carriers.push_back({carrier, slot_span(plate_of_[carrier.position()], false), std::nullopt});
            const SlotPlace& upper = upper_of_[carrier.position()];
            if (upper.level >= 0) stack_.carriers.back().upper = slot_span(upper, true);
        }
        for (const Disc& disc : discs_) stack_.discs.push_back({disc.ring, slot_span(disc.at, disc.above)});
    }

    [[nodiscard]] std::vector<Item> items() const {
        std::vector<Item> all;
        for (std::size_t g = 0; g < train_.gears.size(); ++g) {
            const Gear& gear = train_.gears[g];
            all.push_back({anatomy_.bands[g], gear.member, anatomy_.axis_of[gear.member.position()], !gear.internal});
            all.back().band.span = stack_.gears[g];
        }
        for (const CarrierPlates& plates : stack_.carriers) {
            all.push_back({disc_of(plates.carrier, plate_radius_mm(plates.carrier)), plates.carrier,
                           anatomy_.axis_of[plates.carrier.position()], true});
            all.back().band.span = plates.lower;
        }
        return all;
    }

    // How many foreign items a body on an axis runs into.
    [[nodiscard]] int blocks(const Band& band, int axis, MemberIndex member, const std::vector<Item>& all) const {
        return static_cast<int>(std::ranges::count_if(all, [&](const Item& item) {
            return item.axis != axis && item.member != member && can_meet(placement_, band, item.band);
        }));
    }

    [[nodiscard]] double gear_cost() const;
    [[nodiscard]] double pin_cost(const std::vector<Item>& all) const;
    [[nodiscard]] double shaft_cost(const std::vector<Item>& all) const;
    [[nodiscard]] double ring_cost(const std::vector<Item>& all) const;
    [[nodiscard]] double wall_cost(const Item& ring, const Span& plate, const std::vector<Item>& all) const;
    [[nodiscard]] double post_cost(const Item& ring, const std::vector<Item>& all) const;

    struct Disc {
        GearIndex ring;
        bool above;
        SlotPlace at;
    };

    const Train& train_;
    const TrainTeeth& teeth_;
    const Placement& placement_;
    const Anatomy& anatomy_;
    const MeshGroups& groups_;
    std::vector<int> level_of_group_;
    std::vector<Level> levels_;
    std::vector<SlotPlace> plate_of_;  // by member; level -1: none
    std::vector<SlotPlace> upper_of_;
    std::vector<Disc> discs_;
    Stack stack_;
};

constexpr double kBlocked = 100.0;
constexpr double kNoPosts = 8.0;
constexpr double kHidden = 4.0;
constexpr double kNoBearing = 3.0;
constexpr double kPerTier = 1.0;

double Standing::cost() const {
    const std::vector<Item> all = items();
    double moment = 0.0;
    double weight = 0.0;
    for (const Item& item : all) {
        moment += item.band.outer_mm * middle(item.band.span);
        weight += item.band.outer_mm;
    }
    const double lean = weight > 0.0 && stack_.top_mm > 0.0 ? moment / (weight * stack_.top_mm) : 0.0;
    return gear_cost() + pin_cost(all) + shaft_cost(all) + ring_cost(all) +
           kPerTier * static_cast<double>(stack_.tiers.size()) + lean;
}

// Long gears that pass what they clash with.
double Standing::gear_cost() const {
    double cost = 0.0;
    for (std::size_t g = 0; g < groups_.clashing.size(); ++g)
        for (const GearIndex other : groups_.clashing[g])
            if (stack_.gears[g].bottom_mm < stack_.gears[other.position()].top_mm &&
                stack_.gears[other.position()].bottom_mm < stack_.gears[g].top_mm)
                cost += kBlocked;
    return cost;
}

double Standing::pin_cost(const std::vector<Item>& all) const {
    double cost = 0.0;
    for (const CarrierPlates& plates : stack_.carriers) {
        for (const int a : anatomy_.axes_on[plates.carrier.position()]) {
            const Axis& axis = anatomy_.axes[static_cast<std::size_t>(a)];
            Band pin{first_place_of(placement_, plates.carrier),
                     placement_[first_place_of(placement_, axis.members.front())].centre_mm, 0.0,
                     std::max(axis.bore_mm / 2.0, kRounding_mm), plates.lower};
            for (const Item& item : all)
                if (item.axis == a) pin.span.top_mm = std::max(pin.span.top_mm, item.band.span.top_mm);
            cost += kBlocked * blocks(pin, a, plates.carrier, all);
        }
    }
    return cost;
}

// Coaxial members must lie in each other or beyond each other; each should reach the stand.
double Standing::shaft_cost(const std::vector<Item>& all) const {
    std::vector<Span> reach(train_.members.size(), {0.0, -1.0});
    for (const Item& item : all) {
        if (!item.central) continue;
        Span& span = reach[item.member.position()];
        const bool first = span.top_mm < span.bottom_mm;
        span.bottom_mm = first ? item.band.span.bottom_mm : std::min(span.bottom_mm, item.band.span.bottom_mm);
        span.top_mm = first ? item.band.span.top_mm : std::max(span.top_mm, item.band.span.top_mm);
    }
    double cost = 0.0;
    for (std::size_t m = 0; m < train_.members.size(); ++m) {
        const Span& own = reach[m];
        if (own.top_mm < own.bottom_mm) continue;
        const int axis = anatomy_.axis_of[m];
        const MemberIndex member{static_cast<std::int32_t>(m)};
        const bool on_frame = rides_on(train_, member) == kFrame;
        Band shaft =
            disc_of(member, std::max(anatomy_.axes[static_cast<std::size_t>(axis)].bore_mm / 2.0, kRounding_mm));
        shaft.span = own;
        cost += kBlocked * blocks(shaft, axis, member, all);
        shaft.span = {0.0, own.bottom_mm};
        if (on_frame) cost += kNoBearing * blocks(shaft, axis, member, all);
        for (const MemberIndex other : anatomy_.axes[static_cast<std::size_t>(axis)].members) {
            const Span& its = reach[other.position()];
            if (other == member || its.top_mm < its.bottom_mm) continue;
            const bool crossed = own.bottom_mm < its.bottom_mm && its.bottom_mm < own.top_mm && own.top_mm < its.top_mm;
            const bool around = its.bottom_mm < own.bottom_mm && own.top_mm < its.top_mm;
            cost += crossed ? kBlocked : on_frame && around ? kNoBearing : 0.0;
        }
    }
    return cost;
}

double Standing::ring_cost(const std::vector<Item>& all) const {
    double cost = 0.0;
    for (std::size_t g = 0; g < train_.gears.size(); ++g) {
        if (!train_.gears[g].internal) continue;
        const Item& ring = all[g];
        const SlotPlace& plate = plate_of_[ring.member.position()];
        if (plate.level >= 0) {
            cost += wall_cost(ring, slot_span(plate, false), all);
            continue;
        }
        const auto disc = std::ranges::find(stack_.discs, GearIndex{static_cast<std::int32_t>(g)}, &RingDisc::ring);
        if (disc != stack_.discs.end()) cost += wall_cost(ring, disc->span, all);
        if (disc == stack_.discs.end() && rides_on(train_, ring.member) == kFrame) cost += post_cost(ring, all);
    }
    return cost;
}

double Standing::wall_cost(const Item& ring, const Span& plate, const std::vector<Item>& all) const {
    Band wall = ring.band;
    const bool above = plate.bottom_mm > ring.band.span.top_mm;
    wall.span = above ? Span{ring.band.span.top_mm, plate.bottom_mm} : Span{plate.top_mm, ring.band.span.bottom_mm};
    double cost = above ? kHidden : 0.0;
    for (const Item& item : all)
        if (item.member != ring.member && can_meet(placement_, wall, item.band)) cost += kBlocked;
    return cost;
}

double Standing::post_cost(const Item& ring, const std::vector<Item>& all) const {
    constexpr double kPostOfReach = 1.1;
    Band posts{
        {-1}, ring.band.centre_mm, ring.band.outer_mm, kPostOfReach * ring.band.outer_mm, {0.0, ring.band.span.top_mm}};
    double cost = 0.0;
    for (const Item& item : all)
        if (item.member != ring.member && can_meet(placement_, posts, item.band)) cost += kNoPosts;
    return cost;
}

// Orders of the groups from the lowest up.
class Search {
  public:
    Search(const Train& train, const TrainTeeth& teeth, const Placement& placement, const Anatomy& anatomy)
        : train_(train),
          teeth_(teeth),
          placement_(placement),
          anatomy_(anatomy),
          groups_(mesh_groups(train, placement, anatomy)) {}

    Stack run() const {
        const int count = groups_.size();
        std::vector<int> order(static_cast<std::size_t>(count));
        std::iota(order.begin(), order.end(), 0);
        if (count <= 1 || std::ranges::all_of(groups_.excluded, [](const auto& list) { return list.empty(); }))
            return stand(order).stack();
        return count <= kMostOrdered ? best_of_all(order) : along_shared_members();
    }

  private:
    Standing stand(const std::vector<int>& order) const {
        return {train_, teeth_, placement_, anatomy_, groups_, order};
    }

    Stack best_of_all(std::vector<int> order) const {
        Stack best;
        double least = -1.0;
        do {
            const Standing standing = stand(order);
            const double cost = standing.cost();
            if (least >= 0.0 && cost >= least - kRounding_mm) continue;
            least = cost;
            best = standing.stack();
        } while (std::ranges::next_permutation(order).found);
        return best;
    }

    // From the first group on to those that share its members, or the other way up: carriers should lie above the gears
    // that they drive, since their plates are below their planets.
    Stack along_shared_members() const {
        std::vector<int> order = walk();
        std::vector<int> position(order.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            position[static_cast<std::size_t>(order[i])] = static_cast<int>(i);
        int upwards = 0;
        for (const MemberIndex carrier : anatomy_.carriers)
            for (const GearIndex gear : anatomy_.gears[carrier.position()])
                for (const int a : anatomy_.axes_on[carrier.position()])
                    for (const MemberIndex rider : anatomy_.axes[static_cast<std::size_t>(a)].members)
                        for (const GearIndex planet : anatomy_.gears[rider.position()])
                            upwards += position_of(position, planet) > position_of(position, gear) ? 1 : -1;
        if (upwards < 0) std::ranges::reverse(order);
        return stand(order).stack();
    }

    int position_of(const std::vector<int>& position, GearIndex gear) const {
        return position[static_cast<std::size_t>(groups_.groups_of[gear.position()].front())];
    }

    std::vector<int> walk() const {
        std::vector<int> order;
        std::vector<char> seen(groups_.gears.size(), 0);
        const auto take = [&](int group) {
            if (seen[static_cast<std::size_t>(group)] != 0) return;
            seen[static_cast<std::size_t>(group)] = 1;
            order.push_back(group);
        };
        std::size_t next = 0;
        for (int start = 0; start < groups_.size(); ++start) {
            take(start);
            for (; next < order.size(); ++next)
                for (const GearIndex gear : groups_.gears[static_cast<std::size_t>(order[next])])
                    for (const GearIndex sister : anatomy_.gears[train_[gear].member.position()])
                        for (const int group : groups_.groups_of[sister.position()]) take(group);
        }
        return order;
    }

    const Train& train_;
    const TrainTeeth& teeth_;
    const Placement& placement_;
    const Anatomy& anatomy_;
    MeshGroups groups_;
};

}  // namespace

int Stack::tier_at(double z_mm) const {
    const auto beyond = std::ranges::upper_bound(tiers, z_mm + kRounding_mm, {}, &Span::bottom_mm);
    return std::max(static_cast<int>(beyond - tiers.begin()), 1);
}

Stack stack_of(const Train& train, const TrainTeeth& teeth, const Placement& placement, const Anatomy& anatomy) {
    return Search(train, teeth, placement, anatomy).run();
}

Stack stack_of(const Train& train, const TrainTeeth& teeth, const Placement& placement) {
    return stack_of(train, teeth, placement, anatomy_of(train, teeth, placement));
}

}  // namespace couplet
