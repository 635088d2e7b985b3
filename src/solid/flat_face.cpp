#include "solid/flat_face.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <tuple>

namespace couplet {

namespace {

constexpr double kTurn = 2.0 * std::numbers::pi;

PlanePoint difference(const PlanePoint& a, const PlanePoint& b) {
    return {a.x_mm - b.x_mm, a.y_mm - b.y_mm};
}

double square(const PlanePoint& a, const PlanePoint& b) {
    const PlanePoint apart = difference(a, b);
    return dot(apart, apart);
}

// A loop of one point has no lines.
std::size_t lines_of(std::size_t points) {
    return points == 1 ? 0 : points;
}

bool runs_overlap(const Sector::Run& a, const Sector::Run& b, std::size_t points) {
    const auto starts_within = [points](const Sector::Run& run, std::size_t first) {
        return (first + points - run.first) % points < run.lines;
    };
    return (b.lines > 0 && starts_within(a, b.first)) || (a.lines > 0 && starts_within(b, a.first));
}

Sector::Run run_between(std::size_t first, std::size_t last, std::size_t points) {
    return {first, (last + points - first) % points};
}

Chain piece_of(const Chain& chain, const Sector::Run& run) {
    Chain piece;
    piece.reserve(run.lines + 1);
    for (std::size_t i = 0; i <= run.lines; ++i) piece.push_back(chain[(run.first + i) % chain.size()]);
    return piece;
}

// The runs between sectors, in the sectors' order; together with theirs they go round exactly once.
std::vector<Sector::Run> runs_between(const std::vector<Sector::Run>& sectors, std::size_t points) {
    std::vector<Sector::Run> gaps;
    std::size_t left = lines_of(points);
    for (const Sector::Run& run : sectors) left -= run.lines;
    for (std::size_t i = 0; i < sectors.size(); ++i) {
        const std::size_t end = (sectors[i].first + sectors[i].lines) % points;
        const bool last = i + 1 == sectors.size();
        gaps.push_back({end, last ? left : run_between(end, sectors[i + 1].first, points).lines});
        left -= gaps.back().lines;
    }
    return gaps;
}

// Whether the hole lies to the left of the whole line along every side of the boundary.
bool is_clear(const Hole& hole, const std::vector<PlanePoint>& boundary) {
    constexpr double kRoom = 1.02;
    for (std::size_t i = 0; i < boundary.size(); ++i) {
        const PlanePoint& a = boundary[i];
        const PlanePoint side = difference(boundary[i + 1 == boundary.size() ? 0 : i + 1], a);
        if (cross(side, difference(hole.centre, a)) <= kRoom * hole.diameter_mm / 2.0 * std::sqrt(dot(side, side)))
            return false;
    }
    return true;
}

std::vector<PlanePoint> directions_of(const Loop& loop, const PlanePoint& middle) {
    std::vector<PlanePoint> directions;
    directions.reserve(loop.size());
    for (const Position& position : loop) {
        const PlanePoint p = difference(in_plane(position), middle);
        const double length = std::sqrt(dot(p, p));
        directions.push_back(length > 0.0 ? PlanePoint{p.x_mm / length, p.y_mm / length} : PlanePoint{1.0, 0.0});
    }
    return directions;
}

std::size_t nearest_to(const std::vector<PlanePoint>& directions, const PlanePoint& direction) {
    std::size_t nearest = 0;
    double best = -2.0;
    for (std::size_t i = 0; i < directions.size(); ++i) {
        const double cosine = dot(directions[i], direction);
        if (cosine <= best) continue;
        best = cosine;
        nearest = i;
    }
    return nearest;
}

Sector::Run run_between_directions(const std::vector<PlanePoint>& directions, const PlanePoint& from,
                                   const PlanePoint& to) {
    return run_between(nearest_to(directions, from), nearest_to(directions, to), directions.size());
}

double length_round(const Slot& slot) {
    const PlanePoint line = difference(slot.to, slot.from);
    return kTurn * slot.half_width_mm + 2.0 * std::sqrt(dot(line, line));
}

// How far along the slot's edge its point nearest to `p` is, from the side of the line's beginning, counter-clockwise.
double place_round(const Slot& slot, const PlanePoint& p) {
    const PlanePoint line = difference(slot.to, slot.from);
    const double length = std::sqrt(dot(line, line));
    const PlanePoint along = length > 0.0 ? PlanePoint{line.x_mm / length, line.y_mm / length} : PlanePoint{1.0, 0.0};
    const double quarter = kTurn / 4.0 * slot.half_width_mm;
    const PlanePoint from_start = difference(p, slot.from);
    const double at = dot(from_start, along);
    const double aside = cross(along, from_start);
    if (at >= length) return length + quarter + slot.half_width_mm * std::atan2(aside, at - length);
    if (at > 0.0) return aside < 0.0 ? at : 2.0 * length + 2.0 * quarter - at;
    // Behind the beginning, from a quarter turn on.
    return 2.0 * length + 3.0 * quarter - slot.half_width_mm * std::atan2(aside, -at);
}

}  // namespace

Band::Band(const Loop& outer, const Loop& inner, const PlanePoint& middle)
    : outer_(outer),
      inner_(inner),
      middle_(middle),
      outer_directions_(directions_of(outer, middle)),
      inner_directions_(directions_of(inner, middle)),
      inner_reach_mm_(farthest_reach(inner, middle)) {}

Sector::Run Band::outer_run(const PlanePoint& from, const PlanePoint& to) const {
    return run_between_directions(outer_directions_, from, to);
}

Sector::Run Band::inner_run(const PlanePoint& from, const PlanePoint& to) const {
    return run_between_directions(inner_directions_, from, to);
}

bool Band::is_free(const Sector& sector) const {
    return std::ranges::none_of(taken_, [&](const Sector& other) {
        return runs_overlap(sector.outer, other.outer, outer_.size()) ||
               runs_overlap(sector.inner, other.inner, inner_.size());
    });
}

std::vector<PlanePoint> Band::boundary_of(const Sector& sector) const {
    std::vector<PlanePoint> boundary;
    for (std::size_t i = 0; i <= sector.outer.lines; ++i)
        boundary.push_back(in_plane(outer_[(sector.outer.first + i) % outer_.size()]));
    for (std::size_t i = sector.inner.lines + 1; i-- > 0;)
        boundary.push_back(in_plane(inner_[(sector.inner.first + i) % inner_.size()]));
    return boundary;
}

std::optional<Sector> Band::sector_round(const Hole& hole, double half_rad) const {
    const PlanePoint to_hole = difference(hole.centre, middle_);
    const double distance = std::sqrt(dot(to_hole, to_hole));
    // Farther round, a round inner loop's lines point at the hole.
    const double cosine = (inner_reach_mm_ + hole.diameter_mm / 2.0) / distance;
    if (cosine >= 1.0) return std::nullopt;
    const double half = std::min(half_rad, 0.95 * std::acos(cosine));
    const double direction = std::atan2(to_hole.y_mm, to_hole.x_mm);
    for (const double share : {1.0, 0.8, 0.6}) {
        const PlanePoint from = direction_at(direction - share * half);
        const PlanePoint to = direction_at(direction + share * half);
        const Sector sector{outer_run(from, to), inner_run(from, to), direction < 0.0 ? direction + kTurn : direction};
        if (is_free(sector) && is_clear(hole, boundary_of(sector))) return sector;
    }
    return std::nullopt;
}

Chain FlatFace::add(const Loop& loop) {
    Chain chain;
    chain.reserve(loop.size());
    for (const Position& position : loop) {
        chain.push_back(static_cast<std::uint32_t>(solid_.vertices.size()));
        solid_.vertices.push_back({position, {0.0F, 0.0F, up_ ? 1.0F : -1.0F}, surface_});
    }
    return chain;
}

PlanePoint FlatFace::at(std::uint32_t vertex) const {
    return in_plane(solid_.vertices[vertex].position_mm);
}

double FlatFace::twice_area(std::uint32_t a, std::uint32_t b, std::uint32_t c) const {
    return cross(difference(at(b), at(a)), difference(at(c), at(a)));
}

void FlatFace::add_triangle(std::uint32_t a, std::uint32_t b, std::uint32_t c) {
    if (up_)
        solid_.triangles.push_back({a, b, c});
    else
        solid_.triangles.push_back({a, c, b});
}

void FlatFace::fill_strip(std::span<const std::uint32_t> polygon) {
    std::size_t first = 0;
    std::size_t last = polygon.size() - 1;
    while (first + 1 < last) {
        add_triangle(polygon[first], polygon[first + 1], polygon[last]);
        ++first;
        if (first + 1 == last) break;
        add_triangle(polygon[first], polygon[last - 1], polygon[last]);
        --last;
    }
}

// Places round the slot, counted on beyond a full turn; the first is the one nearest to `start`.
std::vector<double> FlatFace::progress_along(const Chain& chain, const Slot& slot, double start) const {
    const double round = length_round(slot);
    std::vector<double> progress;
    progress.reserve(chain.size());
    double last = start;
    for (const std::uint32_t vertex : chain) {
        last += std::remainder(place_round(slot, at(vertex)) - last, round);
        progress.push_back(last);
    }
    return progress;
}

bool FlatFace::folds(const Chain& outer, const Chain& inner, Step step) const {
    const std::uint32_t third = step.along_outer ? outer[step.outer + 1] : inner[step.inner + 1];
    return twice_area(outer[step.outer], third, inner[step.inner]) <= 0.0;
}

// Of the two triangles that go on, the one that gets less far round, unless only the other one is no fold.
std::vector<FlatFace::Step> FlatFace::even_steps(const Chain& outer, const Chain& inner, const Slot& slot) const {
    const std::vector<double> on_outer = progress_along(outer, slot, place_round(slot, at(outer.front())));
    const std::vector<double> on_inner = progress_along(inner, slot, on_outer.front());
    std::vector<Step> steps;
    steps.reserve(outer.size() + inner.size());
    std::uint32_t i = 0;
    std::uint32_t j = 0;
    while (i + 1 < outer.size() || j + 1 < inner.size()) {
        bool along_outer = j + 1 == inner.size();
        if (!along_outer && i + 1 < outer.size()) {
            const bool outer_folds = folds(outer, inner, {i, j, true});
            const bool inner_folds = folds(outer, inner, {i, j, false});
            const bool less_far = on_outer[i] + on_outer[i + 1] <= on_inner[j] + on_inner[j + 1];
            along_outer = outer_folds == inner_folds ? less_far : inner_folds;
        }
        steps.push_back({i, j, along_outer});
        ++(along_outer ? i : j);
    }
    return steps;
}

// Of all ways along both chains the one with the fewest folds, and of those the one with the shortest cuts: found from
// the end, by what is left from each pair of points.
std::vector<FlatFace::Step> FlatFace::best_steps(const Chain& outer, const Chain& inner) const {
    const std::size_t columns = inner.size();
    struct Left {
        std::size_t folds = 0;
        double cuts_mm = 0.0;
        bool along_outer = false;
    };
    std::vector<Left> left(outer.size() * columns);
    const auto by_way_of = [&](std::uint32_t i, std::uint32_t j, bool along_outer) {
        const std::size_t next = along_outer ? (i + 1) * columns + j : i * columns + j + 1;
        const double cut =
            std::sqrt(along_outer ? square(at(outer[i + 1]), at(inner[j])) : square(at(outer[i]), at(inner[j + 1])));
        return Left{left[next].folds + (folds(outer, inner, {i, j, along_outer}) ? 1U : 0U), left[next].cuts_mm + cut,
                    along_outer};
    };
    for (auto i = static_cast<std::uint32_t>(outer.size()); i-- > 0;)
        for (auto j = static_cast<std::uint32_t>(columns); j-- > 0;) {
            const bool outer_ends = i + 1 == outer.size();
            const bool inner_ends = j + 1 == columns;
            if (outer_ends && inner_ends) continue;
            Left best = by_way_of(i, j, inner_ends);
            if (!outer_ends && !inner_ends) {
                const Left other = by_way_of(i, j, true);
                if (std::tie(other.folds, other.cuts_mm) < std::tie(best.folds, best.cuts_mm)) best = other;
            }
            left[i * columns + j] = best;
        }
    std::vector<Step> steps;
    std::uint32_t i = 0;
    std::uint32_t j = 0;
    while (i + 1 < outer.size() || j + 1 < columns) {
        const bool along_outer = left[i * columns + j].along_outer;
        steps.push_back({i, j, along_outer});
        ++(along_outer ? i : j);
    }
    return steps;
}

// Both chains run the same way round the slot, the metal on the left of the outer one.
void FlatFace::fill_between(const Chain& outer, const Chain& inner, const Slot& slot) {
    std::vector<Step> steps = even_steps(outer, inner, slot);
    if (std::ranges::any_of(steps, [&](const Step& step) { return folds(outer, inner, step); }))
        steps = best_steps(outer, inner);
    for (const Step& step : steps) {
        const std::uint32_t third = step.along_outer ? outer[step.outer + 1] : inner[step.inner + 1];
        add_triangle(outer[step.outer], third, inner[step.inner]);
    }
}

// Closed chains, cut open where they are nearest to each other.
void FlatFace::fill_round(const Chain& outer, const Chain& inner, const Slot& slot) {
    const std::size_t start =
        nearest_of(outer, [&](const PlanePoint& p) { return distance_to_segment(p, slot.from, slot.to); });
    const std::size_t across = nearest_of(inner, [&](const PlanePoint& p) { return square(p, at(outer[start])); });
    fill_between(piece_of(outer, {start, lines_of(outer.size())}), piece_of(inner, {across, lines_of(inner.size())}),
                 slot);
}

void FlatFace::fill_sector(const Chain& outer, const Chain& inner, const Opening& opening) {
    Chain boundary = piece_of(outer, opening.sector.outer);
    const Chain back = piece_of(inner, opening.sector.inner);
    boundary.insert(boundary.end(), back.rbegin(), back.rend());
    fill_round(boundary, add(opening.edge), opening.slot);
}

void FlatFace::fill_band(const Chain& outer, const Chain& inner, const PlanePoint& middle,
                         std::vector<Opening> openings) {
    const Slot round_middle{middle, middle, 1.0};
    if (openings.empty()) {
        fill_round(outer, inner, round_middle);
        return;
    }
    std::ranges::sort(openings, {}, [](const Opening& opening) { return opening.sector.direction_rad; });
    std::vector<Sector::Run> outer_runs;
    std::vector<Sector::Run> inner_runs;
    for (const Opening& opening : openings) {
        outer_runs.push_back(opening.sector.outer);
        inner_runs.push_back(opening.sector.inner);
        fill_sector(outer, inner, opening);
    }
    const std::vector<Sector::Run> outer_gaps = runs_between(outer_runs, outer.size());
    const std::vector<Sector::Run> inner_gaps = runs_between(inner_runs, inner.size());
    for (std::size_t i = 0; i < openings.size(); ++i)
        fill_between(piece_of(outer, outer_gaps[i]), piece_of(inner, inner_gaps[i]), round_middle);
}

}  // namespace couplet
