#include <csignal>

#include "cli/program.hpp"

int main(int count, char** arguments) {
#ifdef SIGPIPE
    // A reader that goes away is an error to report, not a reason to die without a word.
    std::signal(SIGPIPE, SIG_IGN);
#endif
    return couplet::run_program({arguments + 1, arguments + count});
}
