#include "app/program_job.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <stdexcept>
#include <utility>

#include "record/last_words.hpp"

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX leaves it to the program

namespace couplet {

namespace {

// Exit statuses of `couplet` that leave a whole clip: it is done, or done of a train that stands.
constexpr int kDone = 0;
constexpr int kDoneAndStands = 1;

// How long the end of a window waits for a recording to clear up: a frame in hand is finished first.
constexpr int kPatience_s = 20;
constexpr int kLook_us = 20'000;

// Both ends are this process's own.
std::array<int, 2> pipe_ends() {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) throw std::runtime_error(fmt::format("no pipe can be made: {}", std::strerror(errno)));
    for (const int end : ends) fcntl(end, F_SETFD, FD_CLOEXEC);
    fcntl(ends[0], F_SETFL, O_NONBLOCK);
    return ends;
}

struct Outlets {
    int output;
    int errors;
};

// Gives its process's number, or throws.
int started(const ProgramOrder& order, Outlets outlets) {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_adddup2(&actions, outlets.output, STDOUT_FILENO);
    posix_spawn_file_actions_adddup2(&actions, outlets.errors, STDERR_FILENO);
    posix_spawnattr_t attributes;
    posix_spawnattr_init(&attributes);
    sigset_t none;
    sigemptyset(&none);
    posix_spawnattr_setsigmask(&attributes, &none);
    posix_spawnattr_setpgroup(&attributes, 0);
    posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETPGROUP);
    std::vector<std::string> texts = order.arguments;
    texts.insert(texts.begin(), order.program.string());
    std::vector<char*> words;
    for (std::string& text : texts) words.push_back(text.data());
    words.push_back(nullptr);
    int pid = 0;
    const int error = posix_spawn(&pid, words.front(), &actions, &attributes, words.data(), environ);
    posix_spawnattr_destroy(&attributes);
    posix_spawn_file_actions_destroy(&actions);
    if (error != 0)
        throw std::runtime_error(
            fmt::format("the program {} cannot be started: {}", words.front(), std::strerror(error)));
    return pid;
}

std::string text_in(int file) {
    std::string text = last_words(file);
    while (text.ends_with('\n')) text.pop_back();
    return text;
}

// "couplet: what; what would be right" is shown in a window that is called so.
std::string without_program_name(std::string text) {
    constexpr std::string_view kName = "couplet: ";
    if (text.starts_with(kName)) text.erase(0, kName.size());
    return text;
}

}  // namespace

ProgramJob::ProgramJob(ProgramOrder order) : order_(std::move(order)) {
    std::array<int, 2> ends{-1, -1};
    try {
        ends = pipe_ends();
        lines_ = ends[0];
        said_ = unnamed_file();
        pid_ = started(order_, {ends[1], said_});
    } catch (const std::runtime_error&) {
        close_up();
        if (ends[1] >= 0) close(ends[1]);
        throw;
    }
    close(ends[1]);
}

ProgramJob::~ProgramJob() {
    if (pid_ != 0) {
        cancel();
        for (int look = 0; look < kPatience_s * 1'000'000 / kLook_us && waitpid(pid_, nullptr, WNOHANG) == 0; ++look)
            usleep(kLook_us);
        kill(-pid_, SIGKILL);  // whatever of its group is left
        while (waitpid(pid_, nullptr, 0) < 0 && errno == EINTR) {
        }
    }
    close_up();
}

void ProgramJob::close_up() {
    for (int* file : {&lines_, &said_})
        if (const int open = std::exchange(*file, -1); open >= 0) close(open);
    std::error_code ignored;
    std::filesystem::remove(order_.scene, ignored);
}

void ProgramJob::cancel() {
    if (pid_ == 0) return;
    kill(-pid_, SIGTERM);
    progress_.state = ProgramProgress::State::stopping;
}

bool ProgramJob::look(double now_s) {
    if (pid_ == 0) return false;
    const ProgramProgress before = progress_;
    int status = 0;
    const bool ended = waitpid(pid_, &status, WNOHANG) == pid_;
    // What it wrote before its end is in the pipe by now.
    read_lines(now_s);
    if (ended) end(status);
    return !(progress_ == before);
}

void ProgramJob::read_lines(double now_s) {
    std::array<char, 4096> bytes{};
    for (ssize_t got = 0; (got = read(lines_, bytes.data(), bytes.size())) > 0;)
        unread_.append(bytes.data(), static_cast<std::size_t>(got));
    const std::size_t end = unread_.rfind('\n');
    if (end == std::string::npos) return;
    const std::size_t before = unread_.rfind('\n', end - 1);
    const std::size_t begin = end == 0 || before == std::string::npos ? 0 : before + 1;
    take_line(unread_.substr(begin, end - begin), now_s);
    unread_.erase(0, end + 1);
}

void ProgramJob::take_line(const std::string& line, double now_s) {
    int done = 0;
    int frames = 0;
    // NOLINTNEXTLINE(cert-err34-c): what was read is checked
    if (std::sscanf(line.c_str(), "frame %d of %d", &done, &frames) != 2 || done < 0 || done > frames) return;
    progress_.frames_done = done;
    progress_.frames = frames;
    if (!first_seen_s_) {
        first_seen_s_ = now_s;
        first_seen_ = done;
        return;
    }
    if (done == first_seen_ || now_s <= *first_seen_s_) return;
    progress_.fps = (done - first_seen_) / (now_s - *first_seen_s_);
    progress_.seconds_left = (frames - done) / *progress_.fps;
}

void ProgramJob::end(int status) {
    pid_ = 0;
    const bool was_stopping = progress_.state == ProgramProgress::State::stopping;
    const bool whole = WIFEXITED(status) && (WEXITSTATUS(status) == kDone || WEXITSTATUS(status) == kDoneAndStands);
    progress_.state = whole          ? ProgramProgress::State::done
                      : was_stopping ? ProgramProgress::State::stopped
                                     : ProgramProgress::State::failed;
    if (progress_.state == ProgramProgress::State::failed) {
        progress_.why_failed = without_program_name(text_in(said_));
        if (WIFSIGNALED(status))
            progress_.why_failed = fmt::format("the program was ended from outside ({})", strsignal(WTERMSIG(status)));
        else if (progress_.why_failed.empty())
            progress_.why_failed = fmt::format("the program ended with status {}", WEXITSTATUS(status));
    }
    close_up();
}

}  // namespace couplet
