// What stands still: posts under rings, bearings round shafts, the base and its feet; and the bounds of it all.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "solid/gear_shapes.hpp"
#include "solid/workshop.hpp"

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;
constexpr double kFlare = 0.25;     // of a post under its collar, x its radius
constexpr double kPedestal = 1.15;  // of a post below its ring, x its radius beside it

struct Disc {
    PlanePoint centre;
    double radius_mm;
};

struct Bounds {
    double left = 0.0, right = 0.0, low = 0.0, high = 0.0;
    bool any = false;

    void include(const Disc& disc) {
        const auto [centre, radius] = disc;
        left = any ? std::min(left, centre.x_mm - radius) : centre.x_mm - radius;
        right = any ? std::max(right, centre.x_mm + radius) : centre.x_mm + radius;
        low = any ? std::min(low, centre.y_mm - radius) : centre.y_mm - radius;
        high = any ? std::max(high, centre.y_mm + radius) : centre.y_mm + radius;
        any = true;
    }
};

class Stand {
  public:
    explicit Stand(Workshop& shop) : shop_(shop) {}

    void run() {
        collect_reaches();
        set_bounds();
        add_posts();
        add_bearings();
        add_base();
        set_top();
    }

  private:
    Machine& machine() { return shop_.machine; }

    void collect_reaches() {
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(shop_.train.gears.size()); ++g)
            for (const PlaceIndex place : shop_.places_of(shop_.train[GearIndex{g}].member)) {
                const Band& own = shop_.anatomy.bands[static_cast<std::size_t>(g)];
                reach(shop_.band(place, 0.0, own.outer_mm, own.span));
            }
        for (const CarrierPlates& plates : machine().stack.carriers)
            for (const PlaceIndex place : shop_.places_of(plates.carrier))
                reach(shop_.band(place, 0.0, shop_.anatomy.plate_reach_mm(plates.carrier), plates.lower));
    }

    // Of copies that sweep the same, one.
    void reach(const Band& band) {
        const Band swept = swept_on_frame(shop_.placement, band);
        const Disc disc{swept.centre_mm, swept.outer_mm};
        if (!reaches_.empty() && reaches_.back().centre.x_mm == disc.centre.x_mm &&
            reaches_.back().centre.y_mm == disc.centre.y_mm) {
            reaches_.back().radius_mm = std::max(reaches_.back().radius_mm, disc.radius_mm);
            return;
        }
        reaches_.push_back(disc);
    }

    void set_bounds() {
        Bounds bounds;
        for (const Disc& disc : reaches_) {
            bounds.include(disc);
            widest_mm_ = std::max(widest_mm_, disc.radius_mm);
        }
        machine().middle_mm = {(bounds.left + bounds.right) / 2.0, (bounds.low + bounds.high) / 2.0};
        for (const Disc& disc : reaches_)
            machine().radius_mm = std::max(
                machine().radius_mm,
                std::hypot(disc.centre.x_mm - machine().middle_mm.x_mm, disc.centre.y_mm - machine().middle_mm.y_mm) +
                    disc.radius_mm);
    }

    [[nodiscard]] Band still(const PlanePoint& centre, double inner_mm, double outer_mm, const Span& span) const {
        return {{-1}, centre, inner_mm, outer_mm, span};
    }

    void put(std::size_t shape, const PlanePoint& at, const Band& taken, bool opens, int layer) {
        shop_.add({shape, {-1}, {}, PartRole::stand, taken.span.bottom_mm, 0.0, at, opens, layer}, taken);
    }

    // Rings on the frame that no shaft carries.
    void add_posts() {
        int set = 0;
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(shop_.train.gears.size()); ++g) {
            const GearIndex gear{g};
            const MemberIndex member = shop_.train[gear].member;
            if (!shop_.train[gear].internal || rides_on(shop_.train, member) != kFrame) continue;
            const std::optional<Sleeve>& sleeve = shop_.sleeves[member.position()];
            if (sleeve && sleeve->reaches_bearing) continue;
            for (const PlaceIndex place : shop_.places_of(member)) add_posts_round(gear, place, set);
            ++set;
        }
    }

    struct Post {
        double shank_mm;   // radius
        double collar_mm;  // radius: reaches under the ring and over it
        double circle_mm;  // radius of the circle that the posts stand on
        double head_mm;    // height of the part over the ring; 0: none
    };

    void add_posts_round(GearIndex gear, PlaceIndex place, int set) {
        const GearSizes& sizes = shop_.teeth.gears[gear.position()];
        const double outside = reach_of(sizes).outer_mm;
        const double shank = std::clamp(0.035 * outside, 0.6 * sizes.spec.module_mm, 2.5 * sizes.spec.module_mm);
        const double overlap = 0.8 * sizes.spec.module_mm;
        const double head = 0.45 * machine().stack.gap_mm;
        constexpr std::array<double, 7> kWider{1.0, 1.06, 1.12, 1.18, 1.25, 1.33, 1.42};
        constexpr std::array<double, 4> kFirstAt{0.125, 0.0, 0.0625, 0.1875};
        for (const double wider : kWider) {
            const double circle = wider * (outside + kPedestal * shank + shop_.least_gap_mm());
            for (const double post_head : {head, 0.0}) {
                const Post post{shank, circle - outside + overlap, circle, post_head};
                for (std::size_t k = 0; k < kFirstAt.size(); ++k) {
                    const double first = kFirstAt[(k + static_cast<std::size_t>(set)) % kFirstAt.size()];
                    if (stand_posts(gear, place, post, first)) return;
                }
            }
        }
    }

    bool stand_posts(GearIndex gear, PlaceIndex place, const Post& post, double first_turns) {
        const Span ring = machine().stack.gears[gear.position()];
        const double under = std::min(0.6 * machine().stack.gap_mm, 0.3 * ring.bottom_mm);
        const Span shank{0.0, ring.top_mm + post.head_mm};
        const Span collar{ring.bottom_mm - under, ring.bottom_mm};
        const Span flare{collar.bottom_mm - kFlare * post.shank_mm, collar.top_mm};
        const Span head{ring.top_mm, ring.top_mm + post.head_mm};
        std::vector<PlanePoint> feet;
        for (int k = 0; k < 4; ++k) {
            const double at = kTurn * (first_turns + k / 4.0);
            const PlanePoint& centre = shop_.placement[place].centre_mm;
            const PlanePoint foot{centre.x_mm + post.circle_mm * std::cos(at),
                                  centre.y_mm + post.circle_mm * std::sin(at)};
            if (!shop_.around.is_clear(still(foot, 0.0, post.shank_mm, shank)) ||
                !shop_.around.is_clear(still(foot, 0.0, kPedestal * post.shank_mm, {0.0, collar.top_mm})) ||
                !shop_.around.is_clear(still(foot, 0.0, post.collar_mm, flare)) ||
                !shop_.around.is_clear(still(foot, 0.0, post.collar_mm, head)))
                return false;
            feet.push_back(foot);
        }
        has_posts_ = true;
        const std::size_t shape = shop_.add_shape(post_shape(post, collar, shank, ring));
        for (const PlanePoint& foot : feet) {
            put(shape, foot, still(foot, 0.0, kPedestal * post.shank_mm, shank), false, 0);
            shop_.around.add(still(foot, 0.0, post.collar_mm, flare));
            shop_.around.add(still(foot, 0.0, post.collar_mm, head));
            reaches_.push_back({foot, 1.9 * post.shank_mm});
        }
        return true;
    }

    static TurnedShape post_shape(const Post& post, const Span& collar, const Span& shank, const Span& ring) {
        const double r = post.shank_mm;
        const double c = 0.18 * (collar.top_mm - collar.bottom_mm);
        const double foot = std::min(1.2 * r, 0.25 * collar.bottom_mm);
        TurnedShape shape;
        shape.outline = {{0.0, 0.0},
                         {1.7 * r, 0.0},
                         {1.7 * r, 0.5 * foot},
                         {kPedestal * r, foot},
                         {kPedestal * r, collar.bottom_mm - kFlare * r},
                         {post.collar_mm - c, collar.bottom_mm},
                         {post.collar_mm, collar.bottom_mm + c},
                         {post.collar_mm, collar.top_mm},
                         {r, collar.top_mm}};
        if (post.head_mm > 0.0) {
            shape.outline.push_back({r, ring.top_mm});
            shape.outline.push_back({post.collar_mm, ring.top_mm});
            shape.outline.push_back({post.collar_mm, ring.top_mm + 0.6 * post.head_mm});
            shape.outline.push_back({post.collar_mm - 0.4 * post.head_mm, shank.top_mm});
        } else {
            shape.outline.push_back({r, shank.top_mm - 0.2 * r});
            shape.outline.push_back({0.8 * r, shank.top_mm});
        }
        shape.outline.push_back({0.0, shank.top_mm});
        return shape;
    }

    // Round the outermost shaft of each axis of the frame.
    void add_bearings() {
        for (const Axis& axis : shop_.anatomy.axes) {
            if (axis.carrier != kFrame) continue;
            const Sleeve* outermost = nullptr;
            double lowest = machine().stack.top_mm;
            for (const MemberIndex member : axis.members) {
                const std::optional<Sleeve>& sleeve = shop_.sleeves[member.position()];
                if (!sleeve) continue;
                if (sleeve->reaches_bearing && (outermost == nullptr || sleeve->outer_mm > outermost->outer_mm))
                    outermost = &*sleeve;
            }
            if (outermost == nullptr) continue;
            for (const Span& tier : machine().stack.tiers) lowest = std::min(lowest, tier.bottom_mm);
            for (const PlaceIndex place : shop_.places_of(axis.guide))
                add_bearing(shop_.placement[place].centre_mm, outermost->outer_mm, lowest);
        }
    }

    void add_bearing(const PlanePoint& centre, double shaft_mm, double lowest_mm) {
        const double bore = shaft_mm + shop_.least_gap_mm();
        const double height = 0.62 * lowest_mm;
        for (const double wider : {1.0, 0.6, 0.3}) {
            const double tube = bore + wider * std::max(0.42 * shaft_mm, 0.12 * lowest_mm);
            const double flange = tube + wider * 0.5 * shaft_mm;
            const Band taken = still(centre, bore, flange, {0.0, height});
            if (!shop_.around.is_clear(taken)) continue;
            TurnedShape boss;
            boss.bore_mm = 2.0 * bore;
            const double step = 0.3 * height;
            boss.outline = {{bore, 0.0},
                            {flange, 0.0},
                            {flange, 0.8 * step},
                            {flange - 0.2 * step, step},
                            {tube, step},
                            {tube, 0.93 * height},
                            {tube - 0.4 * (tube - bore), height},
                            {bore, height}};
            put(shape_like(boss), centre, taken, false, 0);
            reaches_.push_back({centre, flange});
            return;
        }
    }

    // Bearings of a chain are mostly alike.
    std::size_t shape_like(const TurnedShape& shape) {
        for (const std::size_t known : bosses_) {
            const auto& other = std::get<TurnedShape>(machine().shapes[known]);
            if (other.bore_mm == shape.bore_mm && other.outline == shape.outline) return known;
        }
        bosses_.push_back(shop_.add_shape(shape));
        return bosses_.back();
    }

    // The discs that the hull of all reaches touches.
    [[nodiscard]] std::vector<Disc> outline_of_reaches() const {
        constexpr int kDirections = 48;
        std::vector<std::size_t> chosen;
        for (int k = 0; k < kDirections; ++k) {
            const PlanePoint way{std::cos(kTurn * k / kDirections), std::sin(kTurn * k / kDirections)};
            const auto support = [&](const Disc& disc) {
                return disc.centre.x_mm * way.x_mm + disc.centre.y_mm * way.y_mm + disc.radius_mm;
            };
            const auto furthest = std::ranges::max_element(reaches_, {}, support);
            chosen.push_back(static_cast<std::size_t>(furthest - reaches_.begin()));
        }
        std::ranges::sort(chosen);
        chosen.erase(std::unique(chosen.begin(), chosen.end()), chosen.end());
        std::vector<Disc> discs;
        for (const std::size_t i : chosen) discs.push_back(reaches_[i]);
        return discs;
    }

    // One axis has a round base; a chain, a plate along it.
    void add_base() {
        if (reaches_.empty()) return;
        constexpr double kThicknessOfReach = 0.075;
        constexpr double kMarginOfReach = 0.07;
        const double thickness = kThicknessOfReach * widest_mm_;
        const double margin = kMarginOfReach * widest_mm_;
        std::vector<Disc> discs = outline_of_reaches();
        constexpr double kWithoutPosts = 0.85;  // what turns may stand out over the base
        if (is_one_axis()) discs = {{reaches_.front().centre, (has_posts_ ? 1.0 : kWithoutPosts) * one_axis_radius()}};
        PlateShape base;
        base.thickness_mm = thickness;
        base.chamfer_mm = 0.14 * thickness;
        for (const Disc& disc : discs) base.lobes.push_back({disc.centre, 2.0 * (disc.radius_mm + margin)});
        const double foot = 0.45 * thickness;
        machine().bottom_mm = -thickness - foot;
        machine().parts.push_back({shop_.add_shape(base), {-1}, {}, PartRole::stand, -thickness, 0.0, {}, false, 0});
        add_feet(discs, margin, foot);
    }

    [[nodiscard]] bool is_one_axis() const {
        int axes = 0;
        for (const Axis& axis : shop_.anatomy.axes) axes += axis.carrier == kFrame ? shop_.train[axis.guide].copies : 0;
        return axes == 1;
    }

    [[nodiscard]] double one_axis_radius() const {
        double radius = 0.0;
        const PlanePoint& centre = reaches_.front().centre;
        for (const Disc& disc : reaches_)
            radius = std::max(
                radius, std::hypot(disc.centre.x_mm - centre.x_mm, disc.centre.y_mm - centre.y_mm) + disc.radius_mm);
        return radius;
    }

    void add_feet(const std::vector<Disc>& discs, double margin_mm, double height_mm) {
        const double radius = 1.1 * height_mm + 0.5 * margin_mm;
        const std::size_t shape = shop_.add_shape(turned_bar(radius, height_mm, 0.15 * height_mm));
        for (int k = 0; k < 4; ++k) {
            const double at = kTurn * (k + 0.5) / 4.0;
            const PlanePoint way{std::cos(at), std::sin(at)};
            const auto furthest = std::ranges::max_element(discs, {}, [&](const Disc& disc) {
                return disc.centre.x_mm * way.x_mm + disc.centre.y_mm * way.y_mm + disc.radius_mm;
            });
            const double out = std::max(furthest->radius_mm + margin_mm - 1.3 * radius, 0.0);
            const PlanePoint foot{furthest->centre.x_mm + out * way.x_mm, furthest->centre.y_mm + out * way.y_mm};
            machine().parts.push_back({shape, {-1}, {}, PartRole::stand, machine().bottom_mm, 0.0, foot, false, 0});
        }
    }

    void set_top() {
        machine().top_mm = machine().stack.top_mm;
        for (const Part& part : machine().parts) {
            const Shape& shape = machine().shapes[part.shape];
            double height = 0.0;
            if (const auto* turned = std::get_if<TurnedShape>(&shape))
                for (const TurnedShape::Corner& corner : turned->outline) height = std::max(height, corner.z_mm);
            machine().top_mm = std::max(machine().top_mm, part.z_mm + height);
        }
    }

    Workshop& shop_;
    std::vector<Disc> reaches_;
    std::vector<std::size_t> bosses_;
    double widest_mm_ = 0.0;
    bool has_posts_ = false;
};

}  // namespace

void add_stand(Workshop& shop) {
    Stand(shop).run();
}

}  // namespace couplet
