#include "app/icons.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <numbers>

namespace couplet {

namespace {

constexpr float kPi = std::numbers::pi_v<float>;
// Every icon is drawn on a square of 20 by 20 about (0, 0), y down, and keeps clear of its edges by 1.
constexpr float kSquare = 20;
constexpr float kStroke = 1.6F;

class Pen {
  public:
    Pen(ImDrawList& list, ImVec2 middle, float size, ImU32 ink)
        : list_(list), middle_(middle), unit_(size / kSquare), ink_(ink), stroke_(std::max(1.0F, kStroke * unit_)) {}

    void line(ImVec2 from, ImVec2 to) { list_.AddLine(at(from), at(to), ink_, stroke_); }
    void path(std::initializer_list<ImVec2> points) { stroke(points, ImDrawFlags_None); }
    void outline(std::initializer_list<ImVec2> points) { stroke(points, ImDrawFlags_Closed); }
    void circle(ImVec2 middle, float radius) { list_.AddCircle(at(middle), radius * unit_, ink_, 0, stroke_); }
    void dot(ImVec2 middle, float radius = 1.3F) { list_.AddCircleFilled(at(middle), radius * unit_, ink_); }
    // Radians from +X, clockwise on the screen.
    void arc(ImVec2 middle, float radius, float from, float to) {
        list_.PathArcTo(at(middle), radius * unit_, from, to, 24);
        list_.PathStroke(ink_, ImDrawFlags_None, stroke_);
    }
    // The two barbs of an arrow that ends at the tip, pointing at that angle.
    void arrow_head(ImVec2 tip, float towards, float length = 3.6F) {
        constexpr float kHalfOpening = 0.72F;
        const auto barb = [&](float turned) {
            const float back = towards + kPi + turned;
            return ImVec2(tip.x + length * std::cos(back), tip.y + length * std::sin(back));
        };
        path({barb(-kHalfOpening), tip, barb(kHalfOpening)});
    }

  private:
    [[nodiscard]] ImVec2 at(ImVec2 point) const { return {middle_.x + point.x * unit_, middle_.y + point.y * unit_}; }
    void stroke(std::initializer_list<ImVec2> points, ImDrawFlags flags) {
        for (const ImVec2& point : points) list_.PathLineTo(at(point));
        list_.PathStroke(ink_, flags, stroke_);
    }

    ImDrawList& list_;
    ImVec2 middle_;
    float unit_;
    ImU32 ink_;
    float stroke_;
};

ImVec2 on_circle(ImVec2 middle, float radius, float angle) {
    return {middle.x + radius * std::cos(angle), middle.y + radius * std::sin(angle)};
}

// A drawing with its title line.
void draw_scene(Pen& pen) {
    pen.outline({{-6.2F, -7.8F}, {6.2F, -7.8F}, {6.2F, 7.8F}, {-6.2F, 7.8F}});
    pen.circle({0, -2}, 2.9F);
    pen.line({-3.2F, 4.4F}, {3.2F, 4.4F});
}

// Of many gears, the one that is left.
void draw_find(Pen& pen) {
    for (const float x : {-6.4F, 0.0F, 6.4F}) pen.dot({x, -7.2F}, 1.2F);
    for (const float x : {-3.2F, 3.2F}) pen.dot({x, -2.6F}, 1.2F);
    pen.circle({0, 4.4F}, 3.8F);
    pen.dot({0, 4.4F}, 1.2F);
}

// A dimension between its extension lines.
void draw_size(Pen& pen) {
    pen.line({-7.8F, -6.5F}, {-7.8F, 6.5F});
    pen.line({7.8F, -6.5F}, {7.8F, 6.5F});
    pen.line({-5.4F, 0}, {5.4F, 0});
    pen.arrow_head({-5.6F, 0}, kPi);
    pen.arrow_head({5.6F, 0}, 0);
}

// A part set down between two axes.
void draw_place(Pen& pen) {
    pen.path({{-7, -8}, {-7, 7}, {8, 7}});
    pen.circle({1.6F, -1.6F}, 3.8F);
    pen.line({1.6F, -1.6F}, {7.0F, -7.0F});
}

// Two joints, the second turning with the first.
void draw_couple(Pen& pen) {
    pen.circle({-4.8F, 4}, 3.4F);
    pen.circle({4.8F, 4}, 3.4F);
    const ImVec2 middle(0, 3.2F);
    constexpr float kRadius = 8.6F;
    constexpr float kFrom = kPi + 0.75F;
    constexpr float kTo = 2 * kPi - 0.75F;
    pen.arc(middle, kRadius, kFrom, kTo);
    pen.arrow_head(on_circle(middle, kRadius, kTo), kTo + 0.5F * kPi, 4.4F);
}

// A dial with its hand.
void draw_watch(Pen& pen) {
    pen.circle({0, 0}, 7.4F);
    pen.line({0, 0}, {3.9F, -3.9F});
    pen.dot({0, 0}, 1.7F);
}

// A strip of frames, one of which holds a gear's circle.
void draw_record(Pen& pen) {
    pen.outline({{-8.6F, -5}, {8.6F, -5}, {8.6F, 5}, {-8.6F, 5}});
    for (const float x : {-4.6F, 4.6F}) pen.line({x, -5}, {x, 5});
    pen.circle({0, 0}, 2.2F);
    for (const float x : {-6.6F, 6.6F}) pen.dot({x, 0}, 1.0F);
}

void draw_keys(Pen& pen) {
    pen.outline({{-8.4F, -5.4F}, {8.4F, -5.4F}, {8.4F, 5.4F}, {-8.4F, 5.4F}});
    for (const float x : {-4.8F, -1.6F, 1.6F, 4.8F}) pen.dot({x, -1.8F}, 1.0F);
    pen.line({-3.6F, 2.2F}, {3.6F, 2.2F});
}

// A pin standing in the bench.
void draw_pin(Pen& pen) {
    pen.circle({0, -4.8F}, 3.0F);
    pen.line({0, -1.8F}, {0, 6.8F});
    pen.line({-5.6F, 6.8F}, {5.6F, 6.8F});
}

// A crank: hub, arm and knob.
void draw_handle(Pen& pen) {
    pen.circle({-4.4F, 4.4F}, 3.6F);
    pen.line({-1.9F, 1.9F}, {5, -5});
    pen.dot({5.2F, -5.2F}, 2.8F);
}

// One tooth, and the way it goes; side 1: to the right.
void draw_step(Pen& pen, float side) {
    pen.path({{-8.4F, 7}, {-4.8F, 7}, {-2.6F, -0.6F}, {2.6F, -0.6F}, {4.8F, 7}, {8.4F, 7}});
    pen.line({-6.4F * side, -5.6F}, {6.2F * side, -5.6F});
    pen.arrow_head({6.6F * side, -5.6F}, side > 0 ? 0 : kPi);
}

void draw_to_start(Pen& pen) {
    pen.line({-6.8F, -6}, {-6.8F, 6});
    pen.line({-3.6F, 0}, {7.4F, 0});
    pen.arrow_head({-3.8F, 0}, kPi, 4.4F);
}

// side 1: an arrow that goes back round to the left.
void draw_round_back(Pen& pen, float side) {
    const ImVec2 middle(0, 1);
    constexpr float kRadius = 6.2F;
    constexpr float kStart = -2.75F;  // of the arrow's tip
    constexpr float kEnd = 1.45F;
    const auto mirrored = [&](float angle) { return side > 0 ? angle : kPi - angle; };
    pen.arc(middle, kRadius, mirrored(kStart), mirrored(kEnd));
    pen.arrow_head(on_circle(middle, kRadius, mirrored(kStart)), mirrored(kStart - 0.5F * kPi - 0.2F), 4.6F);
}

void draw_copy(Pen& pen) {
    pen.outline({{-2, -2}, {7.4F, -2}, {7.4F, 7.4F}, {-2, 7.4F}});
    pen.path({{2.6F, -5}, {2.6F, -7.4F}, {-7.4F, -7.4F}, {-7.4F, 2.6F}, {-5, 2.6F}});
}

void draw_cross(Pen& pen, float arm) {
    pen.line({-arm, -arm}, {arm, arm});
    pen.line({-arm, arm}, {arm, -arm});
}

void draw_eye(Pen& pen) {
    // Two arcs of one circle's radius that meet at the corners.
    constexpr float kRadius = 9.4F;
    constexpr float kHalf = 1.06F;
    const float drop = kRadius * std::cos(kHalf);
    pen.arc({0, drop}, kRadius, -0.5F * kPi - kHalf, -0.5F * kPi + kHalf);
    pen.arc({0, -drop}, kRadius, 0.5F * kPi - kHalf, 0.5F * kPi + kHalf);
    pen.circle({0, 0}, 2.3F);
}

void draw_sun(Pen& pen) {
    pen.circle({0, 0}, 3.5F);
    for (int ray = 0; ray < 8; ++ray) {
        const float angle = static_cast<float>(ray) * kPi / 4;
        pen.line(on_circle({0, 0}, 5.8F, angle), on_circle({0, 0}, 8.3F, angle));
    }
}

void draw_moon(Pen& pen) {
    // The inner arc ends where the outer one does.
    constexpr float kOuter = 7.2F;
    constexpr float kCorner = 0.9F;  // angle of the upper and the lower tip from +X
    constexpr float kInnerMiddle = 3.6F;
    const ImVec2 middle(1.2F, 0);
    const ImVec2 tip = on_circle({0, 0}, kOuter, kCorner);
    const float inner = std::hypot(tip.x - kInnerMiddle, tip.y);
    const float inner_corner = std::atan2(tip.y, tip.x - kInnerMiddle);
    pen.arc(middle, kOuter, kCorner, 2 * kPi - kCorner);
    pen.arc({middle.x + kInnerMiddle, 0}, inner, inner_corner, 2 * kPi - inner_corner);
}

void draw_caution(Pen& pen) {
    pen.outline({{0, -7}, {7, 6}, {-7, 6}});
    pen.line({0, -2.4F}, {0, 1.6F});
    pen.dot({0, 3.7F}, 1.0F);
}

void draw_question(Pen& pen) {
    const ImVec2 middle(0, -3.6F);
    constexpr float kRadius = 4;
    constexpr float kEnd = 0.3F * kPi;
    pen.arc(middle, kRadius, -kPi, kEnd);
    pen.path({on_circle(middle, kRadius, kEnd), {0, 1.6F}, {0, 3.8F}});
    pen.dot({0, 7}, 1.4F);
}

}  // namespace

void draw_icon(ImDrawList& list, Icon icon, ImVec2 middle, float size, ImU32 colour) {
    Pen pen(list, middle, size, colour);
    switch (icon) {
        case Icon::scene:
            return draw_scene(pen);
        case Icon::find:
            return draw_find(pen);
        case Icon::size:
            return draw_size(pen);
        case Icon::place:
            return draw_place(pen);
        case Icon::couple:
            return draw_couple(pen);
        case Icon::watch:
            return draw_watch(pen);
        case Icon::record:
            return draw_record(pen);
        case Icon::keys:
            return draw_keys(pen);
        case Icon::pin:
            return draw_pin(pen);
        case Icon::handle:
            return draw_handle(pen);
        case Icon::run:
            return pen.outline({{-4.2F, -6.6F}, {6.4F, 0}, {-4.2F, 6.6F}});
        case Icon::stop:
            return pen.outline({{-5.6F, -5.6F}, {5.6F, -5.6F}, {5.6F, 5.6F}, {-5.6F, 5.6F}});
        case Icon::step_on:
            return draw_step(pen, 1);
        case Icon::step_back:
            return draw_step(pen, -1);
        case Icon::to_start:
            return draw_to_start(pen);
        case Icon::undo:
            return draw_round_back(pen, 1);
        case Icon::redo:
            return draw_round_back(pen, -1);
        case Icon::copy:
            return draw_copy(pen);
        case Icon::plus:
            pen.line({0, -6.5F}, {0, 6.5F});
            return pen.line({-6.5F, 0}, {6.5F, 0});
        case Icon::minus:
            return pen.line({-6.5F, 0}, {6.5F, 0});
        case Icon::cross:
            return draw_cross(pen, 5.4F);
        case Icon::more:
            for (const float x : {-6.0F, 0.0F, 6.0F}) pen.dot({x, 0}, 1.6F);
            return;
        case Icon::eye:
            return draw_eye(pen);
        case Icon::sun:
            return draw_sun(pen);
        case Icon::moon:
            return draw_moon(pen);
        case Icon::good:
            return pen.path({{-6.6F, 0.6F}, {-2, 5.4F}, {6.8F, -5.2F}});
        case Icon::caution:
            return draw_caution(pen);
        case Icon::bad:
            pen.circle({0, 0}, 7.8F);
            return draw_cross(pen, 3.2F);
        case Icon::question:
            return draw_question(pen);
    }
}

}  // namespace couplet
