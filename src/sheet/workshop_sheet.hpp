// Workshop sheet: everything on paper beside the modeller, in the order in which a model is made and proved.
//
// Picture, which gears are in mesh, sizes, places and starting rotations, joints in order, couplings to type, a proving
// table, lever diagram and speed plan, checks, cautions. Lengths in mm, angles in degrees.
#pragma once

#include <optional>
#include <string>

#include "couple/coupling.hpp"
#include "sheet/check_sheet.hpp"
#include "sheet/page.hpp"
#include "sheet/place_sheet.hpp"
#include "sheet/size_sheet.hpp"

namespace couplet {

struct WorkshopSheet {
    CouplingSheet couplings;
    TrainSizes sizes;  // its train is the sheet's
    TrainPlaces places;
    TrainChecks checks;
    std::string date;                        // as it is printed: "2026-06-21"
    std::optional<std::string> picture_png;  // of the train, where it could be drawn
};

// Eight hexadecimal digits (CRC-32, ITU-T V.42) of the train's canonical scene text: two sheets of one train have the
// same, whatever the scene's comments say.
[[nodiscard]] std::string scene_mark(const Train& train);

[[nodiscard]] Page workshop_page(const WorkshopSheet& sheet);

}  // namespace couplet
