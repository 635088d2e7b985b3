// Paper: an SVG 1.1 document in millimetres of paper, of A4 sheets one below the other.
//
// x to the right and y down, in mm from the upper left corner of the first sheet. Text is escaped and on one line.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "tooth/profile.hpp"

namespace couplet {

inline constexpr double kSheetWidth_mm = 210.0;
inline constexpr double kSheetHeight_mm = 297.0;

// The largest scale that brings a length into a room, of 1, 2 and 5 times a power of ten (ISO 5455, from memory) and
// the 2.5 and 4 that a ruler has too.
[[nodiscard]] double scale_into(double length_mm, double room_mm);
// "2:1", "1:5".
[[nodiscard]] std::string scale_text(double scale);

// Two lines of text beside a drawing, with a leader to a point in it.
struct Callout {
    PlanePoint anchor{};
    std::string text;
    std::string below;  // empty: none
};

// Where callouts are written: at the right of x_mm, between two heights.
struct CalloutColumn {
    double x_mm;
    double top_mm;
    double bottom_mm;
    double line_mm;  // height of one callout
};

class Paper {
  public:
    void text(const PlanePoint& at, std::string_view words, double size_mm = kText_mm, bool bold = false);
    void line(const std::vector<PlanePoint>& points, double width_mm, std::string_view dashes = "");
    void circle(const PlanePoint& centre, double radius_mm, double width_mm, std::string_view dashes = "");
    void dot(const PlanePoint& at);
    void cross(const PlanePoint& at, double half_mm);
    void frame(int sheet);

    // Defines a shape, filled even-odd, that is then put anywhere at any scale and turn (counter-clockwise on paper).
    void define(std::string_view id, const std::string& path);
    void put(std::string_view id, const PlanePoint& at, double scale, double turn_deg);

    // Callouts in the order of their anchors' heights, none over another; those that find no room are counted.
    void callouts(std::vector<Callout> callouts, const CalloutColumn& column);

    // A drawing of its own size instead of sheets.
    [[nodiscard]] std::string drawing(double width_mm, double height_mm) const;

    // The document with that many sheets.
    [[nodiscard]] std::string document(int sheets) const;

    static constexpr double kText_mm = 3.2;

  private:
    std::string shapes_;
    std::string body_;
};

// Subpaths for Paper::define.
[[nodiscard]] std::string polygon_path(const std::vector<PlanePoint>& points);
[[nodiscard]] std::string circle_path(double radius_mm);

}  // namespace couplet
