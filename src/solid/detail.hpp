// Detail: how much of what tells one tooth or one copy from another a shape shows.
#pragma once

#include "solid/shape.hpp"

namespace couplet {

// plain: no tooth marks, keyways, holes through webs or bolts, so that teeth and copies are all alike.
enum class Detail { marked, unmarked, plain };

[[nodiscard]] Shape with_detail(Shape shape, Detail detail);

}  // namespace couplet
