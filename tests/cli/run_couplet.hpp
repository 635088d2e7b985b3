// Run couplet: the real program in a process of its own, from a folder of its own.
#pragma once

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "sheet/json_values.hpp"
#include "support/simple_set.hpp"

namespace couplet {

[[nodiscard]] inline std::string file_text(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

// A folder for one test, empty at first and gone afterwards; the program runs in it.
class CoupletRun : public testing::Test {
  protected:
    struct Result {
        int status;
        std::string out;
        std::string err;
    };

    CoupletRun() {
        const testing::TestInfo* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = std::filesystem::path(testing::TempDir()) /
                  (std::string("couplet_") + test->test_suite_name() + "_" + test->name());
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
    }
    ~CoupletRun() override { std::filesystem::remove_all(folder_); }
    CoupletRun(const CoupletRun&) = delete;
    CoupletRun& operator=(const CoupletRun&) = delete;

    // `arguments` as a shell reads them; more redirections may stand in them.
    [[nodiscard]] Result run(const std::string& arguments) const {
        const std::string command = "cd '" + folder_.string() + "' && '" COUPLET_PROGRAM "' >.out 2>.err " + arguments;
        const int raw = std::system(command.c_str());  // NOLINT(cert-env33-c): the test is of a command line
        return {WIFEXITED(raw) ? WEXITSTATUS(raw) : -1, file_text(folder_ / ".out"), file_text(folder_ / ".err")};
    }

    [[nodiscard]] Json json(const std::string& arguments) const {
        const Result result = run(arguments + " --format json");
        EXPECT_EQ(result.err, "");
        return Json::parse(result.out);
    }

    // Exit status 2, one line on standard error, nothing on standard output.
    void expect_refused(const std::string& arguments, const std::string& message) const {
        const Result result = run(arguments);
        EXPECT_EQ(result.status, 2) << arguments;
        EXPECT_EQ(result.out, "") << arguments;
        EXPECT_EQ(result.err, message + "\n") << arguments;
    }

    void write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
    }
    [[nodiscard]] std::string read(const std::string& name) const { return file_text(folder_ / name); }
    // What lies in the folder besides the captured output.
    [[nodiscard]] std::size_t files() const {
        std::size_t count = 0;
        for (const auto& entry : std::filesystem::directory_iterator(folder_))
            if (entry.path().filename() != ".out" && entry.path().filename() != ".err") ++count;
        return count;
    }

    std::filesystem::path folder_;
};

// A simple set of sun 21, planet 24, ring 69 (the design's example) with a setting of every outcome.
inline const std::string kSet = simple_set_text();

inline constexpr const char* kSettings = R"([[setting]]
name = "low"
hold = ["ring"]
drive = { sun = 30.0 }
[[setting]]
name = "high"
hold = ["sun"]
drive = { ring = 1.0 }
)";

}  // namespace couplet
