#include "motion/choices.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace couplet {
namespace {

using Choices = std::vector<std::vector<std::size_t>>;

Choices all_choices(std::size_t count, std::size_t size) {
    Choices choices;
    EXPECT_TRUE(each_choice(count, size, [&](const std::vector<std::size_t>& choice) {
        choices.push_back(choice);
        return true;
    }));
    return choices;
}

TEST(Choices, ComeOnceEachInLexicographicOrder) {
    EXPECT_EQ(all_choices(4, 2), (Choices{{0, 1}, {0, 2}, {0, 3}, {1, 2}, {1, 3}, {2, 3}}));
    EXPECT_EQ(all_choices(3, 3), (Choices{{0, 1, 2}}));
    EXPECT_EQ(all_choices(7, 3).size(), 35U);
}

TEST(Choices, OfNothingAreOneAndOfTooManyNone) {
    EXPECT_EQ(all_choices(5, 0), (Choices{{}}));
    EXPECT_EQ(all_choices(0, 0), (Choices{{}}));
    EXPECT_TRUE(all_choices(2, 3).empty());
}

TEST(Choices, StopWhereTheVisitorDoes) {
    int visits = 0;
    EXPECT_FALSE(each_choice(6, 2, [&](const std::vector<std::size_t>&) { return ++visits < 4; }));
    EXPECT_EQ(visits, 4);
}

}  // namespace
}  // namespace couplet
