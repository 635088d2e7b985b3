#include "app/keys.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>

namespace couplet {
namespace {

TEST(Keys, DoOneThingEach) {
    std::set<std::string> strokes;
    for (const KeyEntry& entry : key_table()) EXPECT_TRUE(strokes.insert(stroke_text(entry.stroke)).second);
    EXPECT_EQ(strokes.size(), key_table().size());
}

// The card puts the strokes of a deed on one line, so they stand together and say the same.
TEST(Keys, OfOneDeedStandTogether) {
    std::map<KeyDeed, const KeyEntry*> last;
    for (const KeyEntry& entry : key_table()) {
        if (const auto earlier = last.find(entry.deed); earlier != last.end()) {
            EXPECT_EQ(earlier->second, &entry - 1);
            EXPECT_EQ(earlier->second->words, entry.words);
        }
        last[entry.deed] = &entry;
    }
}

// The card is drawn group by group, and every deed of the enum has a key.
TEST(Keys, AreSortedByGroupAndReachEveryDeed) {
    std::set<KeyDeed> deeds;
    KeyGroup group = KeyGroup::motion;
    for (const KeyEntry& entry : key_table()) {
        EXPECT_GE(entry.group, group);
        group = entry.group;
        deeds.insert(entry.deed);
    }
    EXPECT_EQ(deeds.size(), static_cast<std::size_t>(KeyDeed::daylight) + 1);
}

TEST(Keys, TellShiftAndCtrlApart) {
    const Key z{NamedKey::none, 'Z'};
    EXPECT_EQ(deed_of({z, Modifiers::ctrl}), KeyDeed::undo);
    EXPECT_EQ(deed_of({z, Modifiers::ctrl_shift}), KeyDeed::redo);
    EXPECT_EQ(deed_of({z, Modifiers::none}), std::nullopt);
    EXPECT_EQ(deed_of({{NamedKey::none, 'C'}, Modifiers::none}), KeyDeed::contacts);
    EXPECT_EQ(deed_of({{NamedKey::none, 'C'}, Modifiers::ctrl}), KeyDeed::copy_first_pair);
    EXPECT_EQ(deed_of({{NamedKey::tab, 0}, Modifiers::shift}), KeyDeed::previous_widget);
}

// The steps of the job in the order of the rail (design section 8).
TEST(Keys, OpenTheStepsOfTheJobByTheirNumber) {
    char number = '0';
    for (const KeyDeed deed : {KeyDeed::open_scene_panel, KeyDeed::open_find, KeyDeed::open_size, KeyDeed::open_place,
                               KeyDeed::open_couple, KeyDeed::open_watch, KeyDeed::open_record})
        EXPECT_EQ(deed_of({{NamedKey::none, number++}, Modifiers::none}), deed);
}

TEST(Keys, AreWrittenAsTheyArePressed) {
    EXPECT_EQ(stroke_text({{NamedKey::none, 'S'}, Modifiers::ctrl_shift}), "Ctrl+Shift+S");
    EXPECT_EQ(stroke_text({{NamedKey::space, 0}, Modifiers::none}), "Space");
    EXPECT_EQ(strokes_text(KeyDeed::redo), "Ctrl+Shift+Z or Ctrl+Y");
    EXPECT_EQ(strokes_text(KeyDeed::open_keys), "F1 or ?");
}

}  // namespace
}  // namespace couplet
