// Given setting: a setting made on the command line, from what is held, tied and driven.
#pragma once

#include <string>
#include <vector>

#include "train/train.hpp"

namespace couplet {

struct GivenSetting {
    std::vector<std::string> hold;   // "NAME"
    std::vector<std::string> tie;    // "A=B"
    std::vector<std::string> drive;  // "NAME" or "NAME=RPM", 1 rpm where none is given

    [[nodiscard]] bool is_given() const { return !hold.empty() || !tie.empty() || !drive.empty(); }
};

// Throws UsageError for unknown members, numbers that are none, and members held, tied or driven twice. It has no name.
[[nodiscard]] Setting setting_of(const Train& train, const GivenSetting& given);

}  // namespace couplet
