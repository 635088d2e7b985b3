#include "scene/table_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "exact/decimal.hpp"
#include "scene/names.hpp"

namespace couplet {

TableReader::TableReader(Reading& reading, const toml::table& table, const TableForm& form)
    : reading_(&reading), table_(&table), form_(&form) {
    const toml::key* first = nullptr;
    for (const auto& [key, node] : table) {
        if (form.keys.empty() || std::ranges::find(form.keys, key.str()) != form.keys.end()) continue;
        if (first == nullptr || key.source().begin < first->source().begin) first = &key;
    }
    if (first == nullptr) return;
    has_unknown_key_ = true;
    reading.errors.add(static_cast<int>(first->source().begin.line),
                       fmt::format("unknown key {} in {}", in_quotes(first->str()), form.header),
                       suggestion(first->str(), form.keys, "the keys here are", ""));
}

int TableReader::line_of_key(std::string_view key) const {
    const toml::node* node = find(key);
    return node == nullptr ? line() : line_of(*node);
}

std::string TableReader::named(std::string_view key) const {
    return fmt::format("{} in {}", in_quotes(key), form_->header);
}

void TableReader::refuse(std::string_view key, std::string wrong, std::string right) const {
    reading_->errors.add(line_of_key(key), std::move(wrong), std::move(right));
}

void TableReader::refuse_missing(std::string_view key, std::string right) const {
    if (!has_unknown_key_) reading_->errors.add(line(), fmt::format("{} is missing", named(key)), std::move(right));
}

std::string TableReader::found(const toml::node& node) const {
    switch (node.type()) {
        case toml::node_type::table:
            return "a table";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::string:
            return "the text " + in_quotes(node.as_string()->get());
        case toml::node_type::boolean:
            return node.as_boolean()->get() ? "true" : "false";
        case toml::node_type::integer:
        case toml::node_type::floating_point:
            return shown(reading_->source.written(node));
        default:
            return "a date or time";
    }
}

void TableReader::refuse_kind(std::string_view key, const toml::node& node, std::string_view expected) const {
    if (reading_->errors.wants(line_of(node)))
        reading_->errors.add(line_of(node), fmt::format("{} is {}", named(key), found(node)),
                             fmt::format("it must be {}", expected));
}

std::optional<std::string_view> TableReader::text_at(std::string_view key, const toml::node& node) const {
    if (const auto* text = node.as_string()) return text->get();
    refuse_kind(key, node, "text in quotes");
    return std::nullopt;
}

std::optional<Ratio> TableReader::number_at(std::string_view key, const toml::node& node,
                                            const NumberLimits& limits) const {
    std::optional<Ratio> value;
    if (const auto* whole = node.as_integer())
        value = Ratio(whole->get());
    else if (node.is_floating_point())
        value = parse_ratio(reading_->source.written(node));
    if (value && limits.allow(*value)) {
        if (has_few_decimals(*value)) return value;
        refuse_kind(key, node, fmt::format("a number with at most {} decimals", kMostNumberDecimals));
    } else {
        refuse_kind(key, node, limits.described());
    }
    return std::nullopt;
}

std::optional<std::string_view> TableReader::text(std::string_view key) const {
    const toml::node* node = find(key);
    return node == nullptr ? std::nullopt : text_at(key, *node);
}

std::optional<bool> TableReader::flag(std::string_view key) const {
    const toml::node* node = find(key);
    if (node == nullptr) return std::nullopt;
    if (const auto* flag = node->as_boolean()) return flag->get();
    refuse_kind(key, *node, "true or false");
    return std::nullopt;
}

std::optional<int> TableReader::whole(std::string_view key, int low, int high) const {
    const toml::node* node = find(key);
    if (node == nullptr) return std::nullopt;
    const auto* whole = node->as_integer();
    if (whole != nullptr && whole->get() >= low && whole->get() <= high) return static_cast<int>(whole->get());
    refuse_kind(key, *node, fmt::format("a whole number from {} to {}", low, high));
    return std::nullopt;
}

std::optional<Ratio> TableReader::number(std::string_view key, const NumberLimits& limits) const {
    const toml::node* node = find(key);
    return node == nullptr ? std::nullopt : number_at(key, *node, limits);
}

const toml::array* TableReader::list(std::string_view key, std::size_t count, std::string_view expected) const {
    const toml::node* node = find(key);
    if (node == nullptr) return nullptr;
    const toml::array* list = node->as_array();
    if (list == nullptr) {
        refuse_kind(key, *node, expected);
    } else if (count != 0 && list->size() != count) {
        refuse(key, fmt::format("{} is a list of {}", named(key), list->size()),
               fmt::format("it must be {}", expected));
        return nullptr;
    }
    return list;
}

std::optional<std::vector<Ratio>> TableReader::numbers(std::string_view key, const NumberLimits& limits,
                                                       std::size_t count) const {
    const toml::array* items =
        list(key, count, count == 0 ? "a list of numbers" : fmt::format("a list of {} numbers", count));
    if (items == nullptr) return std::nullopt;
    std::vector<Ratio> values;
    for (const toml::node& item : *items) {
        std::optional<Ratio> value = number_at(key, item, limits);
        if (!value) return std::nullopt;
        values.push_back(std::move(*value));
    }
    return values;
}

std::vector<const toml::table*> TableReader::tables(std::string_view key, std::string_view right) const {
    std::vector<const toml::table*> found_tables;
    const toml::node* node = find(key);
    if (node == nullptr) return found_tables;
    const toml::array* items = node->as_array();
    if (items == nullptr) {
        refuse(key, fmt::format("{} is {}", named(key), found(*node)), std::string(right));
        return found_tables;
    }
    for (const toml::node& item : *items) {
        if (const toml::table* entry = item.as_table())
            found_tables.push_back(entry);
        else if (reading_->errors.wants(line_of(item)))
            reading_->errors.add(line_of(item), fmt::format("an entry of {} is {}", named(key), found(item)),
                                 std::string(right));
    }
    return found_tables;
}

const toml::table* TableReader::table(std::string_view key, std::string_view right) const {
    const toml::node* node = find(key);
    if (node == nullptr) return nullptr;
    if (const toml::table* found_table = node->as_table()) return found_table;
    refuse(key, fmt::format("{} is {}", named(key), found(*node)), std::string(right));
    return nullptr;
}

}  // namespace couplet
