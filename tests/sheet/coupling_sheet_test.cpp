#include "sheet/coupling_sheet.hpp"

#include <gtest/gtest.h>

#include "sheet/hand_sheets.hpp"

namespace couplet {
namespace {

std::string start_of(Format format) {
    const HandSheet hand = capstan_sheet();
    return coupling_sheet(hand.train, hand.sheet, format).substr(0, 17);
}

TEST(CouplingSheetText, ComesInFourFormats) {
    EXPECT_EQ(start_of(Format::text), "Harbour capstan\n=");
    EXPECT_EQ(start_of(Format::md), "# Harbour capstan");
    EXPECT_EQ(start_of(Format::csv), "setting,outcome,f");
    EXPECT_EQ(start_of(Format::json), "{\n  \"couplet\": 1,");
}

}  // namespace
}  // namespace couplet
