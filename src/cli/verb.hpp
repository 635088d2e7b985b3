// Verb: one command of the program.
#pragma once

#include <functional>

namespace CLI {
class App;
}

namespace couplet {

struct Verb {
    CLI::App* command;
    // After parsing: does the work and returns the exit status.
    std::function<int()> run;
};

// Which tooth counts give my ratio and still assemble?
[[nodiscard]] Verb add_find_verb(CLI::App& program);

// How big is each gear, and can it be cut and meshed?
[[nodiscard]] Verb add_size_verb(CLI::App& program);

// Where does each part go, and turned by how much, so that the teeth mesh?
[[nodiscard]] Verb add_place_verb(CLI::App& program);

// What is wrong with what I have? Every design rule, and an audit of what was typed.
[[nodiscard]] Verb add_check_verb(CLI::App& program);

// What two angles do I type for each joint coupling?
[[nodiscard]] Verb add_couple_verb(CLI::App& program);

// Does it move as it should? A picture at any instant.
[[nodiscard]] Verb add_watch_verb(CLI::App& program);

// How do I show it? A clip that loops without a seam.
[[nodiscard]] Verb add_record_verb(CLI::App& program);

// How do other programs load it? Models, robot descriptions, profiles, solids to print, motion tables.
[[nodiscard]] Verb add_export_verb(CLI::App& program);

// How do I have it on paper?
[[nodiscard]] Verb add_sheet_verb(CLI::App& program);

// Which ratios does the train offer?
[[nodiscard]] Verb add_speeds_verb(CLI::App& program);

}  // namespace couplet
