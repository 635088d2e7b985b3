#include "sheet/coupling_table.hpp"

#include <gtest/gtest.h>

#include <map>

#include "exact/decimal.hpp"
#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

// Heading and unit to what stands in full in the only row.
std::map<std::string, std::string> row_of(const HandSheet& hand) {
    const Table table = coupling_table(hand.train, hand.sheet);
    EXPECT_EQ(table.rows.size(), 1U);
    EXPECT_EQ(table.rows[0].size(), table.columns.size());
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Column& column = table.columns[i];
        row[column.heading + (column.unit.empty() ? "" : ", " + column.unit)] = table.rows[0].at(i).full;
    }
    EXPECT_EQ(row.size(), table.columns.size()) << "two columns are called the same";
    return row;
}

TEST(CouplingTable, HasEveryNumberOfACoupling) {
    auto row = row_of(capstan_sheet());
    EXPECT_EQ(row["setting"], "hauling");
    EXPECT_EQ(row["outcome"], "moves");
    EXPECT_EQ(row["first joint"], "crank on frame");
    EXPECT_EQ(row["second joint"], "planet on drum");
    EXPECT_EQ(row["second per first, exact turns"], "-161/240");
    EXPECT_EQ(row["first angle, deg"], "360");
    EXPECT_EQ(row["second angle, deg"], "-241.5");
    EXPECT_EQ(row["type second, deg"], "-241.5");
    EXPECT_EQ(row["typed pair is exact"], "yes");
    EXPECT_EQ(row["drift, deg per 1000 turns of first"], "0");
    EXPECT_EQ(row["whole first, deg"], "240");
    EXPECT_EQ(row["whole second, deg"], "-161");
    EXPECT_EQ(row["sense"], "opposite");
    EXPECT_EQ(row["formula of second angle, deg"], "-360 * 21/24 * 69/(21+69)");
    EXPECT_EQ(row["bare tooth ratio, exact turns"], "-7/8");
    EXPECT_EQ(row["carrier correction, deg per turn of first"], "-73.5");
    EXPECT_EQ(row["verdict"], "");
    EXPECT_EQ(row["obstacle"], "");
}

TEST(CouplingTable, HasTheVerdictOnTypedAngles) {
    auto row = row_of(audited_sheet({360, -315}, Mistake::swapped, Ratio(-147, 2)));
    EXPECT_EQ(row["typed first, deg"], "360");
    EXPECT_EQ(row["typed second, deg"], "-315");
    EXPECT_EQ(row["verdict"], "wrong");
    EXPECT_EQ(row["explanation"], "The two angles stand in each other's place.");
}

TEST(CouplingTable, LeavesNumbersEmptyWhereThereIsAnObstacle) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first.reset();
    hand.coupling().obstacle = Obstacle::undetermined;
    auto row = row_of(hand);
    EXPECT_EQ(row["second per first, exact turns"], "");
    EXPECT_EQ(row["sense"], "");
    EXPECT_EQ(row["obstacle"], "There is no motion in this setting, so nothing can be coupled.");
}

TEST(CouplingTable, NeverAbbreviates) {
    HandSheet hand = capstan_sheet();
    hand.coupling().second_per_first = Ratio(1, 3) * power_of_ten(-60);
    EXPECT_EQ(row_of(hand)["second per first, exact turns"], "1/3" + std::string(60, '0'));
}

}  // namespace
}  // namespace couplet
