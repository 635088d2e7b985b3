// Windows that open and close many times in one process leave nothing behind. Needs a display.
#include <gtest/gtest.h>
#include <unistd.h>

#include <fstream>

#include "app/main_loop.hpp"

namespace couplet {
namespace {

// Resident memory of this process, from /proc (proc(5)).
double resident_mib() {
    std::ifstream file("/proc/self/statm");
    double pages = 0;
    file >> pages >> pages;
    return pages * static_cast<double>(sysconf(_SC_PAGESIZE)) / (1024 * 1024);
}

TEST(WindowCycles, TwoHundredLeaveNothingBehind) {
    WindowWishes wishes;
    wishes.size = {640, 480};
    wishes.frames = 2;
    wishes.keepsakes = std::filesystem::path(testing::TempDir()) / "couplet_window_cycles";
    double settled = 0;
    for (int cycle = 0; cycle < 200; ++cycle) {
        run_window(wishes);
        if (cycle == 49) settled = resident_mib();
    }
    // What the driver keeps settles within the first fifty; a leak of one letter sheet each would be 150 MiB.
    EXPECT_LT(resident_mib() - settled, 12.0);
    std::filesystem::remove_all(wishes.keepsakes);
}

}  // namespace
}  // namespace couplet
