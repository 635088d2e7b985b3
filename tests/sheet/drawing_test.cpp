#include "sheet/drawing.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "place/placed_train.hpp"

namespace couplet {
namespace {

std::string drawing_of(Train train) {
    train.title = "Capstan";
    return size_drawing(train, teeth_of(train));
}

std::size_t count_of(const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

// Three gears: one sheet for the train, two for gears.
TEST(SizeDrawing, DrawsEveryGearAndEveryCopy) {
    const std::string svg = drawing_of(simple_set(21, 24, 69, 3));
    EXPECT_NE(svg.find("viewBox=\"0 0 210 891\""), std::string::npos);
    EXPECT_EQ(count_of(svg, "<path id=\"gear"), 3U);
    EXPECT_EQ(count_of(svg, "href=\"#gear1\""), 4U) << "three copies in the train and one on a sheet of its own";
    EXPECT_EQ(count_of(svg, "href=\"#gear2\""), 2U);
}

// Module 1: derived diameters of the ring, m z and m (z - 2).
TEST(SizeDrawing, CallsDiametersOut) {
    const std::string svg = drawing_of(simple_set(21, 24, 69, 3));
    EXPECT_NE(svg.find(">pitch 69.000 mm<"), std::string::npos);
    EXPECT_NE(svg.find(">tip 67.000 mm<"), std::string::npos);
}

TEST(SizeDrawing, HasNoTextTooSmallToRead) {
    const std::string svg = drawing_of(stepped_set(25, 35, 16, 76, 3));
    const std::regex size("font-size=\"([0-9.]+)\"");
    std::size_t texts = 0;
    for (std::sregex_iterator match(svg.begin(), svg.end(), size), end; match != end; ++match, ++texts)
        EXPECT_GE(std::stod((*match)[1]), 2.5);
    EXPECT_GT(texts, 20U);
}

TEST(SizeDrawing, StandsOnWhereTeethHaveNoProfile) {
    Train train = simple_set(21, 24, 69, 3);
    train.gears[0].shift = Ratio(4);
    const std::string svg = drawing_of(train);
    EXPECT_EQ(svg.find("nan"), std::string::npos);
    EXPECT_EQ(count_of(svg, "<path id=\"gear"), 3U);
}

}  // namespace
}  // namespace couplet
