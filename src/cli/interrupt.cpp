#include "cli/interrupt.hpp"

#include <csignal>
#include <initializer_list>

namespace couplet {

namespace {

// Lock-free, so that a signal may set it and any thread may read it.
volatile std::sig_atomic_t stopped = 0;

void stop_by_signal(int /*signal*/) {
    stopped = 1;
}

}  // namespace

void listen_for_interrupt() {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, stop_by_signal);
    std::signal(SIGPIPE, SIG_IGN);  // who no longer listens to the progress wants no more of it
}

void stop_work() {
    stopped = 1;
}

bool is_work_stopped() {
    return stopped != 0;
}

}  // namespace couplet
