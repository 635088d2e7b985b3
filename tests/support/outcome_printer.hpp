// Outcome printer: lets a failing test name an outcome.
#pragma once

#include <ostream>

#include "motion/motion.hpp"

namespace couplet {

inline void PrintTo(Outcome outcome, std::ostream* out) {
    switch (outcome) {
        case Outcome::moves:
            *out << "moves";
            return;
        case Outcome::free:
            *out << "free";
            return;
        case Outcome::locked:
            *out << "locked";
            return;
        case Outcome::conflicting:
            *out << "conflicting";
            return;
    }
}

}  // namespace couplet
