#include <algorithm>
#include <utility>

#include "scene/edits.hpp"
#include "scene/layout.hpp"
#include "scene/outline.hpp"
#include "scene/pairing.hpp"
#include "scene/read.hpp"

namespace couplet {

namespace {

const Field* find_field(const std::vector<Field>& fields, std::string_view key) {
    const auto found = std::ranges::find(fields, key, &Field::key);
    return found == fields.end() ? nullptr : &*found;
}

bool have_same_keys(const Value& a, const Value& b) {
    return std::ranges::equal(a.fields, b.fields, {}, &Field::key, &Field::key);
}

// Changes a text from one outline to another. Whatever it cannot do in place, or does wrongly in a layout it does not
// know, is caught by rewrite_scene, which reads the result.
class Rewriter {
  public:
    Rewriter(std::string_view text, const toml::table& root)
        : layout_(text), root_(root), line_end_(text.find("\r\n") == std::string_view::npos ? "\n" : "\r\n") {}

    void change(const Outline& before, const Outline& after) {
        change_fields(before.top, after.top, root_);
        end_of_lists_ = layout_.end_of_own_values(root_);
        change_teeth(before.teeth, after.teeth);
        for (std::size_t i = 0; i < before.lists.size(); ++i) {
            change_list(before.lists[i], after.lists[i], root_, Parent::scene);
            pass(root_.get(before.lists[i].key));
        }
    }

    // Nothing where the change is not possible in place.
    [[nodiscard]] std::optional<std::string> result() {
        if (!in_place_) return std::nullopt;
        return edits_.applied_to(layout_.source().text());
    }
    [[nodiscard]] std::string with_line_ends(std::string_view text) const {
        std::string converted;
        for (const char c : text) converted += c == '\n' ? line_end_ : std::string(1, c);
        return converted;
    }

  private:
    enum class Parent { scene, member };

    // Entries of a list that has none yet come after those of the lists before it.
    void pass(const toml::node* list) {
        if (list == nullptr || !list->is_array()) return;
        for (const toml::node& entry : *list->as_array())
            if (layout_.has_header(entry)) end_of_lists_ = std::max(end_of_lists_, end_of(*entry.as_table()));
    }

    std::size_t end_of(const toml::table& entry) {
        std::size_t end = 0;
        for (const TextSpan& block : layout_.blocks_under(entry)) end = std::max(end, block.end);
        return end;
    }

    void insert_lines(std::size_t at, const std::string& lines) {
        const std::string_view text = layout_.source().text();
        const bool in_unended_line = at > 0 && at == text.size() && text.back() != '\n';
        edits_.insert(at, with_line_ends((in_unended_line ? "\n" : "") + lines));
    }

    void replace_value(const toml::node& node, const Value& value) {
        edits_.replace(layout_.source().span_of(node.source()), with_line_ends(value.text));
    }

    void change_value(const Value& before, const Value& after, const toml::node& node) {
        if (before.text == after.text) return;
        const toml::array* list = node.as_array();
        const toml::table* table = node.as_table();
        if (list != nullptr && list->size() == before.items.size() && list->size() == after.items.size()) {
            for (std::size_t i = 0; i < list->size(); ++i) change_value(before.items[i], after.items[i], (*list)[i]);
        } else if (table != nullptr && have_same_keys(before, after)) {
            change_fields(before.fields, after.fields, *table);
        } else if (table != nullptr && !table->is_inline()) {
            in_place_ = false;
        } else {
            replace_value(node, after);
        }
    }

    void change_fields(const std::vector<Field>& before, const std::vector<Field>& after, const toml::table& table) {
        std::vector<Field> added;
        for (const Field& field : after) {
            const Field* old = find_field(before, field.key);
            const toml::node* node = table.get(field.key);
            if (old != nullptr && node != nullptr)
                change_value(old->value, field.value, *node);
            else if (!field.is_default && (old == nullptr || old->value.text != field.value.text))
                added.push_back(field);
        }
        std::vector<std::string_view> removed;
        for (const Field& field : before)
            if (find_field(after, field.key) == nullptr && table.get(field.key) != nullptr)
                removed.push_back(field.key);
        if (added.empty() && removed.empty()) return;
        if (table.is_inline()) return change_inline(after, table);
        for (const std::string_view key : removed) erase_key(table, key);
        add_fields(added, table);
    }

    void change_inline(const std::vector<Field>& after, const toml::table& table) {
        if (table.contains("gear"))
            in_place_ = false;
        else
            replace_value(table, table_value(after));
    }

    void erase_key(const toml::table& table, std::string_view key) {
        const auto found = table.find(key);
        const toml::table* nested = found->second.as_table();
        if (nested != nullptr && !nested->is_inline())
            in_place_ = false;
        else
            edits_.erase(layout_.lines_of(found->first, found->second));
    }

    void add_fields(const std::vector<Field>& added, const toml::table& table) {
        if (added.empty()) return;
        if (&table != &root_ && !layout_.has_header(table))
            in_place_ = false;
        else
            insert_lines(layout_.end_of_own_values(table), lines_of(added, layout_.indentation_in(table)));
    }

    void change_teeth(const std::vector<Field>& before, const std::vector<Field>& after) {
        const toml::node* node = root_.get("teeth");
        if (node != nullptr) {
            change_fields(before, after, *node->as_table());
            if (layout_.has_header(*node)) end_of_lists_ = std::max(end_of_lists_, end_of(*node->as_table()));
        } else if (!after.empty()) {
            insert_lines(end_of_lists_, "\n[teeth]\n" + lines_of(after));
        }
    }

    void change_list(const EntryList& before, const EntryList& after, const toml::table& parent, Parent kind) {
        const toml::node* node = parent.get(before.key);
        const toml::array* list = node == nullptr ? nullptr : node->as_array();
        const auto partners = paired(before.entries, after.entries);
        if (!partners) {
            in_place_ = false;
            return;
        }
        std::vector<bool> stays(before.entries.size(), false);
        for (std::size_t i = 0; i < partners->size(); ++i) {
            if (const auto partner = (*partners)[i]) {
                stays[*partner] = true;
                change_entry(before.entries[*partner], after.entries[i], *(*list)[*partner].as_table());
            }
        }
        for (std::size_t i = 0; i < stays.size(); ++i)
            if (!stays[i]) erase_entry(*(*list)[i].as_table());
        add_entries(after, *partners, list, parent, kind);
    }

    void change_entry(const Entry& before, const Entry& after, const toml::table& table) {
        change_fields(before.fields, after.fields, table);
        change_list({"gear", kGearHeader, before.gears}, {"gear", kGearHeader, after.gears}, table, Parent::member);
    }

    void erase_entry(const toml::table& entry) {
        if (!layout_.has_header(entry)) {
            in_place_ = false;
            return;
        }
        for (TextSpan block : layout_.blocks_under(entry)) {
            if (layout_.is_spaced(block.begin)) block.end = layout_.after_empty_lines(block.end);
            edits_.erase(block);
        }
    }

    void add_entries(const EntryList& after, const std::vector<std::optional<std::size_t>>& partners,
                     const toml::array* list, const toml::table& parent, Parent kind) {
        const toml::table* previous = nullptr;
        for (std::size_t i = 0; i < partners.size(); ++i) {
            if (partners[i]) {
                previous = (*list)[*partners[i]].as_table();
                continue;
            }
            const std::string text = entry_text(after.header, after.entries[i]);
            if (previous != nullptr)
                add_after(*previous, text);
            else if (list != nullptr && !list->empty())
                add_before(*(*list)[0].as_table(), text);
            else
                add_first(parent, kind, text);
        }
    }

    void add_after(const toml::table& previous, const std::string& text) {
        if (!layout_.has_header(previous)) {
            in_place_ = false;
            return;
        }
        const bool spaced = layout_.is_spaced(layout_.block_of(previous).begin);
        insert_lines(end_of(previous), (spaced ? "\n" : "") + text);
    }

    void add_before(const toml::table& next, const std::string& text) {
        if (!layout_.has_header(next)) {
            in_place_ = false;
            return;
        }
        const std::size_t begin = layout_.block_of(next).begin;
        insert_lines(begin, text + (layout_.is_spaced(begin) ? "\n" : ""));
    }

    // The first entry of its list.
    void add_first(const toml::table& parent, Parent kind, const std::string& text) {
        if (kind == Parent::scene)
            insert_lines(end_of_lists_, "\n" + text);
        else if (layout_.has_header(parent))
            insert_lines(layout_.end_of_own_values(parent), text);
        else
            in_place_ = false;
    }

    Layout layout_;
    const toml::table& root_;
    std::string line_end_;
    TextEdits edits_;
    std::size_t end_of_lists_ = 0;
    bool in_place_ = true;
};

bool reads_as(const std::string& text, const Train& train) {
    try {
        return read_scene(text, "") == train;
    } catch (const SceneError&) {
        return false;
    }
}

}  // namespace

std::string rewrite_scene(std::string_view text, const Train& changed) {
    const toml::table root = parse_toml(text, "the scene");
    const Train before = read_train(root, text, "the scene");
    if (before == changed) return std::string(text);
    Rewriter rewriter(text, root);
    rewriter.change(outline_of(before), outline_of(changed));
    std::optional<std::string> rewritten = rewriter.result();
    if (rewritten && reads_as(*rewritten, changed)) return std::move(*rewritten);
    return rewriter.with_line_ends(write_scene(changed));
}

}  // namespace couplet
