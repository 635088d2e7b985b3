// Train parts: a member and a gear in one line each.
#pragma once

#include <string>
#include <utility>

#include "train/train.hpp"

namespace couplet {

[[nodiscard]] inline Member member(std::string name, MemberIndex rides_on = kFrame) {
    Member made;
    made.name = std::move(name);
    made.rides_on = rides_on;
    return made;
}

[[nodiscard]] inline Gear gear(MemberIndex on, int teeth, std::string name = "") {
    Gear made;
    made.member = on;
    made.name = std::move(name);
    made.teeth = teeth;
    return made;
}

}  // namespace couplet
