#include "view/labels.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <limits>
#include <map>
#include <set>

#include "support/dice.hpp"

namespace couplet {
namespace {

constexpr glm::vec2 kPicture{800.0F, 600.0F};
constexpr glm::vec2 kSize{60.0F, 16.0F};

std::vector<LabelWish> random_wishes(Dice& dice, int count, glm::vec2 picture = kPicture) {
    std::vector<LabelWish> wishes(static_cast<std::size_t>(count));
    for (LabelWish& wish : wishes)
        wish = {{static_cast<float>(dice.between(-40, static_cast<int>(picture.x) + 40)),
                 static_cast<float>(dice.between(-40, static_cast<int>(picture.y) + 40))},
                {static_cast<float>(dice.between(8, 160)), static_cast<float>(dice.between(8, 40))},
                dice.between(0, 3),
                std::nullopt};
    return wishes;
}

bool covers(const PlacedLabel& label, glm::vec2 size, glm::vec2 point) {
    const glm::vec2 from = label.top_left_px;
    return point.x > from.x && point.x < from.x + size.x && point.y > from.y && point.y < from.y + size.y;
}

void expect_clear(const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels, glm::vec2 picture) {
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const glm::vec2 from = labels[i].top_left_px;
        const glm::vec2 size = wishes[labels[i].wish].size_px;
        ASSERT_TRUE(from.x >= 0 && from.y >= 0 && from.x + size.x <= picture.x && from.y + size.y <= picture.y);
        for (const LabelWish& wish : wishes) ASSERT_FALSE(covers(labels[i], size, wish.anchor_px));
        for (std::size_t k = 0; k < i; ++k) {
            const glm::vec2 other = labels[k].top_left_px;
            const glm::vec2 other_size = wishes[labels[k].wish].size_px;
            const bool apart = from.x + size.x <= other.x || other.x + other_size.x <= from.x ||
                               from.y + size.y <= other.y || other.y + other_size.y <= from.y;
            ASSERT_TRUE(apart) << labels[i].wish << " and " << labels[k].wish;
        }
    }
}

bool equal(const std::vector<PlacedLabel>& a, const std::vector<PlacedLabel>& b) {
    return std::ranges::equal(a, b, [](const PlacedLabel& x, const PlacedLabel& y) {
        return x.wish == y.wish && x.top_left_px == y.top_left_px && x.side == y.side;
    });
}

// From the anchor to the nearest point of the text.
float distance(const PlacedLabel& label, const LabelWish& wish) {
    const glm::vec2 from = label.top_left_px;
    const glm::vec2 to = from + wish.size_px;
    return std::hypot(std::max({from.x - wish.anchor_px.x, wish.anchor_px.x - to.x, 0.0F}),
                      std::max({from.y - wish.anchor_px.y, wish.anchor_px.y - to.y, 0.0F}));
}

TEST(Labels, OfNoWishesAreNone) {
    EXPECT_TRUE(place_labels({}, kPicture).empty());
}

TEST(Labels, StandBesideTheirAnchor) {
    const LabelWish wish{{400.0F, 300.0F}, kSize, 0, std::nullopt};
    const auto labels = place_labels({wish}, kPicture);
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_EQ(labels[0].wish, 0U);
    EXPECT_GT(labels[0].top_left_px.x, 400.0F);
    EXPECT_LT(labels[0].top_left_px.y, 300.0F);
    EXPECT_GT(distance(labels[0], wish), 2.0F);
    EXPECT_LT(distance(labels[0], wish), 12.0F);
}

TEST(Labels, NeverCoverEachOtherNorAnAnchorNorLeaveThePicture) {
    Dice dice(41);
    for (int round = 0; round < 300; ++round) {
        const auto wishes = random_wishes(dice, dice.between(1, 120));
        const auto labels = place_labels(wishes, kPicture);
        ASSERT_FALSE(labels.empty() && wishes.size() > 20);
        std::set<std::size_t> once;
        for (const PlacedLabel& label : labels) ASSERT_TRUE(once.insert(label.wish).second);
        expect_clear(wishes, labels, kPicture);
        ASSERT_FALSE(HasFatalFailure()) << "round " << round;
    }
}

TEST(Labels, StandInWholePixelsForSharpLetters) {
    const auto labels = place_labels({{{100.4F, 99.7F}, {31.3F, 15.0F}, 0, std::nullopt}}, kPicture);
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_EQ(labels[0].top_left_px, glm::floor(labels[0].top_left_px));
}

TEST(Labels, LeaveOutTheLessImportantWhereThereIsNoRoom) {
    // A picture that holds one text only: whoever is most important has it, wherever in the list.
    const glm::vec2 small{80.0F, 20.0F};
    for (std::size_t most = 0; most < 3; ++most) {
        std::vector<LabelWish> wishes(3, {{5.0F, 10.0F}, kSize, 1, std::nullopt});
        wishes[most].importance = 2;
        const auto labels = place_labels(wishes, small);
        ASSERT_EQ(labels.size(), 1U);
        EXPECT_EQ(labels[0].wish, most);
    }
}

TEST(Labels, AnImportantTextStandsAsIfTheOthersWereAnchorsOnly) {
    Dice dice(7);
    for (int round = 0; round < 50; ++round) {
        auto wishes = random_wishes(dice, 80);
        const std::size_t chosen = dice.position_in(wishes.size());
        wishes[chosen].importance = 9;
        const auto crowd = place_labels(wishes, kPicture);
        for (std::size_t i = 0; i < wishes.size(); ++i)
            if (i != chosen) wishes[i].size_px = {0.0F, 0.0F};
        const auto alone = place_labels(wishes, kPicture);
        const auto of_chosen = [&](const std::vector<PlacedLabel>& labels) {
            return std::ranges::find(labels, chosen, &PlacedLabel::wish);
        };
        ASSERT_EQ(of_chosen(crowd) == crowd.end(), of_chosen(alone) == alone.end());
        if (of_chosen(crowd) == crowd.end()) continue;
        EXPECT_EQ(of_chosen(crowd)->top_left_px, of_chosen(alone)->top_left_px);
    }
}

TEST(Labels, TakeTheNearestFreePlace) {
    // Anchors crowd the near places on the right: the text goes to another near place, and far only when all are taken.
    const LabelWish wish{{400.0F, 300.0F}, kSize, 1, std::nullopt};
    const auto wishes_with = [&](std::initializer_list<glm::vec2> anchors) {
        std::vector<LabelWish> wishes = {wish};
        for (const glm::vec2 anchor : anchors) wishes.push_back({anchor, {0.0F, 0.0F}, 0, std::nullopt});
        return wishes;
    };
    const auto left = place_labels(wishes_with({{430.0F, 300.0F}}), kPicture);
    ASSERT_EQ(left.size(), 1U);
    EXPECT_LT(left[0].top_left_px.x, 400.0F);
    EXPECT_LT(distance(left[0], wish), 12.0F);
    const auto far = place_labels(wishes_with({{430.0F, 300.0F},
                                               {370.0F, 300.0F},
                                               {400.0F, 287.0F},
                                               {400.0F, 313.0F},
                                               {430.0F, 287.0F},
                                               {370.0F, 287.0F},
                                               {430.0F, 313.0F},
                                               {370.0F, 313.0F}}),
                                  kPicture);
    ASSERT_EQ(far.size(), 1U);
    EXPECT_GT(distance(far[0], wish), 12.0F);
    EXPECT_LT(distance(far[0], wish), 40.0F);
}

TEST(Labels, AreTheSameForTheSameWishes) {
    Dice dice(3);
    const auto wishes = random_wishes(dice, 300);
    EXPECT_TRUE(equal(place_labels(wishes, kPicture), place_labels(wishes, kPicture)));
}

TEST(Labels, KeepToTheirEarlierSide) {
    LabelWish wish{{400.0F, 300.0F}, kSize, 0, std::nullopt};
    std::set<std::pair<float, float>> places;
    int side = 0;
    for (;; ++side) {
        wish.earlier_side = side;
        const auto labels = place_labels({wish}, kPicture);
        ASSERT_EQ(labels.size(), 1U);
        if (labels[0].side != side) break;
        places.insert({labels[0].top_left_px.x, labels[0].top_left_px.y});
    }
    EXPECT_GE(side, 8) << "a few sides";
    EXPECT_EQ(static_cast<int>(places.size()), side) << "each side is a place of its own";
}

TEST(Labels, LeaveTheirEarlierSideWhereItIsTaken) {
    LabelWish wish{{795.0F, 300.0F}, kSize, 0, 0};
    const auto labels = place_labels({wish}, kPicture);
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_NE(labels[0].side, 0) << "there is no room on the right";
    for (const int nonsense : {-1, 99, std::numeric_limits<int>::min(), std::numeric_limits<int>::max()}) {
        wish.earlier_side = nonsense;
        EXPECT_TRUE(equal(place_labels({wish}, kPicture), labels));
    }
}

TEST(Labels, StayWhereTheyAreWhenAskedAgain) {
    Dice dice(12);
    for (int round = 0; round < 50; ++round) {
        auto wishes = random_wishes(dice, 150);
        const auto first = place_labels(wishes, kPicture);
        for (const PlacedLabel& label : first) wishes[label.wish].earlier_side = label.side;
        EXPECT_TRUE(equal(place_labels(wishes, kPicture), first)) << "round " << round;
    }
}

TEST(Labels, SeldomJumpWhileAnchorsDrift) {
    Dice dice(5);
    auto wishes = random_wishes(dice, 60);
    std::map<std::size_t, int> sides;
    int kept = 0;
    int changed = 0;
    for (int frame = 0; frame < 200; ++frame) {
        for (std::size_t i = 0; i < wishes.size(); ++i) {
            const float turn = static_cast<float>(i) + 0.01F * static_cast<float>(frame);
            wishes[i].anchor_px += 0.5F * glm::vec2(std::cos(turn), std::sin(turn));
            const auto earlier = sides.find(i);
            wishes[i].earlier_side = earlier == sides.end() ? std::nullopt : std::optional(earlier->second);
        }
        const auto labels = place_labels(wishes, kPicture);
        std::map<std::size_t, int> now;
        for (const PlacedLabel& label : labels) {
            now[label.wish] = label.side;
            const auto earlier = sides.find(label.wish);
            if (earlier != sides.end()) (earlier->second == label.side ? kept : changed) += 1;
        }
        sides = now;
    }
    EXPECT_GT(kept, 3000);
    EXPECT_LT(changed * 40, kept) << "of " << kept << " only " << changed << " changed sides";
}

TEST(Labels, ANewcomerOfEqualImportanceTakesNoPlaceOfAnEarlierOne) {
    const glm::vec2 small{80.0F, 20.0F};
    std::vector<LabelWish> wishes(2, {{5.0F, 10.0F}, kSize, 1, std::nullopt});
    wishes[1].earlier_side = place_labels({wishes[1]}, small).at(0).side;
    const auto labels = place_labels(wishes, small);
    ASSERT_EQ(labels.size(), 1U);
    EXPECT_EQ(labels[0].wish, 1U);
}

TEST(Labels, WithoutSizeOrPlaceAreLeftOut) {
    const float nan = std::numeric_limits<float>::quiet_NaN();
    const float infinite = std::numeric_limits<float>::infinity();
    const std::vector<LabelWish> wishes = {
        {{400.0F, 300.0F}, {0.0F, 10.0F}, 0, std::nullopt},
        {{400.0F, 300.0F}, {10.0F, -1.0F}, 0, std::nullopt},
        {{nan, 300.0F}, kSize, 0, std::nullopt},
        {{400.0F, infinite}, kSize, 0, std::nullopt},
        {{400.0F, 300.0F}, {nan, 10.0F}, 0, std::nullopt},
        {{400.0F, 300.0F}, {1e9F, 10.0F}, 0, std::nullopt},
        {{-500.0F, -500.0F}, kSize, 0, std::nullopt},
        {{1e30F, 1e30F}, kSize, 0, std::nullopt},
        {{400.0F, 300.0F}, {infinite, 5}, 0, std::nullopt},
    };
    EXPECT_TRUE(place_labels(wishes, kPicture).empty());
    EXPECT_TRUE(place_labels({{{0.0F, 0.0F}, kSize, 0, std::nullopt}}, {0.0F, 0.0F}).empty());
}

}  // namespace
}  // namespace couplet
