#include "app/stage_view.hpp"

#include <chrono>

#include "app/stage_frame.hpp"
#include "app/theme.hpp"

namespace couplet {

namespace {

// The smallest gap of the mesh that the Place panel shows: a glow where it is.
void show_gap(Picture& picture, const Session& session, const Standing& standing) {
    if (!session.view.mesh_shown) return;
    const std::optional<glm::dvec3> at = gap_on_stage(session, standing, *session.view.mesh_shown);
    if (!at) return;
    const auto module_mm = static_cast<float>(session.stage->teeth.gears.front().transverse_module_mm);
    picture.glows.push_back({glm::vec3(*at), module_mm, {1.0F, 0.35F, 0.1F}});
}

Quality quality_of(Fineness fineness) {
    return fineness == Fineness::full ? kFullQuality : kLightQuality;
}

}  // namespace

void StageView::draw(const Session& session, const StageMoment& moment, glm::ivec2 size_px, double now_s) {
    Shown now{session.stage_count,
              session.crank.changes(),
              moment.clip_frame,
              session.study.get(),
              moment.look,
              session.view.mesh_shown,
              moment.shown,
              size_px,
              session.preferences.daylight};
    now.look.lit_up = session.view.pointed;
    if (shown_ && (shown_->stage_count != now.stage_count || shown_->size_px != size_px)) pace_.forget();
    const bool changed = !shown_ || !(*shown_ == now);
    shown_ = now;
    if (changed) {
        changed_s_ = now_s;
        draw_picture(session, moment.standing, pace_.for_moving());
    } else if (pace_.full_is_due(fineness_, changed_s_, now_s)) {
        draw_picture(session, moment.standing, Fineness::full);
    }
    renderer_.copy_own(0, size_px);
}

void StageView::draw_picture(const Session& session, const Standing& standing, Fineness fineness) {
    const auto begin = std::chrono::steady_clock::now();
    Picture picture = picture_of(*session.stage, standing, shown_->look, shown_->camera);
    picture.backdrop = theme_of(shown_->daylight).backdrop;
    show_gap(picture, session, standing);
    const glm::ivec2 size_px = fineness == Fineness::half ? (shown_->size_px + 1) / 2 : shown_->size_px;
    renderer_.draw(picture, quality_of(fineness), size_px, renderer_.own_target(size_px));
    renderer_.finish();
    ++pictures_;
    fineness_ = fineness;
    pace_.took(fineness, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
}

std::optional<double> StageView::finer_at_s() const {
    if (fineness_ == Fineness::full) return std::nullopt;
    return changed_s_ + DrawingPace::kRest_s;
}

}  // namespace couplet
