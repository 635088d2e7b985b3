#include "scene/pairing.hpp"

#include <gtest/gtest.h>

#include <string>

namespace couplet {
namespace {

std::vector<Entry> entries(const std::vector<std::string>& names) {
    std::vector<Entry> made;
    for (const std::string& name : names) made.push_back({name, {}, {}});
    return made;
}

// For each entry after, the name of its partner before, or "new"; "reordered" where there is no pairing.
std::string pairing(const std::vector<std::string>& before, const std::vector<std::string>& after) {
    const auto partners = paired(entries(before), entries(after));
    if (!partners) return "reordered";
    std::string text;
    for (const auto& partner : *partners) text += (text.empty() ? "" : " ") + (partner ? before[*partner] : "new");
    return text;
}

TEST(Pairing, FindsEntriesByTheirIdentity) {
    EXPECT_EQ(pairing({"a", "b", "c"}, {"a", "b", "c"}), "a b c");
    EXPECT_EQ(pairing({"a", "b", "c"}, {"a", "c"}), "a c");
    EXPECT_EQ(pairing({"a", "c"}, {"a", "b", "c", "d"}), "a new c new");
    EXPECT_EQ(pairing({}, {"a"}), "new");
    EXPECT_EQ(pairing({"a"}, {}), "");
}

TEST(Pairing, TakesAReplacedEntryForARenamedOne) {
    EXPECT_EQ(pairing({"a", "b", "c"}, {"a", "x", "c"}), "a b c");
    EXPECT_EQ(pairing({"a", "b"}, {"x", "y"}), "a b");
}

TEST(Pairing, TakesNoneForRenamedWhereTheCountsDiffer) {
    EXPECT_EQ(pairing({"a", "b", "c"}, {"a", "x", "y", "c"}), "a new new c");
    EXPECT_EQ(pairing({"a", "b", "c", "d"}, {"a", "x", "d"}), "a new d");
}

TEST(Pairing, GivesANamelessEntryTheFirstNameThatCame) {
    using Partners = std::vector<std::optional<std::size_t>>;
    EXPECT_EQ(paired(entries({""}), entries({"outer", "inner"})), (Partners{0, std::nullopt}));
    EXPECT_EQ(paired(entries({""}), entries({})), Partners{});
}

TEST(Pairing, PairsEntriesOfOneIdentityInTheirOrder) {
    EXPECT_EQ(pairing({"a", "a", "b"}, {"a", "a", "b"}), "a a b");
    EXPECT_EQ(pairing({"a", "a"}, {"a", "a", "a"}), "a a new");
}

TEST(Pairing, RefusesAChangeOfOrder) {
    EXPECT_EQ(pairing({"a", "b"}, {"b", "a"}), "reordered");
    EXPECT_EQ(pairing({"a", "b", "c"}, {"c", "x", "a"}), "reordered");
}

}  // namespace
}  // namespace couplet
