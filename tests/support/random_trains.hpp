// Random trains: trains without faults in settings of every outcome, the same for a seed on every machine.
#pragma once

#include <cstdint>

#include "train/train.hpp"

namespace couplet {

struct RandomTrain {
    Train train;
    Setting setting;
};

struct RandomTrainKind {
    int most_members = 60;
    // No two members that ride on the frame are in mesh, so that the whole train may turn about the frame's axis.
    bool coaxial = false;
    // Drivers that fix every rate, none of them too many.
    bool moves = false;
};

// Fixed pairs; simple, stepped and paired planetary sets that share members; carriers on planets and on carriers;
// planets beside planets that say the same; now and then a mesh too many. Holds, ties and drivers that mostly suit the
// train's freedom, and are sometimes too few or too many.
[[nodiscard]] RandomTrain random_train(std::uint64_t seed, const RandomTrainKind& kind = {});

}  // namespace couplet
