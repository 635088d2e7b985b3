// Mutations of the shipped scenes: whatever becomes of them reads as a sound train or is refused in one of its lines.
#include <gtest/gtest.h>

#include "scene/scene.hpp"
#include "scene_folder.hpp"
#include "scene_texts.hpp"
#include "support/dice.hpp"
#include "train/faults.hpp"

namespace couplet {
namespace {

const std::vector<std::string> kTokens = {"\n",
                                          "\r\n",
                                          "[[member]]\n",
                                          "[[member.gear]]\n",
                                          "[[mesh]]\n",
                                          "[[setting]]\n",
                                          "[[joint]]\n",
                                          "[[coupling]]\n",
                                          "[[shot]]\n",
                                          "[teeth]\n",
                                          "name = \"sun\"\n",
                                          "on = \"planet\"\n",
                                          "teeth = 2\n",
                                          "copies = 2\n",
                                          "at = [0, 90.5]\n",
                                          "axis = [0, 0, 0]\n",
                                          "hold = []\n",
                                          "tie = [[\"sun\", \"ring\"]]\n",
                                          "drive = { sun = 1e3 }\n",
                                          "flipped = true\n",
                                          "typed = [1, 2]\n",
                                          "at = 0.5\n",
                                          "zoom = 1.5\nlook_at = \"sun\"\n",
                                          "= ",
                                          "\"",
                                          "'",
                                          "\"\"\"",
                                          "[",
                                          "]",
                                          "{",
                                          "}",
                                          ",",
                                          ".",
                                          "#",
                                          "\\",
                                          "0",
                                          "-1",
                                          "1e400",
                                          "inf",
                                          "nan",
                                          "0x7F",
                                          "1_0",
                                          "true",
                                          "1979-05-27",
                                          "frame",
                                          " on ",
                                          "/",
                                          "\xC3\xA9",
                                          "\xFF",
                                          std::string(1, '\0'),
                                          "a.b.c.d = 1\n"};

std::string mutated(std::string text, Dice& dice) {
    const auto place = [&] { return dice.position_in(text.size() + 1); };
    const auto length = [&] { return dice.position_in(dice.chance(20) ? 400 : 12); };
    switch (dice.between(0, 5)) {
        case 0:
            return text.insert(place(), dice.pick(kTokens));
        case 1:
            return text.erase(place(), length());
        case 2:
            return text.insert(place(), text.substr(place(), length()));
        case 3:
            if (!text.empty()) text[dice.position_in(text.size())] = static_cast<char>(dice.between(1, 255));
            return text;
        case 4:
            return text.replace(place(), length(), dice.pick(kTokens));
        default:
            return text.substr(0, place());
    }
}

// Writing and rewriting are as good as reading: what reads survives both.
void expect_survives(const std::string& text, const Train& train) {
    EXPECT_EQ(read_scene(write_scene(train), "written"), train) << text;
    Train changed = train;
    changed.title += "x";
    if (!changed.gears.empty()) changed.gears.back().teeth = 100;
    if (!changed.settings.empty()) changed.settings.pop_back();
    if (!changed.shots.empty()) changed.shots.back().look_at = kFrame;
    EXPECT_EQ(read_scene(rewrite_scene(text, changed), "rewritten"), changed) << text;
    EXPECT_EQ(rewrite_scene(text, train), text);
}

TEST(MutatedScenes, AreReadSoundlyOrRefusedInALineOfTheirs) {
    constexpr int kMutationsOfEach = 1000;
    Dice dice(20240611);
    int read = 0;
    int refused = 0;
    for (const auto& path : shipped_scenes()) {
        const std::string original = load_scene_text(path);
        for (int i = 0; i < kMutationsOfEach; ++i) {
            std::string text = original;
            for (int k = dice.between(1, 3); k > 0; --k) text = mutated(std::move(text), dice);
            try {
                const Train train = read_scene(text, "s.toml");
                ++read;
                EXPECT_TRUE(faults(train).empty()) << text;
                expect_survives(text, train);
            } catch (const SceneError& error) {
                ++refused;
                const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
                EXPECT_GE(error.line, 1) << error.what();
                EXPECT_LE(error.line, lines) << error.what();
                EXPECT_FALSE(error.wrong.empty() || error.right.empty());
            }
        }
    }
    // Both happen often enough to say something.
    EXPECT_GT(read, 500);
    EXPECT_GT(refused, 500);
}

}  // namespace
}  // namespace couplet
