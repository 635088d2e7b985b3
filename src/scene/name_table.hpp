// NameTable: names of one kind of entry, each with its position in the list and its line in the file.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace couplet {

class NameTable {
  public:
    struct Entry {
        std::size_t position;
        int line;
    };

    // Where the name is taken, the first one stays.
    void add(std::string_view name, Entry entry) {
        if (entries_.contains(name)) return;
        entries_.emplace(names_.emplace_back(name), entry);
    }
    [[nodiscard]] std::optional<Entry> find(std::string_view name) const {
        const auto found = entries_.find(name);
        return found == entries_.end() ? std::nullopt : std::optional(found->second);
    }
    // In the order in which they were added.
    [[nodiscard]] std::vector<std::string_view> names() const { return {names_.begin(), names_.end()}; }

  private:
    std::deque<std::string> names_;
    std::unordered_map<std::string_view, Entry> entries_;
};

}  // namespace couplet
