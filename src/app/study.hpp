// Study: everything that follows from a draft, each part worked out when it is first asked for.
//
// What cannot be worked out is told in words; only a train that has no motion at all (crossing axes, rates too large to
// hold) makes the constructor throw, as solve does (motion/motion.hpp). For one thread.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/draft.hpp"
#include "couple/coupling.hpp"
#include "record/clip_plan.hpp"
#include "sheet/place_sheet.hpp"
#include "sheet/size_sheet.hpp"
#include "view/stage.hpp"

namespace couplet {

// A part, or why there is none.
template <class Part>
struct OrWhyNot {
    std::optional<Part> part;
    std::string why_not;
};

class Study {
  public:
    // `earlier`, where there is one, lends what still holds: teeth and stage do not depend on settings.
    Study(Draft draft, CoupleOptions options, const Study* earlier = nullptr);

    [[nodiscard]] const Draft& draft() const { return draft_; }
    [[nodiscard]] const Train& train() const { return draft_.train; }
    [[nodiscard]] const Setting& setting() const { return sheet_.setting; }
    [[nodiscard]] const Motion& motion() const { return sheet_.motion; }
    // Outcome, rates and couplings of the running setting.
    [[nodiscard]] const CouplingSheet& sheet() const { return sheet_; }

    // Sizes and the design rules of teeth.
    [[nodiscard]] const OrWhyNot<TrainSizes>& sizes() const;
    // Whether all copies can be put in: a part of places() that takes no proof.
    [[nodiscard]] const OrWhyNot<Assembly>& assembly() const;
    // Places, starting rotations, assembly and the proof of mesh in the running setting.
    [[nodiscard]] const OrWhyNot<TrainPlaces>& places() const;
    // The machine on its bench.
    [[nodiscard]] const OrWhyNot<std::shared_ptr<const Stage>>& stage() const;
    // What a clip of it would be; that of the last wish is kept.
    [[nodiscard]] const OrWhyNot<ClipPlan>& clip_plan(const ClipWish& wish) const;

  private:
    Draft draft_;
    CouplingSheet sheet_;
    mutable std::shared_ptr<const OrWhyNot<TrainSizes>> sizes_;
    mutable std::shared_ptr<const OrWhyNot<Assembly>> assembly_;
    mutable std::shared_ptr<const OrWhyNot<TrainPlaces>> places_;
    mutable std::shared_ptr<const OrWhyNot<std::shared_ptr<const Stage>>> stage_;
    mutable std::optional<ClipWish> planned_for_;
    mutable std::shared_ptr<const OrWhyNot<ClipPlan>> clip_plan_;
};

// True where two trains have the same geometry: all but titles, settings, joints and couplings.
[[nodiscard]] bool same_teeth(const Train& a, const Train& b);

}  // namespace couplet
