#include "cli/options.hpp"

#include <gtest/gtest.h>

#include "support/ratio_printer.hpp"
#include "support/train_notation.hpp"

namespace couplet {
namespace {

TEST(NumberOf, ReadsTheDecimalWritten) {
    EXPECT_EQ(number_of("--first", "0.1", "1"), Ratio(1, 10));
    EXPECT_EQ(number_of("--first", "43/10", "1"), Ratio(43, 10));
    EXPECT_EQ(number_of("--first", "-1e3", "1"), Ratio(-1000));
    EXPECT_THROW((void)number_of("--first", "1,5", "1"), UsageError);
    EXPECT_THROW((void)number_of("--first", "inf", "1"), UsageError);
    EXPECT_THROW((void)number_of("--first", "", "1"), UsageError);
    EXPECT_THROW((void)number_of("--first", "1/0", "1"), UsageError);
}

TEST(MemberOf, FindsMembersAndTheFrame) {
    const Train train = train_from("a 20 x b 30");
    EXPECT_EQ(member_of(train, "b"), MemberIndex{1});
    EXPECT_EQ(member_of(train, "frame"), kFrame);
    EXPECT_THROW((void)member_of(train, "c"), UsageError);
    EXPECT_THROW((void)turning_member_of(train, "frame"), UsageError);
    EXPECT_THROW((void)member_of(Train(), "a"), UsageError);
}

TEST(FormatOf, KnowsFourFormats) {
    SheetOptions options;
    EXPECT_EQ(format_of(options), Format::text);
    options.format = "md";
    EXPECT_EQ(format_of(options), Format::md);
    options.format = "JSON";
    EXPECT_THROW((void)format_of(options), UsageError);
}

TEST(WantsAllSettings, TakesAllOnly) {
    SheetOptions options;
    EXPECT_FALSE(wants_all_settings(options));
    options.settings = "all";
    EXPECT_TRUE(wants_all_settings(options));
    options.settings = "low";
    EXPECT_THROW((void)wants_all_settings(options), UsageError);
}

}  // namespace
}  // namespace couplet
