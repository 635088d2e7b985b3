// Simple set: a sun, planets on a carrier and a ring, as the text of a scene without teeth and settings.
#pragma once

#include <string>

namespace couplet {

// The tooth counts of the design's example.
struct SimpleSetCounts {
    int sun = 21;
    int planet = 24;
    int ring = 69;
    int copies = 3;
};

// Further tables may be written behind it.
[[nodiscard]] inline std::string simple_set_text(const SimpleSetCounts& counts = {}) {
    const auto gear = [](int teeth) { return "[[member.gear]]\nteeth = " + std::to_string(teeth) + "\n"; };
    return "couplet = 1\ntitle = \"Test set\"\n"
           "[[member]]\nname = \"sun\"\n" +
           gear(counts.sun) +
           "[[member]]\nname = \"carrier\"\n"
           "[[member]]\nname = \"planet\"\non = \"carrier\"\ncopies = " +
           std::to_string(counts.copies) + "\n" + gear(counts.planet) + "[[member]]\nname = \"ring\"\n" +
           gear(counts.ring) +
           "internal = true\n"
           "[[mesh]]\ngears = [\"sun\", \"planet\"]\n"
           "[[mesh]]\ngears = [\"planet\", \"ring\"]\n";
}

}  // namespace couplet
