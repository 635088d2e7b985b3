// TextSpan: a piece of a text, from byte `begin` up to and without byte `end`.
#pragma once

#include <cstddef>

namespace couplet {

struct TextSpan {
    std::size_t begin = 0;
    std::size_t end = 0;
};

}  // namespace couplet
