#include "export/plain_names.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

using Names = std::vector<std::string>;

TEST(PlainNames, KeepsWhatIsPlain) {
    EXPECT_EQ(plain_names({"frame", "planet_2", "Sun"}), (Names{"frame", "planet_2", "Sun"}));
}

TEST(PlainNames, ChangesWhatIsNot) {
    EXPECT_EQ(plain_names({"planet 2", "a/../b", "Räd", "  ", "3rd shaft"}),
              (Names{"planet_2", "a_b", "R_d", "member", "m_3rd_shaft"}));
}

TEST(PlainNames, KeepsNamesApartAndPlainOnesAsTheyAre) {
    EXPECT_EQ(plain_names({"sun wheel", "sun_wheel", "sun-wheel"}), (Names{"sun_wheel_2", "sun_wheel", "sun_wheel_3"}));
    // File systems that do not tell letters by their case.
    EXPECT_EQ(plain_names({"Sun", "sun"}), (Names{"Sun", "sun_2"}));
    EXPECT_EQ(plain_names({"ö", "ü", "member_2"}), (Names{"member", "member_3", "member_2"}));
}

}  // namespace
}  // namespace couplet
