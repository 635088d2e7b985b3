#include "solid/wall.hpp"

#include <cmath>

namespace couplet {

namespace {

// The vertices of a contour at one height: for each point the one that the line before it ends at and the one that the
// line after it starts from; the same where it is smooth.
struct Rim {
    std::vector<std::uint32_t> ends;
    std::vector<std::uint32_t> starts;
};

// How a surface leans at a level: the twist of its lines, and how much it faces up, as a slope.
struct Lean {
    double rad_per_mm;
    double up;
};

// A line of a twisted contour moves along Z by the twist about the axis, and the normal stands square to that too.
std::array<float, 3> wall_normal(const PlanePoint& at, const PlanePoint& normal, const PlanePoint& x_axis,
                                 const Lean& lean) {
    const double up = lean.up - lean.rad_per_mm * cross(at, normal);
    const double length = std::sqrt(1.0 + up * up);
    return {static_cast<float>((normal.x_mm * x_axis.x_mm - normal.y_mm * x_axis.y_mm) / length),
            static_cast<float>((normal.x_mm * x_axis.y_mm + normal.y_mm * x_axis.x_mm) / length),
            static_cast<float>(up / length)};
}

Rim add_rim(Solid& solid, const Contour& contour, const Loop& loop, double turned_rad, const Lean& lean) {
    const PlanePoint x_axis = direction_at(turned_rad);
    Rim rim;
    rim.ends.reserve(loop.size());
    rim.starts.reserve(loop.size());
    const auto add = [&](std::size_t i, const PlanePoint& normal) {
        solid.vertices.push_back({loop[i], wall_normal(contour.points[i].at, normal, x_axis, lean), Surface::ground});
        return static_cast<std::uint32_t>(solid.vertices.size() - 1);
    };
    for (std::size_t i = 0; i < loop.size(); ++i) {
        const ContourPoint& p = contour.points[i];
        rim.ends.push_back(add(i, p.before));
        rim.starts.push_back(p.is_sharp() ? add(i, p.after) : rim.ends.back());
    }
    return rim;
}

double square_between(const SolidVertex& a, const SolidVertex& b) {
    double sum = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double apart = static_cast<double>(a.position_mm[k]) - static_cast<double>(b.position_mm[k]);
        sum += apart * apart;
    }
    return sum;
}

// Counter-clockwise from outside, cut along the shorter diagonal, which follows a twisted surface more closely.
void add_quad(Solid& solid, const std::array<std::uint32_t, 4>& q) {
    const auto square = [&](std::size_t i, std::size_t j) {
        return square_between(solid.vertices[q[i]], solid.vertices[q[j]]);
    };
    if (square(0, 2) <= square(1, 3)) {
        solid.triangles.push_back({q[0], q[1], q[2]});
        solid.triangles.push_back({q[0], q[2], q[3]});
    } else {
        solid.triangles.push_back({q[0], q[1], q[3]});
        solid.triangles.push_back({q[1], q[2], q[3]});
    }
}

void join(Solid& solid, const Rim& lower, const Rim& upper, bool hole) {
    const std::size_t n = lower.ends.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t next = i + 1 == n ? 0 : i + 1;
        const std::array<std::uint32_t, 4> seen_from_outside_the_contour = {lower.starts[i], lower.ends[next],
                                                                            upper.ends[next], upper.starts[i]};
        const auto& q = seen_from_outside_the_contour;
        add_quad(solid, hole ? std::array{q[1], q[0], q[3], q[2]} : q);
    }
}

void add_chamfer(Solid& solid, const Contour& contour, const Loop& lower, const Loop& upper, const Twist& twist,
                 double up) {
    const Lean lean{0.0, up};
    const auto rim = [&](const Loop& loop) {
        return add_rim(solid, contour, loop, twist.at(static_cast<double>(loop.front()[2])), lean);
    };
    const Rim below = rim(lower);
    join(solid, below, rim(upper), contour.hole);
}

}  // namespace

WallEnds add_wall(Solid& solid, const Contour& contour, const WallSpan& span, const Twist& twist) {
    const double low = span.bottom_mm + span.bottom_chamfer_mm;
    const double high = span.top_mm - span.top_chamfer_mm;
    const Lean lean{twist.rad_per_mm, 0.0};
    const Loop lowest = placed(contour, low, twist.at(low));
    Loop highest = lowest;
    Rim below = add_rim(solid, contour, lowest, twist.at(low), lean);
    for (int i = 1; i <= twist.slices; ++i) {
        const double z = i == twist.slices ? high : low + (high - low) * i / twist.slices;
        highest = placed(contour, z, twist.at(z));
        Rim above = add_rim(solid, contour, highest, twist.at(z), lean);
        join(solid, below, above, contour.hole);
        below = std::move(above);
    }
    WallEnds ends{lowest, highest};
    if (span.bottom_chamfer_mm > 0.0) {
        ends.bottom = placed(inset(contour, span.bottom_chamfer_mm), span.bottom_mm, twist.at(span.bottom_mm));
        add_chamfer(solid, contour, ends.bottom, lowest, twist, -1.0);
    }
    if (span.top_chamfer_mm > 0.0) {
        ends.top = placed(inset(contour, span.top_chamfer_mm), span.top_mm, twist.at(span.top_mm));
        add_chamfer(solid, contour, highest, ends.top, twist, 1.0);
    }
    return ends;
}

}  // namespace couplet
