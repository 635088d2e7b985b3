#include "sheet/quantity.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace couplet {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

TEST(MeasuredJson, IsNullWhereThereIsNoNumber) {
    EXPECT_EQ(measured_json(1.5), Json(1.5));
    EXPECT_TRUE(measured_json(kNone).is_null());
    EXPECT_TRUE(measured_json(std::numeric_limits<double>::infinity()).is_null());
    EXPECT_TRUE(measured_json(std::optional<double>()).is_null());
    EXPECT_TRUE(measured_json(std::optional<double>(kNone)).is_null());
}

TEST(MeasuredCell, ShowsThreeDecimalsOfLengthsAndAtMostFourOfTheRest) {
    EXPECT_EQ(measured_cell(63, "mm").shown, "63.000");
    EXPECT_EQ(measured_cell(0.123456, "deg").shown, "0.1235");
    EXPECT_EQ(measured_cell(20.0, "deg").shown, "20");
    EXPECT_EQ(measured_cell(0.123456, "deg").full, "0.123456");
    EXPECT_EQ(measured_cell(-1e-7, "mm").shown, "0.000");
    EXPECT_EQ(measured_cell(-1e-7, "").shown, "0");
    EXPECT_EQ(measured_cell(kNone, "mm").shown, "none");
    EXPECT_EQ(measured_cell(kNone, "mm").full, "");
}

TEST(Quantities, MakeAnObjectATableAndAList) {
    const std::vector<Quantity> quantities = {{"teeth", "teeth", "", 21},
                                              {"internal", "internal", "", false},
                                              {"span_mm", "span", "mm", nullptr},
                                              {"hidden_mm", "", "mm", 2.0}};
    EXPECT_EQ(quantities_json(quantities).dump(), R"({"teeth":21,"internal":false,"span_mm":null,"hidden_mm":2.0})");
    const Table table = quantities_table("sun", quantities);
    ASSERT_EQ(table.rows.size(), 3U);
    EXPECT_EQ(table.rows[1][1].shown, "no");
    EXPECT_EQ(table.rows[2][1].shown, "none");
    EXPECT_EQ(table.rows[2][2].shown, "");
    Table list = quantities_list();
    add_quantities(list, "gear", "sun", quantities);
    EXPECT_EQ(csv_table(list),
              "what,name,quantity,value,unit\r\ngear,sun,teeth,21,\r\ngear,sun,internal,false,\r\n"
              "gear,sun,span_mm,,mm\r\ngear,sun,hidden_mm,2,mm\r\n");
}

}  // namespace
}  // namespace couplet
