#include "record/unfinished.hpp"

#include <fmt/format.h>

#include <random>
#include <stdexcept>

namespace couplet {

namespace fs = std::filesystem;

Unfinished::Unfinished(fs::path target) : target_(std::move(target)) {
    if (target_.filename().empty()) target_ = target_.parent_path();
    std::error_code ignored;
    if (fs::is_symlink(target_, ignored)) target_ = fs::weakly_canonical(target_, ignored);
    path_ = target_.parent_path() /
            fmt::format(".{}.{:08x}.unfinished", target_.filename().string(), std::random_device{}());
}

Unfinished::~Unfinished() {
    std::error_code ignored;
    if (!path_.empty()) fs::remove_all(path_, ignored);
}

void Unfinished::take_place() {
    std::error_code error;
    fs::rename(path_, target_, error);
    if (error) throw std::runtime_error(fmt::format("{} cannot be written: {}", target_.string(), error.message()));
    path_.clear();
}

}  // namespace couplet
