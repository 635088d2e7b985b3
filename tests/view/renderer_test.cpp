#include "view/renderer.hpp"

#include <cmath>
#include <glm/geometric.hpp>
#include <set>

#include "view/drawing.hpp"
#include "view/shown_scene.hpp"
#include "view/text.hpp"

namespace couplet {
namespace {

constexpr Quality kLight = kLightQuality;
// All effects, with a shadow map that suits small pictures.
constexpr Quality kFull = [] {
    Quality quality = kFullQuality;
    quality.shadow_map = 512;
    return quality;
}();

class RendererTest : public DrawingTest {
  protected:
    static const ShownScene& capstan() {
        static const ShownScene scene = shown_scene("harbour_capstan");
        return scene;
    }
    // The box round the pixels in which two pictures of one size differ.
    struct Changed {
        int left = 1 << 20;
        int top = 1 << 20;
        int right = -1;  // the last one
        int bottom = -1;
        int pixels = 0;
    };
    static Changed changed(const Image& a, const Image& b, int least = 3) {
        Changed box;
        each_pixel({a.width, a.height}, [&](int x, int y) {
            if (pixel_at(a, x, y).difference(pixel_at(b, x, y)) < least) return;
            box.left = std::min(box.left, x);
            box.right = std::max(box.right, x);
            box.top = std::min(box.top, y);
            box.bottom = std::max(box.bottom, y);
            ++box.pixels;
        });
        return box;
    }
};

using DrawnPicture = RendererTest;

// The driver's errors fail every test of this fixture (drawing.hpp); this one goes through all combinations.
TEST_F(DrawnPicture, MakesNoErrorInAnyLook) {
    for (const char* name : {"harbour_capstan", "fog_horn_blower", "tide_dial"}) {
        const ShownScene scene = shown_scene(name);
        for (unsigned way = 0; way < 48; ++way) {
            StageLook look;
            look.look = std::array{Look::metal, Look::clay, Look::line}[way % 3];
            look.cutaway = (way / 3 & 1U) != 0;
            look.spread = (way / 3 & 2U) != 0 ? 0.7 : 0.0;
            look.transparent = (way / 3 & 4U) != 0;
            const bool overlays = (way / 3 & 8U) != 0;
            look.pitch_circles = look.centre_lines = look.arrows = look.contacts = look.names = overlays;
            const Picture picture = scene.picture(look, Ratio(1, 9), NamedView::iso, 16.0 / 9);
            for (const Quality& quality : {kFull, kLight}) {
                const Image image = drawn(picture, quality, {64, 36});
                std::set<std::uint8_t> levels(image.rgba.begin(), image.rgba.end());
                EXPECT_GT(levels.size(), 2U) << name << ", way " << way << ": something is there";
            }
        }
    }
}

TEST_F(DrawnPicture, TakesOddAndTinySizes) {
    for (const glm::ivec2 size : {glm::ivec2(17, 16), {16, 17}, {1, 1}, {333, 7}, {64, 64}})
        for (const bool transparent : {false, true}) {
            StageLook look;
            look.transparent = transparent;
            look.names = true;
            const Image image = drawn(capstan().picture(look, 0), kFull, size);
            EXPECT_EQ(image.width, size.x);
            EXPECT_EQ(image.height, size.y);
            EXPECT_EQ(image.rgba.size(), static_cast<std::size_t>(size.x) * static_cast<std::size_t>(size.y) * 4);
        }
}

TEST_F(DrawnPicture, IsOpaqueUnlessAskedOtherwise) {
    for (const Look look : {Look::metal, Look::clay, Look::line}) {
        StageLook shown;
        shown.look = look;
        const Image image = drawn(capstan().picture(shown, 0), kFull, {64, 36});
        each_pixel({64, 36}, [&](int x, int y) { ASSERT_EQ(pixel_at(image, x, y).alpha, 255); });
    }
}

// Whatever was uploaded, sized or bound for other pictures leaves no trace. (Labels keep their side on purpose.)
TEST_F(DrawnPicture, IsTheSameWhateverWasDrawnBefore) {
    StageLook look;
    look.contacts = look.pitch_circles = true;
    const Picture picture = capstan().picture(look, Ratio(1, 3), NamedView::iso, 16.0 / 9);
    const Image first = drawn(picture, kFull, {160, 90});
    StageLook other;
    other.look = Look::line;
    other.cutaway = other.transparent = other.names = true;
    (void)drawn(shown_scene("tide_dial").picture(other, 0), kLight, {50, 70});
    (void)drawn(capstan().picture(other, 0), kFull, {200, 20});
    EXPECT_EQ(drawn(picture, kFull, {160, 90}), first);
}

// All joints of the capstan are back after 240 turns of the crank (stage_test.cpp).
TEST_F(DrawnPicture, IsTheSameAfterAMillionTurns) {
    StageLook look;
    look.contacts = true;
    const Image now = drawn(capstan().picture(look, Ratio(17, 7)), kFull, {160, 160});
    EXPECT_EQ(drawn(capstan().picture(look, Ratio(17, 7) + Ratio(240 * 4167)), kFull, {160, 160}), now);
    EXPECT_GT(changed(drawn(capstan().picture(look, Ratio(17, 7) + Ratio(1, 40)), kFull, {160, 160}), now).pixels, 200);
}

TEST_F(DrawnPicture, SpendsFewerTrianglesWherePartsAreSmall) {
    Renderer& renderer = Drawing::of_this_program().renderer;
    const Picture near = capstan().picture({}, 0);
    (void)drawn(near, kFullQuality, {400, 400});
    const FrameCounts large = renderer.counts();
    (void)drawn(near, kFullQuality, {60, 60});
    EXPECT_GT(large.triangles, 3 * renderer.counts().triangles / 2);
    EXPECT_GT(renderer.counts().triangles, 0U);
    EXPECT_LT(large.draws, near.items.size()) << "copies are drawn together";
}

TEST_F(DrawnPicture, WithoutItemsIsTheBench) {
    Picture picture = bare_picture();
    const Image image = drawn(picture, kFull, {32, 32});
    EXPECT_EQ(pixel_at(image, 3, 3).alpha, 255);
    picture.transparent = true;
    const Image clear = drawn(picture, kFull, {32, 32});
    each_pixel({32, 32}, [&](int x, int y) { ASSERT_LE(pixel_at(clear, x, y).alpha, 2); });
}

using TransparentPicture = RendererTest;

TEST_F(TransparentPicture, HasNothingInItsCornersMetalInTheGearsAndShadowBetween) {
    constexpr glm::ivec2 kSize(240, 240);
    for (const Look look : {Look::metal, Look::clay, Look::line}) {
        StageLook shown;
        shown.look = look;
        shown.transparent = true;
        const Picture picture = capstan().picture(shown, 0, NamedView::top);
        const Image image = drawn(picture, kFull, kSize);
        for (const glm::ivec2 corner : {glm::ivec2(0, 0), {239, 0}, {0, 239}, {239, 239}})
            EXPECT_LE(pixel_at(image, corner.x, corner.y).alpha, look == Look::line ? 0 : 3);
        // On the web of the sun, off its holes and its shaft.
        const glm::dvec2 sun = place_in(picture, {0.0, 26.0, 0.0}, kSize);
        EXPECT_EQ(pixel_at(image, static_cast<int>(sun.x), static_cast<int>(sun.y)).alpha, 255);
        int shadow = 0;
        each_pixel(kSize, [&](int x, int y) {
            const int alpha = pixel_at(image, x, y).alpha;
            shadow += alpha > 20 && alpha < 235 ? 1 : 0;
        });
        if (look != Look::line) {
            EXPECT_GT(shadow, 300) << "beside the stand";
        }
    }
}

using LightQuality = RendererTest;

// Every pixel whose neighbourhood is all metal or all not at full quality is so in the lighter one.
TEST_F(LightQuality, DrawsTheSameSilhouetteAsFull) {
    constexpr glm::ivec2 kSize(240, 135);
    StageLook look;
    look.transparent = true;
    const Picture picture = capstan().picture(look, Ratio(1, 5), NamedView::iso, 16.0 / 9);
    const Image full = drawn(picture, kFullQuality, kSize);
    const Image light = drawn(picture, kLightQuality, kSize);
    int decided = 0;
    each_pixel(kSize, [&](int x, int y) {
        if (x < 2 || y < 2 || x >= kSize.x - 2 || y >= kSize.y - 2) return;
        int solid = 0;
        int open = 0;
        for (int dy = -2; dy <= 2; ++dy)
            for (int dx = -2; dx <= 2; ++dx) {
                solid += pixel_at(full, x + dx, y + dy).alpha == 255 ? 1 : 0;
                open += pixel_at(full, x + dx, y + dy).alpha < 225 ? 1 : 0;
            }
        if (solid != 25 && open != 25) return;
        ++decided;
        EXPECT_EQ(pixel_at(light, x, y).alpha == 255, solid == 25) << x << ", " << y;
    });
    EXPECT_GT(decided, kSize.x * kSize.y / 2);
}

using ContactGlow = RendererTest;

TEST_F(ContactGlow, ShinesAtEveryContactAndNowhereElse) {
    constexpr glm::ivec2 kSize(240, 240);
    StageLook look;
    const Picture dark = capstan().picture(look, Ratio(1, 7), NamedView::top);
    look.contacts = true;
    const Picture lit = capstan().picture(look, Ratio(1, 7), NamedView::top);
    ASSERT_GE(lit.glows.size(), 6U);
    const Image without = drawn(dark, kFull, kSize);
    const Image with = drawn(lit, kFull, kSize);
    const double px_per_mm = kSize.y / height_at_target_mm(lit.camera);
    for (const Glow& glow : lit.glows) {
        const glm::dvec2 at = place_in(lit, glm::dvec3(glow.position_mm), kSize);
        const Pixel core = pixel_at(with, static_cast<int>(at.x), static_cast<int>(at.y));
        EXPECT_GT(std::min({core.red, core.green}), 200) << "bright in its middle";
        int warmer = 0;
        for (int y = static_cast<int>(at.y) - 2; y <= static_cast<int>(at.y) + 2; ++y)
            for (int x = static_cast<int>(at.x) - 2; x <= static_cast<int>(at.x) + 2; ++x) {
                const Pixel on = pixel_at(with, x, y);
                const Pixel off = pixel_at(without, x, y);
                warmer += (on.red - on.blue) - (off.red - off.blue);
            }
        EXPECT_GT(warmer, 50) << "and warm all round";
    }
    each_pixel(kSize, [&](int x, int y) {
        if (pixel_at(with, x, y).difference(pixel_at(without, x, y)) < 3) return;
        const bool near = std::ranges::any_of(lit.glows, [&](const Glow& glow) {
            return glm::distance(place_in(lit, glm::dvec3(glow.position_mm), kSize), glm::dvec2(x + 0.5, y + 0.5)) <
                   glow.radius_mm * px_per_mm + 2.0;
        });
        EXPECT_TRUE(near) << x << ", " << y;
    });
}

using CutawayDrawn = RendererTest;

// The parts that the cutaway opens, alone: in the wedge they are gone, beside it they stand as before.
TEST_F(CutawayDrawn, TakesTheWedgeOutOfWhatItOpens) {
    constexpr glm::ivec2 kSize(240, 240);
    for (const Look shown : {Look::metal, Look::line}) {
        StageLook look;
        look.look = shown;
        look.transparent = true;
        const auto opened_alone = [&] {
            Picture picture = capstan().picture(look, 0, NamedView::top);
            std::vector<PictureItem> kept;
            for (std::size_t i = 0; i < picture.items.size(); ++i)
                if (capstan().stage.machine.parts[i].opens) kept.push_back(picture.items[i]);
            EXPECT_FALSE(kept.empty());
            picture.items = kept;
            return picture;
        };
        const Image whole = drawn(opened_alone(), kPlainQuality, kSize);
        look.cutaway = true;
        const Picture cut = opened_alone();
        const Image opened = drawn(cut, kPlainQuality, kSize);
        int gone = 0;
        int kept = 0;
        const glm::dvec2 apex = place_in(cut, {cut.cut.apex_mm, 0.0F}, kSize);
        each_pixel(kSize, [&](int x, int y) {
            if (pixel_at(whole, x, y).alpha < 255) return;
            // Up in the picture is +Y, so the rows are counted down.
            const glm::dvec2 off(x + 0.5 - apex.x, apex.y - (y + 0.5));
            const double turn = std::remainder(std::atan2(off.y, off.x) - static_cast<double>(cut.cut.middle_rad),
                                               2 * 3.14159265358979);
            const double inside_px = (static_cast<double>(cut.cut.half_angle_rad) - std::abs(turn)) * glm::length(off);
            if (std::abs(inside_px) < 3.0) return;
            (inside_px > 0 ? gone : kept) += 1;
            EXPECT_EQ(pixel_at(opened, x, y).alpha == 255, inside_px < 0) << x << ", " << y;
        });
        EXPECT_GT(gone, 500);
        EXPECT_GT(kept, 1000);
    }
}

// Where the metal is cut its section shows in red, which nothing else is in a machine all of steel.
TEST_F(CutawayDrawn, ShowsTheSectionsInRed) {
    constexpr glm::ivec2 kSize(320, 180);
    const auto red_pixels = [&](bool cutaway) {
        StageLook look;
        look.cutaway = cutaway;
        look.materials.assign(capstan().stage.train.members.size(), Material{Finish::steel, {}});
        const Image image = drawn(capstan().picture(look, 0, NamedView::iso, 16.0 / 9), kFull, kSize);
        int red = 0;
        each_pixel(kSize, [&](int x, int y) {
            const Pixel p = pixel_at(image, x, y);
            red += p.red > 60 && p.red > 3 * p.green / 2 && p.red > 3 * p.blue / 2 ? 1 : 0;
        });
        return red;
    };
    EXPECT_EQ(red_pixels(false), 0);
    EXPECT_GT(red_pixels(true), 20);
}

using SpreadDrawn = RendererTest;

TEST_F(SpreadDrawn, KeepsEverythingInThePicture) {
    constexpr glm::ivec2 kSize(120, 160);
    StageLook look;
    look.spread = 1.0;
    look.transparent = true;
    for (const char* name : {"slipway_gearbox", "boat_carousel"}) {
        const Image image =
            drawn(shown_scene(name).picture(look, Ratio(1, 3), NamedView::iso, 0.75), kPlainQuality, kSize);
        for (int x = 0; x < kSize.x; ++x)
            EXPECT_LT(std::max(pixel_at(image, x, 0).alpha, pixel_at(image, x, kSize.y - 1).alpha), 250) << name;
        for (int y = 0; y < kSize.y; ++y)
            EXPECT_LT(std::max(pixel_at(image, 0, y).alpha, pixel_at(image, kSize.x - 1, y).alpha), 250) << name;
    }
}

using FinishDrawn = RendererTest;

TEST_F(FinishDrawn, ColoursTheMemberItIsGivenTo) {
    constexpr glm::ivec2 kSize(160, 160);
    StageLook look;
    look.materials.resize(capstan().stage.train.members.size());
    look.materials[capstan().member("ring").position()] = Material{Finish::painted, {0.02F, 0.1F, 0.6F}};
    const Picture picture = capstan().picture(look, 0, NamedView::top);
    const Image image = drawn(picture, kFull, kSize);
    const Image usual = drawn(capstan().picture({}, 0, NamedView::top), kFull, kSize);
    const auto at = [&](const Image& of, const glm::dvec3& point) {
        const glm::dvec2 px = place_in(picture, point, kSize);
        return pixel_at(of, static_cast<int>(px.x), static_cast<int>(px.y));
    };
    const double teeth_mm = 0.5 * 3.0 * (69 + 2 * 1.25);  // the root circle
    const double rim_mm = teeth_mm + 3.0;
    const Pixel blue = at(image, {0.0, rim_mm, 0.0});
    EXPECT_GT(blue.blue, blue.red + 40);
    const Pixel steel = at(usual, {0.0, rim_mm, 0.0});
    EXPECT_LT(std::abs(steel.blue - steel.red), 30);
    EXPECT_LE(at(image, {0.0, 26.0, 0.0}).difference(at(usual, {0.0, 26.0, 0.0})), 40) << "the sun stays brass";
}

using TextDrawn = RendererTest;

TEST_F(TextDrawn, CaptionsStayInTheirBoxes) {
    constexpr glm::ivec2 kSize(320, 200);
    const Image bare = drawn(bare_picture(), kFull, kSize);
    for (const Caption::Anchor anchor : {Caption::Anchor::left, Caption::Anchor::middle, Caption::Anchor::right}) {
        Picture picture = bare_picture();
        picture.captions = {{"Harbour capstan 7/30", {0.5F, 0.4F}, 0.08F, {1, 0.5F, 0, 1}, anchor}};
        const Changed box = changed(drawn(picture, kFull, kSize), bare);
        const float width = width_px(letter_sheet(16), "Harbour capstan 7/30");
        const float left = anchor == Caption::Anchor::left     ? 160.0F
                           : anchor == Caption::Anchor::middle ? 160.0F - width / 2
                                                               : 160.0F - width;
        EXPECT_GT(box.pixels, 100);
        EXPECT_GE(box.left, left - 1.5F);
        EXPECT_LE(box.right, left + width + 1.5F);
        EXPECT_GT(box.right - box.left, 0.9F * width) << "all of it";
        EXPECT_GE(box.top, 80);
        EXPECT_LE(box.bottom, 80 + 16 + 1);
    }
}

TEST_F(TextDrawn, LabelsStayInTheirBoxesByTheirAnchors) {
    constexpr glm::ivec2 kSize(320, 200);
    const Image bare = drawn(bare_picture(), kFull, kSize);
    for (const glm::vec3 anchor : {glm::vec3(0), {60, 20, 10}, {-70, -30, 5}}) {
        Picture picture = bare_picture();
        picture.labels = {{anchor, "planet", 1}};
        const Changed box = changed(drawn(picture, kFull, kSize), bare);
        const glm::dvec2 at = place_in(picture, glm::dvec3(anchor), kSize);
        // The letters with room round them, and the line to the anchor.
        const float width = width_px(letter_sheet(12), "planet") + 12.0F;
        EXPECT_GT(box.pixels, 300);
        EXPECT_LE(box.left, at.x + 2);
        EXPECT_GE(box.right, at.x - 2);
        EXPECT_LE(box.top, at.y + 2);
        EXPECT_GE(box.bottom, at.y - 2);
        EXPECT_LT(box.right - box.left, 2 * width);
        EXPECT_LT(box.bottom - box.top, 60);
    }
}

TEST_F(TextDrawn, LabelsOfAMachineChangeNothingButTheirBoxes) {
    constexpr glm::ivec2 kSize(320, 200);
    StageLook look;
    const Image without = drawn(capstan().picture(look, 0, NamedView::iso, 1.6), kFull, kSize);
    look.names = true;
    const Image with = drawn(capstan().picture(look, 0, NamedView::iso, 1.6), kFull, kSize);
    int dark = 0;
    int changed_pixels = 0;
    each_pixel(kSize, [&](int x, int y) {
        if (pixel_at(with, x, y).difference(pixel_at(without, x, y)) < 3) return;
        ++changed_pixels;
        const Pixel p = pixel_at(with, x, y);
        dark += std::max({p.red, p.green, p.blue}) < 90 ? 1 : 0;
    });
    // Four names on dark boxes: most of what changes is dark, and it is a small part of the picture.
    EXPECT_GT(2 * dark, changed_pixels);
    EXPECT_LT(changed_pixels, kSize.x * kSize.y / 8);
    EXPECT_GT(changed_pixels, 1000);
}

}  // namespace
}  // namespace couplet
