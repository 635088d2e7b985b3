#include "sheet/sketches.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "scene/scene.hpp"
#include "scene/scene_folder.hpp"
#include "tooth/train_teeth.hpp"
#include "train/arrangement.hpp"

namespace couplet {
namespace {

// Every word of a drawing lies within its edges, and none is smaller than 3 mm. A letter of this font is at most 0.62
// of its size wide on an average over a name.
void expect_within_edges(const std::string& svg, const std::string& whose) {
    std::smatch size;
    ASSERT_TRUE(std::regex_search(svg, size, std::regex("viewBox=\"0 0 ([0-9.]+) ([0-9.]+)\""))) << whose;
    const double width = std::stod(size[1]);
    const double height = std::stod(size[2]);
    const std::regex text("<text x=\"([-0-9.]+)\" y=\"([-0-9.]+)\" font-size=\"([0-9.]+)\"[^>]*>([^<]*)<");
    int texts = 0;
    for (std::sregex_iterator at(svg.begin(), svg.end(), text), end; at != end; ++at, ++texts) {
        const double letter = std::stod((*at)[3]);
        EXPECT_GE(letter, 3.0) << whose;
        EXPECT_GE(std::stod((*at)[1]), 0.0) << whose << ": " << (*at)[4];
        EXPECT_LE(std::stod((*at)[1]) + 0.62 * letter * static_cast<double>((*at)[4].length()), width)
            << whose << ": " << (*at)[4];
        EXPECT_GE(std::stod((*at)[2]) - letter, 0.0) << whose << ": " << (*at)[4];
        EXPECT_LE(std::stod((*at)[2]), height) << whose << ": " << (*at)[4];
    }
    EXPECT_GT(texts, 0) << whose;
}

bool names(const std::string& svg, const std::string& name) {
    return svg.find('>' + name) != std::string::npos;
}

TEST(MeshSketch, NamesEveryMemberWithTeeth) {
    const Train train = train_of(Arrangement::simple, {24, 18, 60});
    const std::string svg = mesh_sketch(train);
    for (const char* word : {"sun", "planet (3 copies)", "ring", "24", "18 on carrier", "60 inside"})
        EXPECT_TRUE(names(svg, word)) << word;
    EXPECT_FALSE(names(svg, "carrier<"));  // it has no teeth
    // Four boxes' edges would be five lines: three boxes, one line to the sun, two to the ring.
    std::size_t lines = 0;
    for (std::size_t at = svg.find("<polyline"); at != std::string::npos; at = svg.find("<polyline", at + 1)) ++lines;
    EXPECT_EQ(lines, 3U + 1U + 2U);
}

TEST(MeshSketch, IsLeftOutWhereItWouldBeTooFull) {
    Train train = train_of(Arrangement::pairs, {20, 45});
    while (train.members.size() <= kMostSketched) {
        Member more;
        more.name = "idler " + std::to_string(train.members.size());
        train.members.push_back(more);
    }
    EXPECT_EQ(mesh_sketch(train), "");
}

TEST(Sketches, OfEverySceneKeepWithinTheirEdges) {
    for (const std::filesystem::path& path : shipped_scenes()) {
        const Train train = read_scene(load_scene_text(path), path.string());
        const std::string name = path.filename().string();
        if (const std::string svg = mesh_sketch(train); !svg.empty()) expect_within_edges(svg, name + ", meshes");
        if (train.settings.empty()) continue;
        const Motion motion = solve(train, train.settings.front());
        for (const Lever& lever : levers_of(train, motion))
            expect_within_edges(lever_sketch(train, lever), name + ", lever");
        const Placement placement = place_members(train, teeth_of(train));
        for (const PlanSection& section : speed_plan_of(train, placement, motion))
            if (!section.rays.empty()) expect_within_edges(section_sketch(train, section), name + ", section");
    }
}

// Sun 24, ring 60: the lever's line runs from the sun's speed 1 at the top through the carrier's 2/7 to the ring's 0.
TEST(LeverSketch, WritesTheExactSpeeds) {
    const Train train = train_of(Arrangement::simple, {24, 18, 60});
    const Motion motion = solve(train, train.settings.front());
    const std::string svg = lever_sketch(train, levers_of(train, motion).front());
    for (const char* word : {"1", "2/7", "0"}) EXPECT_TRUE(names(svg, std::string(word) + "<")) << word;
}

}  // namespace
}  // namespace couplet
