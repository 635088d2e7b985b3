#include "app/driven_window.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <thread>

#include "app/file_drop.hpp"

namespace couplet {

namespace {

void pause_for(int milliseconds) {
    std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds));
}

// Tries until the condition holds; false after a while that no working window needs.
template <class Condition>
bool comes_true(Condition condition) {
    for (int tries = 0; tries < 400; ++tries) {
        if (condition()) return true;
        pause_for(50);
    }
    return false;
}

std::string output_of(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return text;
    std::array<char, 256> piece{};
    while (fgets(piece.data(), piece.size(), pipe) != nullptr) text += piece.data();
    pclose(pipe);
    while (!text.empty() && text.back() == '\n') text.pop_back();
    return text;
}

pid_t started(std::vector<std::string> arguments) {
    const pid_t child = fork();
    if (child != 0) return child;
    std::vector<char*> pointers;
    for (std::string& argument : arguments) pointers.push_back(argument.data());
    pointers.push_back(nullptr);
    execv(pointers.front(), pointers.data());
    _exit(127);
}

}  // namespace

DrivenWindow::DrivenWindow(const std::filesystem::path& folder, std::vector<std::string> arguments)
    : dump_(folder / "state.json") {
    arguments.insert(arguments.begin(),
                     {COUPLET_PROGRAM, "--dump-state", dump_.string(), "--keepsakes", (folder / "kept").string()});
    pid_ = started(std::move(arguments));
    EXPECT_TRUE(comes_true([&] {
        window_ = output_of(fmt::format("xdotool search --onlyvisible --pid {} 2>/dev/null | tail -n 1", pid_));
        return !window_.empty();
    })) << "no window came";
    // Without a window manager nothing has the keyboard by itself.
    tool("windowfocus --sync " + window_);
    move_to(700, 300);
    EXPECT_TRUE(comes_true([&] { return state().value("frames", 0) > 0; }));
}

DrivenWindow::~DrivenWindow() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    waitpid(pid_, nullptr, 0);
}

void DrivenWindow::tool(const std::string& arguments) const {
    const std::string command = "xdotool " + arguments;
    EXPECT_EQ(std::system(command.c_str()), 0) << command;  // NOLINT(cert-env33-c): a test of a real window
    pause_for(120);
}

Json DrivenWindow::state() {
    std::filesystem::remove(dump_);
    kill(pid_, SIGUSR1);
    if (!comes_true([&] { return std::filesystem::exists(dump_); })) {
        ADD_FAILURE() << "the window does not answer";
        return Json::object();
    }
    std::ifstream file(dump_);
    return Json::parse(file);
}

std::pair<int, int> DrivenWindow::middle_of(const std::string& name) {
    std::pair<int, int> middle{0, 0};
    int found = 0;
    const Json now = state();
    for (const Json& one : now["said"]) {
        if (one["name"] != name) continue;
        ++found;
        const Json& box = one["box_px"];
        middle = {static_cast<int>((box[0].get<double>() + box[2].get<double>()) / 2),
                  static_cast<int>((box[1].get<double>() + box[3].get<double>()) / 2)};
    }
    EXPECT_EQ(found, 1) << name;
    return middle;
}

void DrivenWindow::move_to(int x, int y) {
    tool(fmt::format("mousemove --window {} {} {}", window_, x, y));
}

void DrivenWindow::click(const std::string& name) {
    const auto [x, y] = middle_of(name);
    move_to(x, y);
    tool("mousedown 1");
    tool("mouseup 1");
    pause_for(150);
}

void DrivenWindow::drag(std::pair<int, int> from, std::pair<int, int> to) {
    move_to(from.first, from.second);
    tool("mousedown 1");
    constexpr int kSteps = 6;
    for (int i = 1; i <= kSteps; ++i)
        move_to(from.first + (to.first - from.first) * i / kSteps,
                from.second + (to.second - from.second) * i / kSteps);
    tool("mouseup 1");
}

void DrivenWindow::key(const std::string& keys) {
    tool("key " + keys);
    pause_for(150);
}

void DrivenWindow::type(const std::string& text) {
    tool("type --delay 40 '" + text + "'");
}

void DrivenWindow::resize(int width, int height) {
    tool(fmt::format("windowsize --sync {} {} {}", window_, width, height));
    pause_for(300);
}

void DrivenWindow::drop(const std::vector<std::filesystem::path>& files) {
    drop_files(std::stoul(window_), files);
    pause_for(300);
}

Json DrivenWindow::close() {
    std::filesystem::remove(dump_);
    key("ctrl+q");
    int raw = 0;
    const bool ended = comes_true([&] { return waitpid(pid_, &raw, WNOHANG) == pid_; });
    EXPECT_TRUE(ended) << "the window does not close";
    if (!ended) return Json::object();
    pid_ = -1;
    status_ = WIFEXITED(raw) ? WEXITSTATUS(raw) : -1;
    std::ifstream file(dump_);
    return Json::parse(file);
}

}  // namespace couplet
