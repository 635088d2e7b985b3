#include "app/study.hpp"

#include <exception>
#include <stdexcept>

namespace couplet {

namespace {

// A part, or the words of what was in its way. What is thrown here is about the train as it stands; the user goes on
// editing it.
template <class Part, class Work>
std::shared_ptr<const OrWhyNot<Part>> tried(Work work) {
    auto result = std::make_shared<OrWhyNot<Part>>();
    try {
        result->part = work();
    } catch (const std::bad_alloc&) {
        result->why_not = "this train is too large for the memory there is";
    } catch (const std::exception& error) {
        result->why_not = error.what();
    }
    return result;
}

bool same_wish(const ClipWish& a, const ClipWish& b) {
    return a.settings == b.settings && a.seconds == b.seconds && a.fps == b.fps && a.loop == b.loop &&
           a.turns == b.turns && a.observer == b.observer;
}

CouplingSheet sheet_of(const Draft& draft, const CoupleOptions& options) {
    return couple(draft.train, running_setting(draft), options);
}

}  // namespace

bool same_teeth(const Train& a, const Train& b) {
    return a.teeth == b.teeth && a.members == b.members && a.gears == b.gears && a.meshes == b.meshes;
}

Study::Study(Draft draft, CoupleOptions options, const Study* earlier)
    : draft_(std::move(draft)), sheet_(sheet_of(draft_, options)) {
    if (earlier == nullptr || !same_teeth(earlier->train(), train())) return;
    sizes_ = earlier->sizes_;
    assembly_ = earlier->assembly_;
    stage_ = earlier->stage_;
    if (earlier->setting() == setting()) places_ = earlier->places_;
}

const OrWhyNot<TrainSizes>& Study::sizes() const {
    if (!sizes_) sizes_ = tried<TrainSizes>([&] { return train_sizes(train(), false); });
    return *sizes_;
}

const OrWhyNot<Assembly>& Study::assembly() const {
    if (!assembly_)
        assembly_ = tried<Assembly>([&] {
            const TrainTeeth teeth = teeth_of(train());
            const Placement placement = place_members(train(), teeth);
            return assembly_of(train(), teeth, placement, starting_rotations(train(), placement));
        });
    return *assembly_;
}

const OrWhyNot<TrainPlaces>& Study::places() const {
    if (!places_)
        places_ = tried<TrainPlaces>([&] {
            return train_places(train(), false, {}, draft_.chosen.value < 0 ? std::nullopt : std::optional(setting()));
        });
    return *places_;
}

const OrWhyNot<std::shared_ptr<const Stage>>& Study::stage() const {
    if (!stage_)
        stage_ = tried<std::shared_ptr<const Stage>>([&] { return std::make_shared<const Stage>(stage_of(train())); });
    return *stage_;
}

const OrWhyNot<ClipPlan>& Study::clip_plan(const ClipWish& wish) const {
    if (clip_plan_ && planned_for_ && same_wish(*planned_for_, wish)) return *clip_plan_;
    planned_for_ = wish;
    clip_plan_ = tried<ClipPlan>([&] {
        if (!stage().part) throw std::runtime_error(stage().why_not);
        const Stage& shown = **stage().part;
        return plan_clip(train(), shown.placement, shown.rotations, wish);
    });
    return *clip_plan_;
}

}  // namespace couplet
