// Finding: one design rule looked at in one place of a train.
//
// The same rule is found once and shown everywhere: size, place, check and the panels print it, find rejects by it.
#pragma once

#include <string>

namespace couplet {

// caution: allowed, and worth knowing.
enum class Verdict { holds, fails, caution };

struct Finding {
    std::string rule;   // "tip clearance"
    std::string where;  // "crank, planet" or "ring"
    double figure = 0.0;
    double limit = 0.0;
    std::string unit;  // "mm", "deg", "teeth", "" for a ratio
    Verdict verdict = Verdict::holds;
    std::string source;  // standard and clause, book, or "common practice"
    std::string mend;    // what to change; empty where the rule holds
};

}  // namespace couplet
