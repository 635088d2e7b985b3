// Child: another program, fed through its standard input; what it says on standard error is kept.
//
// POSIX. It is found on PATH, runs in a process group of its own, so that an interrupt from the terminal is ours to
// handle, and ends when its input does: none outlives its parent by more than it takes to write out what it was given.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <stdexcept>
#include <string>
#include <vector>

#include "record/last_words.hpp"

namespace couplet {

// There is no such program on PATH; what() is its name.
struct NoProgram : std::runtime_error {
    using std::runtime_error::runtime_error;
};

class Child {
  public:
    // Throws NoProgram, or std::runtime_error where it cannot be started.
    Child(const std::string& program, const std::vector<std::string>& arguments);
    // Kills it where it still runs, and what it has started.
    ~Child();
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;

    // False once the program takes no more.
    [[nodiscard]] bool feed(std::span<const std::uint8_t> bytes);

    // Closes its input and waits for its end.
    struct End {
        int status = 0;    // exit status; 0: done
        int signal = 0;    // or the signal that ended it; 0: none
        std::string said;  // on standard error, its last kMostSaid bytes
        [[nodiscard]] bool is_good() const { return status == 0 && signal == 0; }
    };
    static constexpr std::size_t kMostSaid = kMostLastWords;
    [[nodiscard]] End finish();

    [[nodiscard]] int pid() const { return pid_; }

  private:
    void close_input();

    int pid_ = 0;
    int input_ = -1;
    int said_ = -1;  // a file without a name that standard error goes to
};

}  // namespace couplet
