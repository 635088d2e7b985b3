#include "app/process.hpp"

#include <cerrno>
#include <charconv>
#include <csignal>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <unistd.h>
#ifdef __APPLE__
#include <mach-o/dyld.h>
#endif

namespace couplet {

namespace {

// What /proc/PID/stat says, by the numbers that proc(5) gives its fields.
struct Stat {
    char state = '?';         // (3)
    std::uint64_t began = 0;  // (22) starttime
};
constexpr std::size_t kFirstField = 3;
constexpr std::size_t kBegan = 22;

// What is not known stays as it is, all of it where the system has no such file or no such process.
Stat stat_of(int pid) {
    std::ifstream file("/proc/" + std::to_string(pid) + "/stat");
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    // The second field, the program's name in parentheses, may hold anything.
    const std::size_t name_end = text.rfind(')');
    if (name_end == std::string::npos) return {};
    std::istringstream rest(text.substr(name_end + 1));
    const std::vector<std::string> fields{std::istream_iterator<std::string>(rest), {}};
    Stat stat;
    if (!fields.empty()) stat.state = fields.front().front();
    if (fields.size() > kBegan - kFirstField) {
        const std::string& began = fields[kBegan - kFirstField];
        std::from_chars(began.data(), began.data() + began.size(), stat.began);
    }
    return stat;
}

}  // namespace

Process this_process() {
    const int pid = getpid();
    return {pid, stat_of(pid).began};
}

std::filesystem::path this_program() {
#ifdef __APPLE__
    char path[4096];
    std::uint32_t size = sizeof(path);
    if (_NSGetExecutablePath(path, &size) == 0) return std::filesystem::canonical(path);
    throw std::runtime_error("this program cannot find itself");
#else
    return std::filesystem::canonical("/proc/self/exe");
#endif
}

bool is_running(const Process& process) {
    // A number of 0 or less means a group of processes to kill(2), and no process.
    if (process.pid <= 0 || (kill(process.pid, 0) != 0 && errno == ESRCH)) return false;
    const Stat stat = stat_of(process.pid);
    if (stat.state == 'Z' || stat.state == 'X') return false;
    return stat.began == 0 || process.began == 0 || stat.began == process.began;
}

}  // namespace couplet
