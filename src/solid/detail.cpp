#include "solid/detail.hpp"

namespace couplet {

namespace {

void take_off(GearShape& gear) {
    gear.key_width_mm = 0.0;
    gear.holes = 0;
}

void take_off(RingShape& ring) {
    ring.bolts = 0;
}

}  // namespace

Shape with_detail(Shape shape, Detail detail) {
    std::visit(
        [&](auto& s) {
            if constexpr (requires { s.marked; }) {
                s.marked = s.marked && detail == Detail::marked;
                if (detail == Detail::plain) take_off(s);
            }
        },
        shape);
    return shape;
}

}  // namespace couplet
