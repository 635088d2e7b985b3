#include "record/clip.hpp"

#include "record/small_clip.hpp"
#include "support/ratio_printer.hpp"
#include "view/shown_scene.hpp"

namespace couplet {
namespace {

bool stand_alike(const Picture& a, const Picture& b) {
    return std::ranges::equal(a.items, b.items, {}, &PictureItem::observer_from_part, &PictureItem::observer_from_part);
}

TEST(Clip, ShowsTheExactPoseOfEachFrame) {
    const Clip clip = small_clip("harbour_capstan", 0, Ratio(40, 7), 30);
    const ShownScene scene = shown_scene("harbour_capstan");
    for (const int k : {0, 1, 17, 29}) {
        const Camera camera = camera_at(clip.path, Ratio(k, 30));
        const Picture picture = picture_at(clip, k);
        EXPECT_TRUE(stand_alike(picture, scene.picture({}, Ratio(40 * k, 210), camera))) << k;
        EXPECT_EQ(picture.camera, camera) << k;
    }
    EXPECT_FALSE(stand_alike(picture_at(clip, 1), picture_at(clip, 2)));
}

// 4 drawings within half of the time from frame to frame: 1/8 of it from one to the next.
TEST(Clip, SpreadsItsDrawingsOverTheOpenHalfOfAFrame) {
    Clip clip = small_clip("harbour_capstan", 0, Ratio(40, 7), 30);
    clip.grain.drawings = 4;
    const ShownScene scene = shown_scene("harbour_capstan");
    for (int drawing = 0; drawing < 4; ++drawing) {
        const Ratio frame = Ratio(29) + Ratio(drawing, 8);
        const Camera camera = camera_at(clip.path, frame / Ratio(30));
        const Picture picture = picture_at(clip, 29, drawing);
        EXPECT_TRUE(stand_alike(picture, scene.picture({}, Ratio(40, 210) * frame, camera))) << drawing;
        EXPECT_EQ(picture.camera, camera) << "the camera's way is blurred too";
    }
}

TEST(Clip, KeepsLettersSharp) {
    Clip clip = small_clip("harbour_capstan", 0, Ratio(40, 7), 30);
    clip.grain.drawings = 4;
    clip.captions.turns = clip.captions.title = true;
    const Picture first = picture_at(clip, 10, 0);
    const Picture last = picture_at(clip, 10, 3);
    ASSERT_GT(first.captions.size(), 1U);
    ASSERT_EQ(first.captions.size(), last.captions.size());
    for (std::size_t i = 0; i < first.captions.size(); ++i) EXPECT_EQ(first.captions[i].text, last.captions[i].text);
    EXPECT_FALSE(stand_alike(first, last));
}

TEST(Clip, StandsWhereItsSettingDoes) {
    const Clip clip = small_clip("stuck_sluice", 0, 0, 5);
    ASSERT_NE(clip.schedule.legs[0].motion.outcome, Outcome::moves);
    EXPECT_TRUE(stand_alike(picture_at(clip, 0), picture_at(clip, 4)));
    EXPECT_FALSE(picture_at(clip, 0).items.empty());
}

TEST(Clip, RidesOnItsObserver) {
    Clip clip = small_clip("harbour_capstan", 0, 3, 10);
    const ShownScene scene = shown_scene("harbour_capstan");
    clip.look.observer = scene.member("drum");
    const Picture picture = picture_at(clip, 4);
    EXPECT_TRUE(stand_alike(picture, scene.picture(clip.look, Ratio(12, 10), picture.camera)));
    clip.look.observer = kFrame;
    EXPECT_FALSE(stand_alike(picture, picture_at(clip, 4)));
}

}  // namespace
}  // namespace couplet
