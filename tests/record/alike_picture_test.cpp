// The loop that looks alike (place/alike_loop.hpp), by the look of its pictures.
#include "motion/loop.hpp"
#include "place/alike_loop.hpp"
#include "record/small_clip.hpp"
#include "view/drawing.hpp"
#include "view/likeness.hpp"

namespace couplet {
namespace {

class AlikePicture : public DrawingTest {
  protected:
    // A clip of one alike loop, the camera standing.
    static Clip alike_clip(const std::string& scene) {
        Clip clip = small_clip(scene, 0, 1, 60);
        const Motion& motion = clip.schedule.legs[0].motion;
        clip.schedule.legs[0].turns =
            alike_loop_turns(clip.stage.train, clip.stage.placement, clip.stage.rotations, motion).value();
        clip.path.kind = PathKind::fixed;
        clip.path.camera.elevation_rad = 1.1;  // looks onto the teeth
        clip.look.plain = true;
        clip.size_px = {480, 270};
        clip.quality = kFullQuality;
        return clip;
    }
    // The frame against the first one.
    static Likeness seam(const Clip& clip, int frame) {
        return likeness(drawn(picture_at(clip, frame), clip.quality, clip.size_px),
                        drawn(picture_at(clip, 0), clip.quality, clip.size_px));
    }
    static std::string words(const Likeness& found) {
        return "mean " + std::to_string(found.mean) + ", worst " + std::to_string(found.worst) + ", colour " +
               std::to_string(found.colour);
    }
};

// Round bodies are many-sided, and stand elsewhere on their sides: found are 0.9989 to 0.9995, 0.967 to 0.977 and 1.9;
// with marks 0.964 to 0.982, 0.46 or less and 8 or more.
bool shows_no_seam(const Likeness& found) {
    return found.mean >= 0.998 && found.worst >= 0.95 && found.colour <= 4.0;
}

constexpr const char* kScenes[] = {"harbour_capstan", "signal_arm", "slipway_gearbox"};

TEST_F(AlikePicture, IsTheSameAfterTheLoopToTheEye) {
    for (const char* scene : kScenes) {
        const Likeness found = seam(alike_clip(scene), 60);
        EXPECT_TRUE(shows_no_seam(found)) << scene << ": " << words(found);
    }
}

TEST_F(AlikePicture, IsShorterThanTheLoopOfEveryTooth) {
    for (const char* scene : kScenes) {
        const Clip clip = alike_clip(scene);
        const Leg& leg = clip.schedule.legs[0];
        EXPECT_LT(leg.turns, strict_loop_turns(leg.motion).value()) << scene;
    }
}

TEST_F(AlikePicture, IsAnotherOneBefore) {
    for (const char* scene : kScenes)
        for (const int frame : {20, 30, 40, 59}) {
            const Likeness found = seam(alike_clip(scene), frame);
            EXPECT_FALSE(shows_no_seam(found)) << scene << ", " << frame << ": " << words(found);
        }
}

TEST_F(AlikePicture, ShowsAMarkThatIsElsewhere) {
    for (const char* scene : kScenes) {
        Clip clip = alike_clip(scene);
        clip.look.plain = false;
        const Likeness found = seam(clip, 60);
        EXPECT_FALSE(shows_no_seam(found)) << scene << ": " << words(found);
        EXPECT_FALSE(looks_alike(found)) << scene << ": " << words(found);
    }
}

}  // namespace
}  // namespace couplet
