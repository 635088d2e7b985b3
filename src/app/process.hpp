// Process: a process of this machine, told from any later one that is given the same number.
//
// By when it began, where the system says so (Linux: /proc/PID/stat, proc(5)); elsewhere by its number alone (POSIX).
#pragma once

#include <cstdint>
#include <filesystem>

namespace couplet {

struct Process {
    int pid = 0;
    std::uint64_t began = 0;  // in the system's own unit; 0: not known

    friend bool operator==(const Process&, const Process&) = default;
};

[[nodiscard]] Process this_process();

// The file that this process runs. Throws std::runtime_error where the system does not say.
[[nodiscard]] std::filesystem::path this_program();

// False also where it has ended and is only waited for by its parent.
[[nodiscard]] bool is_running(const Process& process);

}  // namespace couplet
