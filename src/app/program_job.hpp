// Program job: work that goes on in the background, done by the `couplet` program: a recording, files to hand over.
//
// POSIX. The program runs in a process group of its own; nothing here waits for it, but the destructor, which stops it
// and lets it clear away what is unfinished. Times are of the window's clock.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace couplet {

struct ProgramOrder {
    std::filesystem::path program;
    std::vector<std::string> arguments;  // of a recording with --progress=lines among them
    std::filesystem::path scene;         // a file of the job's own, which goes with it
    std::filesystem::path target;
    std::string_view done = "recorded";  // what the target is in the end: "recorded", "written"
};

struct ProgramProgress {
    // stopping: it was asked to, and clears up.
    enum class State { working, stopping, done, stopped, failed };
    State state = State::working;
    int frames_done = 0;
    int frames = 0;  // 0: it has not said yet
    std::optional<double> fps;
    std::optional<double> seconds_left;
    std::string why_failed;

    [[nodiscard]] bool is_over() const { return state > State::stopping; }

    friend bool operator==(const ProgramProgress&, const ProgramProgress&) = default;
};

class ProgramJob {
  public:
    // Throws std::runtime_error where the program cannot be started; the scene file is gone then too.
    explicit ProgramJob(ProgramOrder order);
    ~ProgramJob();
    ProgramJob(const ProgramJob&) = delete;
    ProgramJob& operator=(const ProgramJob&) = delete;

    // Sees how far it has come. True where the progress changed.
    bool look(double now_s);
    // Asks it to stop; it is stopped when its progress says so.
    void cancel();

    [[nodiscard]] const ProgramOrder& order() const { return order_; }
    [[nodiscard]] const ProgramProgress& progress() const { return progress_; }
    [[nodiscard]] int pid() const { return pid_; }  // 0: it has ended

  private:
    void read_lines(double now_s);
    void take_line(const std::string& line, double now_s);
    void end(int status);
    void close_up();

    ProgramOrder order_;
    ProgramProgress progress_;
    int pid_ = 0;
    int lines_ = -1;  // its standard output, which never makes us wait
    int said_ = -1;   // a file without a name that its standard error goes to
    std::string unread_;
    // The first frame that was seen done, and when: what comes before it is no measure of what comes after.
    std::optional<double> first_seen_s_;
    int first_seen_ = 0;
};

}  // namespace couplet
