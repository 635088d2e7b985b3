// Golden stills: every shipped scene as it was when someone last looked at it and found it good.
//
// With the environment variable COUPLET_MAKE_STILLS the stills are written into the folder that it names instead.

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "support/dice.hpp"
#include "view/drawing.hpp"
#include "view/image.hpp"
#include "view/likeness.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

constexpr glm::ivec2 kStill(480, 270);
const Ratio kInstant(1, 7);

// What is different from still to still, so that together they show all that the stage can.
StageLook look_of_still(const std::string& name) {
    StageLook look;
    if (name == "tide_dial") look.pitch_circles = look.centre_lines = true;
    if (name == "signal_arm") look.look = Look::line;
    if (name == "ferry_windlass") look.look = Look::clay;
    if (name == "slipway_gearbox") look.spread = 0.6;
    if (name == "beacon_table") look.cutaway = true;
    if (name == "two_crew_hoist") look.arrows = look.names = true;
    if (name == "dry_dock_pump") look.transparent = true;
    if (name == "launch_winch") look.contacts = true;
    return look;
}

NamedView view_of_still(const std::string& name) {
    if (name == "tide_dial" || name == "launch_winch") return NamedView::top;
    return name == "lock_gate_winder" ? NamedView::front : NamedView::iso;
}

Picture picture_of_still(const std::string& name, const ShownScene& scene) {
    return scene.picture(look_of_still(name), kInstant, view_of_still(name), static_cast<double>(kStill.x) / kStill.y);
}

Image kept_still(const std::string& name) {
    std::ifstream file(std::string(COUPLET_ROOT) + "/tests/view/golden/" + name + ".png", std::ios::binary);
    std::stringstream bytes;
    bytes << file.rdbuf();
    return image_of_png(bytes.str());
}

std::string words(const Likeness& found) {
    return "mean " + std::to_string(found.mean) + ", worst " + std::to_string(found.worst) + ", colour " +
           std::to_string(found.colour);
}

class GoldenStills : public DrawingTest {
  protected:
    // The capstan's still, changed; how like it is to the right one.
    template <class Change>
    static Likeness capstan_after(Change change) {
        static const ShownScene scene = shown_scene("harbour_capstan");
        Picture picture = picture_of_still("harbour_capstan", scene);
        static const Image right = drawn(picture, kFullQuality, kStill);
        change(picture, scene);
        return likeness(drawn(picture, kFullQuality, kStill), right);
    }
    static std::size_t item_of(const ShownScene& scene, PartRole role) {
        const std::vector<Part>& parts = scene.stage.machine.parts;
        return static_cast<std::size_t>(
            std::ranges::find_if(parts, [&](const Part& part) { return part.role == role; }) - parts.begin());
    }
    static void turn(PictureItem& item, double angle_rad) {
        const auto c = static_cast<float>(std::cos(angle_rad));
        const auto s = static_cast<float>(std::sin(angle_rad));
        item.observer_from_part = item.observer_from_part * glm::mat4(glm::vec4(c, s, 0, 0), glm::vec4(-s, c, 0, 0),
                                                                      glm::vec4(0, 0, 1, 0), glm::vec4(0, 0, 0, 1));
    }
};

TEST_F(GoldenStills, LookAsTheyDid) {
    const char* const folder = std::getenv("COUPLET_MAKE_STILLS");
    for (const std::string& name : shipped_names()) {
        const ShownScene scene = shown_scene(name);
        const Image image = drawn(picture_of_still(name, scene), kFullQuality, kStill);
        if (folder != nullptr) {
            std::ofstream(std::string(folder) + "/" + name + ".png", std::ios::binary) << png_bytes(image);
            continue;
        }
        const Likeness found = likeness(image, kept_still(name));
        EXPECT_TRUE(looks_alike(found)) << name << ": " << words(found);
    }
}

// What another driver may do: two levels of noise everywhere, and edges that lie up to a pixel elsewhere.
TEST_F(GoldenStills, AllowForAnotherDriver) {
    for (const char* name : {"harbour_capstan", "tide_dial", "signal_arm"}) {
        const ShownScene scene = shown_scene(name);
        const Image image = drawn(picture_of_still(name, scene), kFullQuality, kStill);
        Image noisy = image;
        Dice dice(7);
        each_pixel(kStill, [&](int x, int y) {
            const int from_x = std::clamp(x + (dice.chance(25) ? dice.between(-1, 1) : 0), 0, kStill.x - 1);
            const int from_y = std::clamp(y + (dice.chance(25) ? dice.between(-1, 1) : 0), 0, kStill.y - 1);
            const auto to = static_cast<std::size_t>(y * kStill.x + x) * 4;
            const auto from = static_cast<std::size_t>(from_y * kStill.x + from_x) * 4;
            for (std::size_t c = 0; c < 3; ++c)
                noisy.rgba[to + c] =
                    static_cast<std::uint8_t>(std::clamp(image.rgba[from + c] + dice.between(-2, 2), 0, 255));
        });
        const Likeness found = likeness(noisy, image);
        EXPECT_TRUE(looks_alike(found)) << name << ": " << words(found);
    }
}

TEST_F(GoldenStills, TellOneToothTooFar) {
    const Likeness found = capstan_after([](Picture& picture, const ShownScene& scene) {
        turn(picture.items[item_of(scene, PartRole::planet)], 2 * 3.14159265 / 24 / 2);
    });
    EXPECT_FALSE(looks_alike(found)) << words(found);
}

TEST_F(GoldenStills, TellAPartThatIsMissing) {
    for (const PartRole role : {PartRole::planet, PartRole::ring, PartRole::carrier}) {
        const Likeness found = capstan_after([&](Picture& picture, const ShownScene& scene) {
            picture.items.erase(picture.items.begin() + static_cast<std::ptrdiff_t>(item_of(scene, role)));
        });
        EXPECT_FALSE(looks_alike(found)) << words(found);
    }
}

TEST_F(GoldenStills, TellAnotherMetal) {
    const Likeness found = capstan_after([](Picture& picture, const ShownScene& scene) {
        picture.items[item_of(scene, PartRole::planet)].material.finish = Finish::steel;
    });
    EXPECT_FALSE(looks_alike(found)) << words(found);
}

TEST_F(GoldenStills, TellACameraThatMoved) {
    const Likeness found =
        capstan_after([](Picture& picture, const ShownScene&) { picture.camera.azimuth_rad += 2 * 3.14159265 / 180; });
    EXPECT_FALSE(looks_alike(found)) << words(found);
}

TEST_F(GoldenStills, TellALightThatIsGone) {
    const Likeness found = capstan_after([](Picture& picture, const ShownScene&) {
        for (PictureItem& item : picture.items) item.material.finish = Finish::oxide_black;
    });
    EXPECT_FALSE(looks_alike(found)) << words(found);
}

}  // namespace
}  // namespace couplet
