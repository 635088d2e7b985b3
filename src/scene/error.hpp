// Error: how errors of a scene file are gathered and worded.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "scene/scene.hpp"

namespace couplet {

// The error that stands first in the file, of all that reading meets; of several on one line the one met first.
class FirstError {
  public:
    explicit FirstError(std::string file) : file_(std::move(file)) {}

    // True where an error on that line would become the first: only then is its text worth making.
    [[nodiscard]] bool wants(int line) const { return !first_ || line < first_->line; }
    void add(int line, std::string wrong, std::string right);
    // Throws the first error, if there is one.
    void raise() const;

  private:
    std::string file_;
    std::optional<SceneError> first_;
};

// Text from a file as a message shows it: in single quotes, control characters escaped, cut where it is long.
[[nodiscard]] std::string in_quotes(std::string_view found);
// The same without quotes, for numbers and the like; `most` bytes at most.
[[nodiscard]] std::string shown(std::string_view found, std::size_t most = 60);

}  // namespace couplet
