// Teeth as drawn: their outlines are the exact profiles, their flanks never overlap, their marks stand where the exact
// pose says.

#include <cmath>
#include <glm/geometric.hpp>
#include <numbers>

#include "place/placed_train.hpp"
#include "view/drawing.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr double kTurn = 2 * std::numbers::pi;

// Only some items of a picture, on nothing.
Picture only(Picture picture, const std::vector<std::size_t>& kept) {
    std::vector<PictureItem> items;
    for (const std::size_t i : kept) items.push_back(picture.items[i]);
    picture.items = std::move(items);
    picture.transparent = true;
    return picture;
}

// What stands there is opaque; the shadow on the bench never is.
bool is_solid(const Image& image, int x, int y) {
    return pixel_at(image, x, y).alpha > 250;
}

std::vector<glm::dvec2> pixels_of(const Picture& picture, const std::vector<PlanePoint>& outline, double turned_rad,
                                  glm::ivec2 size_px) {
    std::vector<glm::dvec2> result;
    for (const PlanePoint& p : outline) {
        const double c = std::cos(turned_rad);
        const double s = std::sin(turned_rad);
        result.push_back(place_in(picture, {c * p.x_mm - s * p.y_mm, s * p.x_mm + c * p.y_mm, 0.0}, size_px));
    }
    return result;
}

// Which pixels' centres lie inside a closed line (even and odd crossings), and which so near to it that they may go
// either way.
class Coverage {
  public:
    Coverage(const std::vector<glm::dvec2>& outline, glm::ivec2 size_px, double near_px)
        : size_(size_px), inside_(count(), 0), near_(count(), 0) {
        for (std::size_t i = 0; i < outline.size(); ++i) add(outline[i], outline[(i + 1) % outline.size()], near_px);
        each_pixel(size_px, [&](int x, int y) {
            if (x > 0) inside_[at(x, y)] = static_cast<char>(inside_[at(x, y)] ^ inside_[at(x - 1, y)]);
        });
    }
    [[nodiscard]] bool inside(int x, int y) const { return inside_[at(x, y)] != 0; }
    [[nodiscard]] bool near(int x, int y) const { return near_[at(x, y)] != 0; }

  private:
    [[nodiscard]] std::size_t count() const {
        return static_cast<std::size_t>(size_.x) * static_cast<std::size_t>(size_.y);
    }
    [[nodiscard]] std::size_t at(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.x) + static_cast<std::size_t>(x);
    }
    // Each row that the line crosses is toggled from the crossing on.
    void add(const glm::dvec2& a, const glm::dvec2& b, double near_px) {
        for (int y = std::max(0, static_cast<int>(std::min(a.y, b.y)) - 2);
             y < std::min(size_.y, static_cast<int>(std::max(a.y, b.y)) + 3); ++y) {
            const double row = y + 0.5;
            if ((a.y <= row) != (b.y <= row)) {
                const double crossing = a.x + (row - a.y) / (b.y - a.y) * (b.x - a.x);
                const int first = std::max(0, static_cast<int>(std::ceil(crossing - 0.5)));
                if (first < size_.x) inside_[at(first, y)] = static_cast<char>(inside_[at(first, y)] ^ 1);
            }
            for (int x = std::max(0, static_cast<int>(std::min(a.x, b.x)) - 2);
                 x < std::min(size_.x, static_cast<int>(std::max(a.x, b.x)) + 3); ++x) {
                const glm::dvec2 centre(x + 0.5, row);
                const double part = std::clamp(glm::dot(centre - a, b - a) / glm::dot(b - a, b - a), 0.0, 1.0);
                if (glm::distance(centre, a + part * (b - a)) <= near_px) near_[at(x, y)] = 1;
            }
        }
    }

    glm::ivec2 size_;
    std::vector<char> inside_;
    std::vector<char> near_;
};

Picture part_alone(const Shape& shape, double turned_rad, double shown_mm) {
    Picture picture;
    picture.shapes = std::make_shared<const std::vector<Shape>>(std::vector{shape});
    PictureItem item;
    const auto c = static_cast<float>(std::cos(turned_rad));
    const auto s = static_cast<float>(std::sin(turned_rad));
    item.observer_from_part =
        glm::mat4(glm::vec4(c, s, 0, 0), glm::vec4(-s, c, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(0, 0, 0, 1));
    picture.items = {item};
    picture.camera = from_above({}, shown_mm);
    picture.bounds = {{0, 0, 5}, 0.5 * shown_mm, 6.0};
    picture.bench_mm = -1.0F;
    picture.transparent = true;
    return picture;
}

struct Disagreement {
    int pixels = 0;     // that do not agree with the outline
    int undecided = 0;  // within a pixel of it
    int solid = 0;
};

class Silhouette : public DrawingTest {
  protected:
    // Against the outline of `profile` turned by `expected_rad`.
    static Disagreement disagreement(const Shape& shape, const ToothProfile& profile, double turned_rad,
                                     double expected_rad) {
        constexpr glm::ivec2 kSize(220, 220);
        const bool internal = profile.sizes.spec.internal;
        const double outside = internal ? std::get<RingShape>(shape).outside_mm : profile.sizes.tip_diameter_mm;
        const Picture picture = part_alone(shape, turned_rad, 1.05 * outside);
        const Image image = drawn(picture, kPlainQuality, kSize);
        const Coverage teeth(pixels_of(picture, gear_polygon(profile, 1e-3), expected_rad, kSize), kSize, 1.0);
        std::vector<PlanePoint> circle;
        for (int i = 0; i < 2000; ++i)
            circle.push_back({0.5 * outside * std::cos(kTurn * i / 2000), 0.5 * outside * std::sin(kTurn * i / 2000)});
        const Coverage rim(pixels_of(picture, circle, 0.0, kSize), kSize, 1.0);
        Disagreement found;
        each_pixel(kSize, [&](int x, int y) {
            const bool expected = internal ? rim.inside(x, y) && !teeth.inside(x, y) : teeth.inside(x, y);
            const bool near = teeth.near(x, y) || (internal && rim.near(x, y));
            found.undecided += near ? 1 : 0;
            found.pixels += !near && is_solid(image, x, y) != expected ? 1 : 0;
            found.solid += is_solid(image, x, y) ? 1 : 0;
        });
        return found;
    }

    static Shape shape_of(const ToothProfile& profile) {
        if (!profile.sizes.spec.internal) return GearShape{profile, 10.0, 0.3, 0, 0, 10.0};
        RingShape ring{profile, 10.0, 0.3};
        ring.outside_mm = profile.sizes.root_diameter_mm + 20.0;
        return ring;
    }
};

ToothProfile profile_with(int teeth, bool internal, double shift = 0.0) {
    GearSpec spec;
    spec.teeth = teeth;
    spec.internal = internal;
    spec.module_mm = 3.0;
    spec.rack = iso_53_rack('A').value();
    spec.shift = shift;
    spec.face_width_mm = 10.0;
    return profile_of(sizes_of(spec)).profile.value();
}

TEST_F(Silhouette, IsTheExactProfile) {
    const ToothProfile profiles[] = {profile_with(21, false), profile_with(9, false, 0.1), profile_with(12, false, 0.5),
                                     profile_with(48, true), profile_with(30, true, 0.2)};
    for (const ToothProfile& profile : profiles)
        for (const double turned : {0.0, 0.1, 1.7}) {
            const Disagreement found = disagreement(shape_of(profile), profile, turned, turned);
            EXPECT_EQ(found.pixels, 0) << profile.sizes.spec.teeth << " teeth, turned by " << turned;
            EXPECT_GT(found.solid, 5000);
            EXPECT_LT(found.undecided, found.solid);
        }
}

// What the comparison above can tell: a turn of a quarter of a tooth, a shift of a tenth, one tooth more.
TEST_F(Silhouette, TellsSmallMistakes) {
    const ToothProfile profile = profile_with(21, false);
    EXPECT_GT(disagreement(shape_of(profile), profile, 0.0, kTurn / 21 / 4).pixels, 20);
    EXPECT_GT(disagreement(shape_of(profile_with(21, false, 0.3)), profile, 0.0, 0.0).pixels, 20);
    EXPECT_GT(disagreement(shape_of(profile_with(20, false)), profile, 0.0, 0.0).pixels, 100);
}

class Flanks : public DrawingTest {
  protected:
    // Pixels of a close look at a mesh that both gears fill, with the second gear turned a little further.
    static int overlap(const ShownScene& scene, const PlacedMesh& placed, const Ratio& instant, double further_rad) {
        constexpr glm::ivec2 kSize(160, 160);
        const Mesh& mesh = scene.stage.train[placed.mesh];
        const MeshSizes& sizes = scene.stage.teeth.meshes[placed.mesh.position()];
        const Standing standing = scene.after(instant);
        const glm::dvec2 first = standing.frame_from_place[placed.first.position()][3];
        const glm::dvec2 second = standing.frame_from_place[placed.second.position()][3];
        const bool swapped = external_gear_of(scene.stage.train, mesh) != mesh.first;
        const bool internal = scene.stage.train[mesh.first].internal || scene.stage.train[mesh.second].internal;
        const glm::dvec2 from = swapped ? second : first;
        const glm::dvec2 towards = glm::normalize((swapped ? first : second) - from);
        const double radius = 0.5 * sizes.pair->first_operating_diameter_mm;
        const double module = scene.stage.teeth.gears[mesh.first.position()].spec.module_mm;
        const Picture all =
            scene.picture({}, instant, from_above(from + towards * (internal ? -radius : radius), 9.0 * module));
        std::vector<Image> images;
        for (const auto& [gear, place] : {std::pair(mesh.first, placed.first), {mesh.second, placed.second}}) {
            Picture alone = only(all, {item_of(scene, gear, place)});
            if (gear == mesh.second) alone.items[0].observer_from_part = turned_on(alone.items[0], further_rad);
            images.push_back(drawn(alone, kPlainQuality, kSize));
        }
        int both = 0;
        int one = 0;
        each_pixel(kSize, [&](int x, int y) {
            const bool a = is_solid(images[0], x, y);
            const bool b = is_solid(images[1], x, y);
            both += a && b ? 1 : 0;
            one += a != b ? 1 : 0;
        });
        EXPECT_GT(one, kSize.x * kSize.y / 2) << "both gears are in the picture";
        return both;
    }

    // How far the second gear may turn either way before flanks touch.
    static double play_rad(const ShownScene& scene, const PlacedMesh& placed) {
        const Mesh& mesh = scene.stage.train[placed.mesh];
        const PairSizes& pair = scene.stage.teeth.meshes[placed.mesh.position()].pair.value();
        const bool swapped = external_gear_of(scene.stage.train, mesh) != mesh.first;
        return 0.5 * (swapped ? pair.first_backlash_rad : pair.second_backlash_rad);
    }

  private:
    static std::size_t item_of(const ShownScene& scene, GearIndex gear, PlaceIndex place) {
        const std::vector<Part>& parts = scene.stage.machine.parts;
        return static_cast<std::size_t>(
            std::ranges::find_if(parts, [&](const Part& p) { return p.gear == gear && p.place == place; }) -
            parts.begin());
    }
    static glm::mat4 turned_on(const PictureItem& item, double angle_rad) {
        const auto c = static_cast<float>(std::cos(angle_rad));
        const auto s = static_cast<float>(std::sin(angle_rad));
        return item.observer_from_part *
               glm::mat4(glm::vec4(c, s, 0, 0), glm::vec4(-s, c, 0, 0), glm::vec4(0, 0, 1, 0), glm::vec4(0, 0, 0, 1));
    }
};

// Every mesh of these scenes has play and straight teeth; helical ones show both of their ends from above.
TEST_F(Flanks, NeverOverlap) {
    for (const char* name : {"harbour_capstan", "tide_dial", "two_crew_hoist", "launch_winch", "dry_dock_pump"}) {
        const ShownScene scene = shown_scene(name);
        for (const PlacedMesh& placed : scene.stage.placement.meshes)
            for (const Ratio& instant : {Ratio(0), Ratio(1, 97), Ratio(17, 43)})
                EXPECT_EQ(overlap(scene, placed, instant, 0.0), 0)
                    << name << ", mesh " << placed.mesh.value << ", copy " << placed.copy << " after "
                    << instant.to_string() << " turns";
    }
}

TEST_F(Flanks, OverlapWhereAGearIsTurnedThroughItsPlay) {
    const ShownScene scene = shown_scene("harbour_capstan");
    for (const PlacedMesh& placed : scene.stage.placement.meshes)
        for (const double sense : {-1.0, 1.0}) {
            const double play = play_rad(scene, placed);
            EXPECT_EQ(overlap(scene, placed, Ratio(1, 97), sense * 0.9 * play), 0);
            EXPECT_GT(overlap(scene, placed, Ratio(1, 97), sense * 3.0 * play), 3);
        }
}

// The scene says of itself that it cannot be assembled.
TEST_F(Flanks, OverlapWhereATrainDoesNotAssemble) {
    const ShownScene scene = shown_scene("misfit_mooring");
    int overlapping = 0;
    for (const PlacedMesh& placed : scene.stage.placement.meshes)
        overlapping += overlap(scene, placed, Ratio(0), 0.0) > 50 ? 1 : 0;
    EXPECT_GE(overlapping, 4) << "the planets after the first";
}

class ToothMark : public DrawingTest {
  protected:
    // The middle of the mark on a gear's upper face, from the axis along the marked tooth.
    static double radius_mm(const Shape& shape) {
        const Solid solid = solid_of(shape, 0.01);
        double sum = 0.0;
        double area = 0.0;
        for (const auto& triangle : solid.triangles) {
            const auto& a = solid.vertices[triangle[0]];
            const auto& b = solid.vertices[triangle[1]].position_mm;
            const auto& c = solid.vertices[triangle[2]].position_mm;
            if (a.surface != Surface::mark || a.normal[2] < 0.5F) continue;
            const auto& p = a.position_mm;
            const double twice = (b[0] - p[0]) * (c[1] - p[1]) - (b[1] - p[1]) * (c[0] - p[0]);
            sum += twice * (p[0] + b[0] + c[0]) / 3;
            area += twice;
        }
        EXPECT_GT(area, 0.0) << "the gear has a mark";
        return sum / area;
    }
};

// Turns for one of the crank, ring held: planet -7/16, drum 7/30 (stage_test.cpp, by the tabular method).
TEST_F(ToothMark, IsWhereTheExactPoseSays) {
    constexpr glm::ivec2 kSize(96, 96);
    const ShownScene scene = shown_scene("harbour_capstan");
    const std::vector<double>& directions = scene.stage.placement.direction_turns;
    StageLook bare;
    bare.marks = false;
    for (const Ratio& instant : {Ratio(0), Ratio(1, 3), Ratio(-77, 10), Ratio(2880001, 3)})
        for (std::size_t i = 0; i < scene.stage.machine.parts.size(); ++i) {
            const Part& part = scene.stage.machine.parts[i];
            if (part.gear.position() >= scene.stage.train.gears.size()) continue;
            const Place& place = scene.stage.placement[part.place];
            const std::string& name = scene.stage.train[place.member].name;
            const Ratio member_turns = name == "crank"    ? instant
                                       : name == "planet" ? instant * Ratio(-7, 16)
                                                          : Ratio(0);
            const double tooth_rad = kTurn * (scene.stage.rotations.of(part.gear, part.place).tooth.value(directions) +
                                              member_turns.fraction().to_double());
            const double centre_rad =
                kTurn * ((place.copy - 1) / 3.0 + (instant * Ratio(7, 30)).fraction().to_double());
            const double arm_mm = name == "planet" ? 67.5 : 0.0;
            const double out_mm = radius_mm(scene.stage.machine.shapes[part.shape]);
            const glm::dvec2 expected_mm(arm_mm * std::cos(centre_rad) + out_mm * std::cos(tooth_rad),
                                         arm_mm * std::sin(centre_rad) + out_mm * std::sin(tooth_rad));
            // Off the middle, so that a mark always drawn in the middle is none.
            const Camera camera = from_above(expected_mm + glm::dvec2(2.0, -1.0), 16.0);
            const Picture marked = only(scene.picture({}, instant, camera), {i});
            const Image with = drawn(marked, kPlainQuality, kSize);
            const Image without = drawn(only(scene.picture(bare, instant, camera), {i}), kPlainQuality, kSize);
            glm::dvec2 sum(0.0);
            int count = 0;
            each_pixel(kSize, [&](int x, int y) {
                if (pixel_at(with, x, y).difference(pixel_at(without, x, y)) < 40) return;
                sum += glm::dvec2(x + 0.5, y + 0.5);
                ++count;
            });
            const std::string where = name + " " + std::to_string(place.copy) + " after " + instant.to_string();
            ASSERT_GT(count, 60) << where;
            const glm::dvec2 expected = place_in(marked, {expected_mm, 0.0}, kSize);
            EXPECT_LT(glm::distance(sum / static_cast<double>(count), expected), 1.0) << where;
            const Pixel enamel = pixel_at(with, static_cast<int>(expected.x), static_cast<int>(expected.y));
            const Pixel metal = pixel_at(without, static_cast<int>(expected.x), static_cast<int>(expected.y));
            EXPECT_GT(enamel.blue, enamel.red) << where << ": blue enamel";
            EXPECT_GE(metal.red, metal.blue) << where << ": brass, bronze or steel";
        }
}

TEST_F(ToothMark, IsOnOneToothOnly) {
    constexpr glm::ivec2 kSize(300, 300);
    const ShownScene scene = shown_scene("harbour_capstan");
    StageLook bare;
    bare.marks = false;
    const Camera camera = camera_for(scene.stage, {}, NamedView::top, 1.0);
    const Image with = drawn(scene.picture({}, 0, camera), kPlainQuality, kSize);
    const Image without = drawn(scene.picture(bare, 0, camera), kPlainQuality, kSize);
    int changed = 0;
    each_pixel(kSize,
               [&](int x, int y) { changed += pixel_at(with, x, y).difference(pixel_at(without, x, y)) > 40 ? 1 : 0; });
    const double mm_per_px = height_at_target_mm(camera) / kSize.y;
    EXPECT_GT(changed, 5);
    // Five marks no longer than a tooth is high and no wider than a third of one, and a pixel round each.
    EXPECT_LT(changed, 5 * (6.75 / mm_per_px + 2) * (1.6 / mm_per_px + 2));
}

}  // namespace
}  // namespace couplet
