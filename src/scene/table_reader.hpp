// TableReader: one table of a scene file, asked for its keys by name.
//
// What is wrong with a value is added to the errors with its line, its key and what was found; the asker then gets
// nothing and goes on, so that the error reported is the first in the file.
#pragma once

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "scene/error.hpp"
#include "scene/limits.hpp"
#include "scene/source_text.hpp"
#include "scene/toml.hpp"

namespace couplet {

// What every reader of a table needs: the text that the values stand in, and where errors go.
struct Reading {
    SourceText source;
    FirstError errors;
};

[[nodiscard]] inline int line_of(const toml::node& node) {
    return static_cast<int>(node.source().begin.line);
}

// How a kind of table is written.
struct TableForm {
    std::string_view header;                 // "[[member.gear]]", for messages
    std::span<const std::string_view> keys;  // all that it may have; none: any
};

class TableReader {
  public:
    // A key that the form does not have is an error.
    TableReader(Reading& reading, const toml::table& table, const TableForm& form);

    [[nodiscard]] int line() const { return line_of(*table_); }
    // The line of the key's value, or the table's where there is no such key.
    [[nodiscard]] int line_of_key(std::string_view key) const;
    [[nodiscard]] const toml::node* find(std::string_view key) const { return table_->get(key); }

    // "'teeth' in [[member.gear]]".
    [[nodiscard]] std::string named(std::string_view key) const;
    // Adds an error at the key's line.
    void refuse(std::string_view key, std::string wrong, std::string right) const;
    // Adds an error at the table's line, unless a key of the table is unknown: it may be the missing one, misspelt.
    void refuse_missing(std::string_view key, std::string right) const;

    // Nothing where the key is absent, or where its value is wrong, which is then an error.
    [[nodiscard]] std::optional<std::string_view> text(std::string_view key) const;
    [[nodiscard]] std::optional<bool> flag(std::string_view key) const;
    [[nodiscard]] std::optional<int> whole(std::string_view key, int low, int high) const;
    [[nodiscard]] std::optional<Ratio> number(std::string_view key, const NumberLimits& limits) const;
    // Where `count` is not 0 there must be so many.
    [[nodiscard]] std::optional<std::vector<Ratio>> numbers(std::string_view key, const NumberLimits& limits,
                                                            std::size_t count) const;
    [[nodiscard]] const toml::array* list(std::string_view key, std::size_t count, std::string_view expected) const;
    // The tables of a list of tables; `right` tells how to write one.
    [[nodiscard]] std::vector<const toml::table*> tables(std::string_view key, std::string_view right) const;
    [[nodiscard]] const toml::table* table(std::string_view key, std::string_view right) const;

    // The same for a node that stands under the key, perhaps inside a list.
    [[nodiscard]] std::optional<std::string_view> text_at(std::string_view key, const toml::node& node) const;
    [[nodiscard]] std::optional<Ratio> number_at(std::string_view key, const toml::node& node,
                                                 const NumberLimits& limits) const;

    void refuse_kind(std::string_view key, const toml::node& node, std::string_view expected) const;
    [[nodiscard]] Reading& reading() const { return *reading_; }

  private:
    [[nodiscard]] std::string found(const toml::node& node) const;

    Reading* reading_;
    const toml::table* table_;
    const TableForm* form_;
    bool has_unknown_key_ = false;
};

}  // namespace couplet
