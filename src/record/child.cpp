#include "record/child.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX leaves it to the program

namespace couplet {

namespace {

[[noreturn]] void fail(const std::string& program, int error) {
    if (error == ENOENT) throw NoProgram(program);
    throw std::runtime_error(program + " cannot be started: " + std::strerror(error));
}

// A write to a program that is gone must fail, not end us. The mask is this thread's own.
void hold_back_broken_pipes() {
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGPIPE);
    pthread_sigmask(SIG_BLOCK, &set, nullptr);
}

// The child starts with no signal held back and each doing what it does by itself.
void set_attributes(posix_spawnattr_t& attributes) {
    posix_spawnattr_init(&attributes);
    sigset_t none;
    sigemptyset(&none);
    sigset_t usual;
    sigemptyset(&usual);
    for (const int signal : {SIGPIPE, SIGINT, SIGTERM, SIGXFSZ}) sigaddset(&usual, signal);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setsigdefault(&attributes, &usual);
    posix_spawnattr_setpgroup(&attributes, 0);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF | POSIX_SPAWN_SETPGROUP);
}

}  // namespace

Child::Child(const std::string& program, const std::vector<std::string>& arguments) {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) fail(program, errno);
#ifdef F_SETPIPE_SZ
    constexpr int kPipeBytes = 1 << 20;
    fcntl(ends[1], F_SETPIPE_SZ, kPipeBytes);
#endif
    said_ = unnamed_file();
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[0], STDIN_FILENO);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, said_, STDERR_FILENO);
    posix_spawnattr_t attributes;
    set_attributes(attributes);
    std::vector<char*> words = {const_cast<char*>(program.c_str())};  // NOLINT: execvp's interface
    for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));  // NOLINT
    words.push_back(nullptr);
    const int error = posix_spawnp(&pid_, program.c_str(), &actions, &attributes, words.data(), environ);
    posix_spawnattr_destroy(&attributes);
    posix_spawn_file_actions_destroy(&actions);
    close(ends[0]);
    input_ = ends[1];
    if (error == 0) return;
    pid_ = 0;
    close_input();
    close(said_);
    fail(program, error);
}

Child::~Child() {
    close_input();
    if (pid_ != 0) {
        kill(-pid_, SIGKILL);  // its group: itself, and whatever it has started
        while (waitpid(pid_, nullptr, 0) < 0 && errno == EINTR) {
        }
    }
    close(said_);
}

void Child::close_input() {
    if (input_ >= 0) close(input_);
    input_ = -1;
}

bool Child::feed(std::span<const std::uint8_t> bytes) {
    hold_back_broken_pipes();
    while (!bytes.empty()) {
        const ssize_t written = write(input_, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return false;
        bytes = bytes.subspan(static_cast<std::size_t>(written));
    }
    return true;
}

Child::End Child::finish() {
    close_input();
    int status = 0;
    while (waitpid(pid_, &status, 0) < 0 && errno == EINTR) {
    }
    pid_ = 0;
    End end;
    if (WIFSIGNALED(status))
        end.signal = WTERMSIG(status);
    else
        end.status = WEXITSTATUS(status);
    end.said = last_words(said_);
    return end;
}

}  // namespace couplet
