#include "export/export_model.hpp"

namespace couplet {

ExportModel export_model_of(const Train& train, const std::optional<Setting>& setting, Shifts shifts) {
    ExportModel model = moving_model_of(shifts == Shifts::matched ? match_shifts(train).train : train, setting);
    model.teeth = teeth_of(model.train);
    model.placement = place_members(model.train, model.teeth);
    model.rotations = starting_rotations(model.train, model.placement);
    model.machine = machine_of(model.train, model.teeth, model.placement, model.rotations);
    return model;
}

ExportModel moving_model_of(const Train& train, const std::optional<Setting>& setting) {
    ExportModel model;
    model.train = train;
    model.setting = setting;
    model.motion = setting ? solve(model.train, *setting) : resting_motion();
    return model;
}

}  // namespace couplet
