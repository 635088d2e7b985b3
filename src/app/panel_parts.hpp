// Panel parts: what several panels are made of, beside the widgets.
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/widgets.hpp"

namespace couplet {

// A ground on which things that belong together stand, from its making to its end. Its inside is a cell of a table, so
// that words wrap within it.
class Card {
  public:
    enum class Look { plain, lit };
    Card(Screen& screen, const std::string& name, Look look = Look::plain);
    ~Card();
    Card(const Card&) = delete;
    Card& operator=(const Card&) = delete;

  private:
    Screen& screen_;
    ImDrawList& list_;
    ImDrawListSplitter layers_;
    Look look_;
    bool open_;
};

// Rows of a faint name on the left and anything on the right of it, from its making to its end.
class NamedRows {
  public:
    NamedRows(Screen& screen, const std::string& name, float name_width_u);
    ~NamedRows();
    NamedRows(const NamedRows&) = delete;
    NamedRows& operator=(const NamedRows&) = delete;

    // What is drawn next stands behind this name.
    void row(std::string_view name);

  private:
    Screen& screen_;
    bool open_;
};

// A column of a table of numbers: right-aligned where it holds them.
struct PanelColumn {
    const char* heading;
    float width_u;  // 0: what is left
};
// Begins an ImGui table with its heading; end it with ImGui::EndTable where it gives true. The unit of numbers belongs
// into the heading.
[[nodiscard]] bool begin_rows(Screen& screen, const char* name, std::span<const PanelColumn> columns);
// Text at the right end of the cell, said under a name.
void right_text(Screen& screen, std::string_view name, std::string_view text);
// The same with a button that copies it; a number too long for a column is shown rounded and copied in full.
void right_copyable(Screen& screen, Edits& edits, std::string_view name, std::string_view text);

// Words beside the last item, on its line.
void words_beside(const char* text);

// Something in a list that can be taken out of it: a rounded box with a cross. True where it was clicked.
[[nodiscard]] bool chip(Screen& screen, std::string_view text, std::string_view name);
// Goes on beside the last item where `width_u` still fits, else on the next line.
void flow(Screen& screen, float width_u);

// One of several members, behind a first line that says what for. Trains of more members than fit a list say so.
inline constexpr std::size_t kMostListed = 2000;
[[nodiscard]] std::optional<MemberIndex> member_choice(Screen& screen, std::string_view name, const Train& train,
                                                       std::span<const MemberIndex> members, std::string_view what_for,
                                                       float width_u = 150);

// A text field whose text must pass `fault_of` (empty: it does); else what is wrong stands below it.
[[nodiscard]] std::optional<std::string> checked_text_field(
    Screen& screen, std::string_view name, const std::string& value, std::string_view usual,
    const std::function<std::string(const std::string&)>& fault_of, float width_u = 220);
// What was wrong with the last click on something, until `forget_refusal`.
void refuse_click(Screen& screen, std::string_view name, std::string why);
void show_refusal(Screen& screen, std::string_view name);
void forget_refusal(Screen& screen, std::string_view name);

// Positions of a long list that are shown: those whose name contains the text that a field above it holds, and of those
// the first ones. Short lists have no field.
inline constexpr std::size_t kMostShown = 30;
[[nodiscard]] std::vector<std::size_t> narrowed(Screen& screen, std::string_view name, std::string& text,
                                                std::size_t count,
                                                const std::function<std::string(std::size_t)>& name_of,
                                                std::size_t most = kMostShown);

// One rule that does not hold: sign, figure, limit and what would mend it.
void finding_line(Screen& screen, const Finding& finding, std::string_view name);

}  // namespace couplet
