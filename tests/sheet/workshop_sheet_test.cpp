#include "sheet/workshop_sheet.hpp"

#include <gtest/gtest.h>

#include "scene/default_scene.hpp"
#include "scene/scene.hpp"
#include "sheet/html_page.hpp"

namespace couplet {
namespace {

WorkshopSheet sheet_of(const Train& train) {
    WorkshopSheet sheet;
    const Setting& setting = train.settings.front();
    sheet.couplings = couple(train, setting, {});
    sheet.sizes = train_sizes(train, false);
    sheet.places = train_places(train, false, {}, setting);
    sheet.checks = check_train(train, {false, Copies::alike, setting});
    sheet.date = "2026-06-21";
    sheet.picture_png = "not looked at here";
    return sheet;
}

Train capstan() {
    return read_scene(default_scene(), "capstan.toml");
}

const Table* table_after(const Page& page, const std::string& heading) {
    bool found = false;
    for (const Block& block : page.blocks) {
        if (const Heading* one = std::get_if<Heading>(&block)) found = one->text == heading;
        if (const Table* table = std::get_if<Table>(&block); table != nullptr && found) return table;
    }
    return nullptr;
}

std::vector<std::string> headings(const Page& page) {
    std::vector<std::string> texts;
    for (const Block& block : page.blocks)
        if (const Heading* heading = std::get_if<Heading>(&block)) texts.push_back(heading->text);
    return texts;
}

TEST(WorkshopPage, HasItsPartsInTheOrderOfTheWork) {
    const std::vector<std::string> expected = {"Which gears are in mesh",
                                               "Teeth and sizes",
                                               "1. Positions of the axes",
                                               "2. Starting rotations",
                                               "3. Copies: rotate the first one round the centre",
                                               "Joints to make, in this order",
                                               "Members: turns against the frame",
                                               "Couplings: the two angles to type",
                                               "Where the numbers come from",
                                               "Stands still: fix this joint instead of coupling it",
                                               "Proving table",
                                               "Lever diagram",
                                               "Speed plan",
                                               "Checks",
                                               "What fails and what to watch",
                                               "What holds",
                                               "Cautions"};
    EXPECT_EQ(headings(workshop_page(sheet_of(capstan()))), expected);
}

// Planet on drum: -161/240 of the crank (design, section 5). 30 x -161/240 = -20.125, and 360 - 20.125 = 339.875;
// ten turns: 3600 x -161/240 = -2415 = 105 - 7 x 360.
TEST(WorkshopPage, ProvesEachJointAtSeveralAngles) {
    const Page page = workshop_page(sheet_of(capstan()));
    const Table* table = table_after(page, "Proving table");
    ASSERT_NE(table, nullptr);
    ASSERT_EQ(table->rows.size(), 4U);
    EXPECT_EQ(table->rows[2][0].shown, "planet on drum");
    EXPECT_EQ(table->rows[2][1].shown, "-20.125 (339.875)");
    EXPECT_EQ(table->rows[2][4].shown, "-2415 (105)");
    EXPECT_EQ(table->rows[0][3].shown, "360 (0)");
}

// What a joint turns against is there before it.
TEST(WorkshopPage, MakesCarriersBeforeWhatTheyCarry) {
    Train train = capstan();
    std::swap(train.members[1], train.members[2]);  // the planet before the drum that it rides on
    train.members[1].rides_on = {2};
    const auto other = [](MemberIndex member) {
        return member.value == 1 ? MemberIndex{2} : member.value == 2 ? MemberIndex{1} : member;
    };
    for (Gear& gear : train.gears) gear.member = other(gear.member);
    train.joints.clear();
    train.couplings.clear();
    train.shots.clear();
    train.settings = {{"hauling", {*find_member(train, "ring")}, {}, {{*find_member(train, "crank"), Ratio(30)}}}};
    const Page page = workshop_page(sheet_of(train));
    const Table* table = table_after(page, "Joints to make, in this order");
    ASSERT_NE(table, nullptr);
    std::vector<std::string> turns;
    for (const auto& row : table->rows) turns.push_back(row[2].shown);
    EXPECT_LT(std::ranges::find(turns, "drum"), std::ranges::find(turns, "planet (3 copies)"));
}

TEST(WorkshopPage, OfATrainThatStandsSaysSoInsteadOfProving) {
    Train train = capstan();
    train.settings.front().hold.push_back(*find_member(train, "drum"));
    const Page page = workshop_page(sheet_of(train));
    EXPECT_EQ(table_after(page, "Proving table"), nullptr);
    EXPECT_NE(html_page(page).find("locked"), std::string::npos);
}

TEST(SceneMark, IsTheTrainsAndNotItsCommentsMark) {
    const std::string text = std::string(default_scene());
    EXPECT_EQ(scene_mark(capstan()), scene_mark(read_scene("# a remark\n" + text, "capstan.toml")));
    Train other = capstan();
    ++other.gears.front().teeth;
    EXPECT_NE(scene_mark(capstan()), scene_mark(other));
    EXPECT_EQ(scene_mark(capstan()).size(), 8U);
}

}  // namespace
}  // namespace couplet
