#include <array>
#include <cmath>
#include <numbers>

#include "app/couple_parts.hpp"

namespace couplet {

namespace {

constexpr float kTurn = 2.0F * std::numbers::pi_v<float>;
constexpr float kSunTeeth = 12;
constexpr float kPlanetTeeth = 8;

ImVec2 on_circle(ImVec2 middle, float radius, float turns) {
    return {middle.x + radius * std::cos(kTurn * turns), middle.y - radius * std::sin(kTurn * turns)};
}

// A wheel with a mark, so that one sees how far it has turned.
void draw_wheel(ImDrawList& list, ImVec2 middle, float radius, float turns, ImU32 edge, ImU32 mark, float line) {
    list.AddCircle(middle, radius, edge, 0, line);
    list.AddCircleFilled(middle, 1.5F * line, edge);
    list.AddLine(on_circle(middle, 0.35F * radius, turns), on_circle(middle, radius, turns), mark, 2 * line);
}

// The arm at an angle, the planet's mark where it points after rolling round a sun that stands still.
void draw_set(const Theme& theme, ImDrawList& list, ImVec2 middle, float size, float arm_turns) {
    const float line = size / 40;
    const float sun = 0.36F * size;
    const float planet = sun * kPlanetTeeth / kSunTeeth;
    const ImVec2 pin = on_circle(middle, sun + planet, arm_turns);
    list.AddLine(middle, pin, colour(theme.held), 2.5F * line);
    draw_wheel(list, middle, sun, 0.25F, colour(theme.ink), colour(theme.faint), line);
    draw_wheel(list, pin, planet, 0.25F + arm_turns * (1 + kSunTeeth / kPlanetTeeth), colour(theme.accent),
               colour(theme.driver), line);
}

}  // namespace

void draw_correction_picture(const Theme& theme, ImDrawList& list, ImVec2 from, ImVec2 to) {
    const float height = to.y - from.y;
    const float size = 0.72F * height;
    const ImVec2 left(from.x + 0.25F * (to.x - from.x), from.y + 0.66F * height);
    const ImVec2 right(from.x + 0.72F * (to.x - from.x), left.y);
    draw_set(theme, list, left, size, 0.0F);
    draw_set(theme, list, right, size, 0.125F);
    // How far the arm has gone.
    const float reach = 0.78F * size;
    std::array<ImVec2, 13> arc;
    for (std::size_t i = 0; i < arc.size(); ++i)
        arc[i] = on_circle(right, reach, 0.125F * static_cast<float>(i) / static_cast<float>(arc.size() - 1));
    list.AddPolyline(arc.data(), static_cast<int>(arc.size()), colour(theme.held), 0, size / 50);
}

}  // namespace couplet
