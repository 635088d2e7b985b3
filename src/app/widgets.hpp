// Widgets: the few things that the window's panels are made of, each also said in words.
//
// Every widget notes its role, name, value and place in the Screen, so that the window can be read and driven without
// eyes (state_dump.hpp), and by tests. Names are unique within a panel; what stands behind "##" is not shown but said.
// Sizes are pixels at scale 1 where a parameter says _u ("units").
#pragma once

#include <imgui.h>

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/edits.hpp"
#include "app/icons.hpp"
#include "app/theme.hpp"
#include "exact/ratio.hpp"
#include "scene/limits.hpp"
#include "train/finding.hpp"

namespace couplet {

// One thing on the screen, in words.
struct Said {
    std::string role;               // "button", "field", "choice", "switch", "text", "dial", "step", "verdict", "row"
    std::string name;               // "couple/copy drum on frame": panel and name
    std::string value;              // what it shows: "21", "on", "-161/240"
    std::array<float, 4> box_px{};  // left, top, right, bottom in the window
    bool enabled = true;
    ImGuiID id = 0;  // of what the keyboard can reach; 0: nothing of the kind
};

// What widgets share: how things look, and what has been said in this frame.
struct Screen {
    const Theme* theme = nullptr;
    Fonts fonts;
    float scale = 1.0F;
    std::string panel;  // whose widgets are being drawn: goes before their names
    std::vector<Said> said;
    // Texts of fields that are being written in, and what is wrong with them, by ImGui's id.
    std::map<ImGuiID, std::string> drafts;
    std::map<ImGuiID, std::string> faults;
    ImGuiID focus_wish = 0;    // what the keyboard goes to when it is drawn next
    bool wants_frame = false;  // something still moves: draw another frame soon

    [[nodiscard]] float px(float units) const { return units * scale; }
};

[[nodiscard]] ImU32 colour(const ImVec4& of, float alpha = 1.0F);

// What the keyboard goes to from what it is at: the next thing said, or the one before.
enum class Going { on, back };
void move_focus(Screen& screen, Going going);

// Notes the last item of ImGui, or a box.
void say(Screen& screen, std::string_view role, std::string_view name, std::string value, bool enabled = true);
void say(Screen& screen, std::string_view role, std::string_view name, std::string value, ImVec2 from, ImVec2 to,
         bool enabled = true);

// Words. Text is said as "text"; long text is wrapped at the panel's right edge.
void heading(Screen& screen, std::string_view text);
void words(Screen& screen, std::string_view text);
void faint_words(Screen& screen, std::string_view text);
// A name on the left and what it is on the right of a line.
void fact(Screen& screen, std::string_view name, std::string_view value);

enum class ButtonKind { plain, main, quiet };
[[nodiscard]] bool button(Screen& screen, std::string_view name, ButtonKind kind = ButtonKind::plain,
                          bool enabled = true);
// A square with an icon; `name` is its tooltip, with the key that does the same where there is one.
[[nodiscard]] bool icon_button(Screen& screen, Icon icon, std::string_view name, std::string_view key = {},
                               bool enabled = true, bool chosen = false);
// Gives the new state when clicked.
[[nodiscard]] std::optional<bool> on_off(Screen& screen, std::string_view name, bool on);
// One of several, side by side; gives the one clicked.
[[nodiscard]] std::optional<std::size_t> segments(Screen& screen, std::string_view name,
                                                  std::span<const std::string> options, std::size_t chosen);
// One of many, in a list that drops down.
[[nodiscard]] std::optional<std::size_t> choice(Screen& screen, std::string_view name,
                                                std::span<const std::string> options, std::size_t chosen,
                                                float width_u = 160);
// A slider between two values; logarithmic where both are above 0 and far apart.
[[nodiscard]] std::optional<double> slider(Screen& screen, std::string_view name, double value, double least,
                                           double most, std::string_view shown, float width_u = 200);

// Fields: give the new value when Enter is pressed or the field is left with another text than before; text that is no
// value is kept, framed red, with what would be right below it. Up and down arrows count whole fields.
[[nodiscard]] std::optional<int> whole_field(Screen& screen, std::string_view name, int value, int least, int most,
                                             float width_u = 64);
[[nodiscard]] std::optional<Ratio> number_field(Screen& screen, std::string_view name, const Ratio& value,
                                                const NumberLimits& limits, float width_u = 90);
// Empty means none; `usual` is shown faintly then. The outer optional: whether it was changed.
[[nodiscard]] std::optional<std::optional<Ratio>> optional_number_field(Screen& screen, std::string_view name,
                                                                        const std::optional<Ratio>& value,
                                                                        const NumberLimits& limits,
                                                                        std::string_view usual, float width_u = 90);
[[nodiscard]] std::optional<std::string> text_field(Screen& screen, std::string_view name, const std::string& value,
                                                    std::string_view usual, float width_u = 220);

// A number that will be typed elsewhere, with a button that copies it.
void copyable(Screen& screen, Edits& edits, std::string_view name, std::string_view text);
void copy_button(Screen& screen, Edits& edits, std::string_view name, const std::string& text);

// Sign and words; the sign says it without colour.
void verdict(Screen& screen, Verdict verdict, std::string_view name, std::string_view text);

// A small "?" that teaches while the cursor rests on it: a few sentences and a picture of `picture_u` units.
using DrawPicture = std::function<void(ImDrawList&, ImVec2 from, ImVec2 to)>;
void teach(Screen& screen, std::string_view name, std::string_view text, ImVec2 picture_u = {},
           const DrawPicture& picture = {});
// A tooltip for the last item.
void tip(Screen& screen, std::string_view text);

// Rows of a table that light up with the member they are about: call before and after a row's cells (ImGui tables).
// True where the row was clicked.
bool member_row(Screen& screen, const std::optional<MemberIndex>& pointed, Edits& edits, MemberIndex member,
                std::string_view name);

}  // namespace couplet
