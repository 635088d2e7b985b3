#include "record/clip.hpp"

namespace couplet {

Picture picture_at(const Clip& clip, int frame, int drawing) {
    const Instant own = instant_at(clip.schedule, Ratio(frame));
    const Ratio open = Ratio(drawing, std::int64_t{kOpenPart} * clip.grain.drawings);
    const Instant instant = drawing == 0 ? own : instant_at(clip.schedule, Ratio(frame) + open);
    const Motion& motion = clip.schedule.legs[instant.leg].motion;
    const std::vector<Ratio> standing_still(clip.stage.train.members.size());
    const Standing standing = standing_with(
        clip.stage, motion, instant.joint_phases_turns.empty() ? standing_still : instant.joint_phases_turns);
    Picture picture = picture_of(clip.stage, standing, clip.look, camera_at(clip.path, instant.part));
    // Letters stay sharp: all drawings of a frame tell its own instant.
    picture.captions = captions_at(clip.stage.train, clip.schedule, own, clip.captions);
    return picture;
}

}  // namespace couplet
