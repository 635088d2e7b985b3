// Scene texts: what the tests of scenes read, and short ways to change it.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "scene/scene.hpp"

namespace couplet {

// A scene with every kind of entry; line numbers in tests count in it.
inline constexpr std::string_view kCapstan = R"(couplet = 1
title = "Capstan"
notes = "A test."
[teeth]
module = 3.0
[[member]]
name = "crank"
[[member.gear]]
teeth = 21
[[member]]
name = "drum"
[[member]]
name = "planet"
on = "drum"
copies = 3
[[member.gear]]
name = "outer"
teeth = 24
[[member.gear]]
name = "inner"
teeth = 12
[[member]]
name = "ring"
[[member.gear]]
teeth = 69
internal = true
[[mesh]]
gears = ["crank", "planet/outer"]
[[mesh]]
gears = ["planet/outer", "ring"]
[[setting]]
name = "hauling"
hold = ["ring"]
tie = []
drive = { crank = 30.0 }
[[joint]]
name = "pin"
turns = "planet"
against = "drum"
[[coupling]]
joints = ["crank on frame", "pin"]
typed = [360.0, -180.0]
[[shot]]
at = 0.25
zoom = 1.5
look_at = "planet"
)";

// The text with the first `part` replaced; a part that is not there is a mistake of the test.
inline std::string with(std::string text, std::string_view part, std::string_view replacement) {
    const std::size_t at = text.find(part);
    if (at == std::string::npos) throw std::logic_error("no such part: " + std::string(part));
    return text.replace(at, part.size(), replacement);
}

inline std::string capstan_with(std::string_view part, std::string_view replacement) {
    return with(std::string(kCapstan), part, replacement);
}

inline std::string with_crlf(std::string_view text) {
    std::string converted;
    for (const char c : text) converted += c == '\n' ? "\r\n" : std::string(1, c);
    return converted;
}

// What reading the text is refused with, as the terminal shows it.
inline std::string refusal(std::string_view text) {
    try {
        const Train train = read_scene(text, "s.toml");
        return "read, with " + std::to_string(train.members.size()) + " members";
    } catch (const SceneError& error) {
        return error.what();
    }
}

// The refusal of the capstan with the part replaced.
inline std::string refusal_with(std::string_view part, std::string_view replacement) {
    return refusal(capstan_with(part, replacement));
}

}  // namespace couplet
