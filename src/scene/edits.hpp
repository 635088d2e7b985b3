// Text edits: changes to a text, each at a place in the text as it was.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "scene/text_span.hpp"

namespace couplet {

class TextEdits {
  public:
    void replace(TextSpan span, std::string with) { edits_.push_back({span, std::move(with)}); }
    void insert(std::size_t at, std::string text) { replace({at, at}, std::move(text)); }
    void erase(TextSpan span) { replace(span, ""); }

    // Insertions at one place come in the order in which they were asked for, and before what is changed there.
    [[nodiscard]] std::string applied_to(std::string_view text) const {
        std::vector<Edit> sorted = edits_;
        std::ranges::stable_sort(sorted, {},
                                 [](const Edit& edit) { return std::pair(edit.span.begin, edit.span.end); });
        std::string result;
        std::size_t done = 0;
        for (const Edit& edit : sorted) {
            if (edit.span.begin > done) result += text.substr(done, edit.span.begin - done);
            result += edit.with;
            done = std::max(done, edit.span.end);
        }
        return result += text.substr(done);
    }

  private:
    struct Edit {
        TextSpan span;
        std::string with;
    };
    std::vector<Edit> edits_;
};

}  // namespace couplet
