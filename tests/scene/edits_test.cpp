#include "scene/edits.hpp"

#include <gtest/gtest.h>

namespace couplet {
namespace {

TEST(TextEdits, LeaveTheTextWhereThereAreNone) {
    EXPECT_EQ(TextEdits{}.applied_to("as it was"), "as it was");
}

TEST(TextEdits, ApplyAtPlacesOfTheTextAsItWas) {
    TextEdits edits;
    edits.replace({6, 9}, "is");
    edits.erase({0, 3});
    edits.insert(9, " now");
    EXPECT_EQ(edits.applied_to("as it was"), "it is now");
}

TEST(TextEdits, KeepTheOrderOfInsertionsAtOnePlace) {
    TextEdits edits;
    edits.erase({1, 2});
    edits.insert(1, "1");
    edits.insert(1, "2");
    EXPECT_EQ(edits.applied_to("a-b"), "a12b");
}

TEST(TextEdits, EraseOverlappingPiecesOnce) {
    TextEdits edits;
    edits.erase({1, 4});
    edits.erase({2, 6});
    edits.erase({3, 4});
    EXPECT_EQ(edits.applied_to("01234567"), "067");
}

}  // namespace
}  // namespace couplet
