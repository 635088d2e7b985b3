#include "app/process.hpp"

#include <gtest/gtest.h>

#include <csignal>

#include <sys/wait.h>
#include <unistd.h>

namespace couplet {
namespace {

TEST(Process, RunsWhileItIsThisOne) {
    EXPECT_EQ(this_process().pid, getpid());
    EXPECT_EQ(this_process(), this_process());
    EXPECT_TRUE(is_running(this_process()));
}

TEST(Process, RunsNoMoreOnceItHasEnded) {
    const pid_t child = fork();
    if (child == 0) _exit(0);
    ASSERT_GT(child, 0);
    ASSERT_EQ(waitpid(child, nullptr, 0), child);
    EXPECT_FALSE(is_running({child, 0}));
}

TEST(Process, HasEndedAlsoBeforeItsParentAsks) {
    if (this_process().began == 0) GTEST_SKIP() << "the system does not say whether a process has ended";
    const pid_t child = fork();
    if (child == 0) _exit(0);
    ASSERT_GT(child, 0);
    siginfo_t ended{};
    ASSERT_EQ(waitid(P_PID, static_cast<id_t>(child), &ended, WEXITED | WNOWAIT), 0);
    EXPECT_FALSE(is_running({child, 0}));
    waitpid(child, nullptr, 0);
}

TEST(Process, RunsWhileAnotherOneOfItsNumberDoesNotStandInItsPlace) {
    Process other = this_process();
    if (other.began == 0) GTEST_SKIP() << "the system does not say when a process began";
    other.began += 1;
    EXPECT_FALSE(is_running(other));
    // Not known when it began: the number decides.
    EXPECT_TRUE(is_running({other.pid, 0}));
}

TEST(Process, IsNoneWithoutANumber) {
    EXPECT_FALSE(is_running({0, 0}));
    EXPECT_FALSE(is_running({-1, 0}));
}

}  // namespace
}  // namespace couplet
