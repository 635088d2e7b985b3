// Interrupt: the user's wish that long work ends, as a flag that the work looks at.
#pragma once

namespace couplet {

// From now on an interrupt (ctrl-C), a request to end or a terminal that goes away sets the flag instead of ending the
// program; so does stop_work.
void listen_for_interrupt();

void stop_work();
[[nodiscard]] bool is_work_stopped();

}  // namespace couplet
