// The window's panels as pictures: each as it was when it was last looked at and found good. Needs a display, and a
// software renderer for pictures that are alike on every machine.
//
// COUPLET_MAKE_PICTURES=FOLDER writes them instead.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "app/main_loop.hpp"
#include "view/image.hpp"
#include "view/likeness.hpp"

namespace couplet {
namespace {

struct Shot {
    const char* name;
    Step panel;
    Daylight daylight;
    glm::ivec2 size;
    double scale;
};

constexpr Shot kShots[] = {
    {"scene_1280x720", Step::scene, Daylight::light, {1280, 720}, 1},
    {"find_1280x720", Step::find, Daylight::light, {1280, 720}, 1},
    {"size_1280x720", Step::size, Daylight::light, {1280, 720}, 1},
    {"place_1280x720", Step::place, Daylight::light, {1280, 720}, 1},
    {"couple_1280x720", Step::couple, Daylight::light, {1280, 720}, 1},
    {"watch_1280x720", Step::watch, Daylight::light, {1280, 720}, 1},
    {"record_1280x720", Step::record, Daylight::light, {1280, 720}, 1},
    {"keys_1280x720", Step::keys, Daylight::light, {1280, 720}, 1},
    {"scene_2560x1440", Step::scene, Daylight::dark, {2560, 1440}, 2},
    {"find_2560x1440", Step::find, Daylight::dark, {2560, 1440}, 2},
    {"size_2560x1440", Step::size, Daylight::dark, {2560, 1440}, 2},
    {"place_2560x1440", Step::place, Daylight::dark, {2560, 1440}, 2},
    {"couple_2560x1440", Step::couple, Daylight::dark, {2560, 1440}, 2},
    {"watch_2560x1440", Step::watch, Daylight::dark, {2560, 1440}, 2},
    {"record_2560x1440", Step::record, Daylight::dark, {2560, 1440}, 2},
    {"keys_2560x1440", Step::keys, Daylight::dark, {2560, 1440}, 2},
};

Image picture_of(const Shot& shot) {
    const std::filesystem::path folder = std::filesystem::path(testing::TempDir()) / "couplet_window_pictures";
    std::filesystem::create_directories(folder);
    std::filesystem::current_path("/");  // which panels name
    keep_preferences(folder, {shot.daylight, shot.scale});
    Image drawn;
    WindowWishes wishes;
    wishes.panel = shot.panel;
    wishes.size = shot.size;
    wishes.keepsakes = folder;
    wishes.when_still = [&](const Image& image) { drawn = image; };
    run_window(wishes);
    std::filesystem::remove_all(folder);
    return drawn;
}

class WindowPictures : public testing::TestWithParam<Shot> {};

TEST_P(WindowPictures, LookAsTheyDidWhenTheyWereFoundGood) {
    const Shot& shot = GetParam();
    const Image drawn = picture_of(shot);
    ASSERT_EQ(drawn.width, shot.size.x);
    ASSERT_EQ(drawn.height, shot.size.y);
    if (const char* folder = std::getenv("COUPLET_MAKE_PICTURES")) {
        std::ofstream(std::filesystem::path(folder) / (std::string(shot.name) + ".png"), std::ios::binary)
            << png_bytes(drawn);
        return;
    }
    const std::string path = std::string(COUPLET_ROOT) + "/tests/app/golden/" + shot.name + ".png";
    std::ifstream file(path, std::ios::binary);
    ASSERT_TRUE(file) << path << " is missing";
    const std::string bytes((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const Likeness found = likeness(drawn, image_of_png(bytes));
    EXPECT_TRUE(looks_alike(found)) << "mean " << found.mean << ", worst " << found.worst << ", colour "
                                    << found.colour;
}

INSTANTIATE_TEST_SUITE_P(Panels, WindowPictures, testing::ValuesIn(kShots),
                         [](const auto& shot) { return std::string(shot.param.name); });

}  // namespace
}  // namespace couplet
