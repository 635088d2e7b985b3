#include "solid/flat_face.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
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

double direction_from(const PlanePoint& middle, const PlanePoint& p) {
    return std::atan2(p.y_mm - middle.y_mm, p.x_mm - middle.x_mm);
}

}  // namespace

FaceBand::FaceBand(const Loop& outer, const Loop& inner, const PlanePoint& middle)
    : outer_(outer),
      inner_(inner),
      middle_(middle),
      outer_directions_(directions_of(outer, middle)),
      inner_directions_(directions_of(inner, middle)),
      inner_reach_mm_(farthest_reach(inner, middle)) {}

bool FaceBand::is_free(const Sector& sector) const {
    return std::ranges::none_of(taken_, [&](const Sector& other) {
        return runs_overlap(sector.outer, other.outer, outer_.size()) ||
               runs_overlap(sector.inner, other.inner, inner_.size());
    });
}

std::vector<PlanePoint> FaceBand::boundary_of(const Sector& sector) const {
    std::vector<PlanePoint> boundary;
    for (std::size_t i = 0; i <= sector.outer.lines; ++i)
        boundary.push_back(in_plane(outer_[(sector.outer.first + i) % outer_.size()]));
    for (std::size_t i = sector.inner.lines + 1; i-- > 0;)
        boundary.push_back(in_plane(inner_[(sector.inner.first + i) % inner_.size()]));
    return boundary;
}

std::optional<Sector> FaceBand::sector_round(const Hole& hole, double half_rad) const {
    const PlanePoint to_hole = difference(hole.centre, middle_);
    const double distance = std::sqrt(dot(to_hole, to_hole));
    // Farther round, a round inner loop's lines point at the hole.
    const double cosine = (inner_reach_mm_ + hole.diameter_mm / 2.0) / distance;
    if (cosine >= 1.0) return std::nullopt;
    const double half = std::min(half_rad, 0.95 * std::acos(cosine));
    const double direction = direction_from(middle_, hole.centre);
    for (const double share : {1.0, 0.8, 0.6}) {
        const PlanePoint from = direction_at(direction - share * half);
        const PlanePoint to = direction_at(direction + share * half);
        const Sector sector{run_between_directions(outer_directions_, from, to),
                            run_between_directions(inner_directions_, from, to), direction};
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

// Directions from the middle, counted on beyond a full turn; the first is the one nearest to `start`.
std::vector<double> FlatFace::progress_along(const Chain& chain, const PlanePoint& middle, double start) const {
    std::vector<double> progress;
    progress.reserve(chain.size());
    double last = start;
    for (const std::uint32_t vertex : chain) {
        last += std::remainder(direction_from(middle, at(vertex)) - last, kTurn);
        progress.push_back(last);
    }
    return progress;
}

void FlatFace::fill_fan(std::span<const std::uint32_t> chain, std::uint32_t apex) {
    for (std::size_t i = 0; i + 1 < chain.size(); ++i) add_triangle(chain[i], chain[i + 1], apex);
}

std::vector<FlatFace::Ahead> FlatFace::in_order(std::span<const std::uint32_t> right,
                                                std::span<const std::uint32_t> left, const PlanePoint& along) const {
    std::vector<Ahead> ahead;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < right.size() || j < left.size()) {
        const bool take_left =
            i == right.size() || (j < left.size() && dot(at(left[j]), along) < dot(at(right[i]), along));
        ahead.push_back({take_left ? left[j++] : right[i++], take_left});
    }
    return ahead;
}

// The usual sweep (any text on computational geometry): points that cannot be cut off yet wait; a point on the other
// chain sees them all, one on the same chain those that it has not to look round a corner for.
void FlatFace::fill_monotone(std::span<const std::uint32_t> right, std::span<const std::uint32_t> left,
                             const PlanePoint& along) {
    const std::vector<Ahead> ahead = in_order(right, left, along);
    std::vector<Ahead> waiting{ahead[0], ahead[1]};
    const auto cut_off = [&](const Ahead& second, const Ahead& first, std::uint32_t point) {
        if (second.left)
            add_triangle(first.vertex, point, second.vertex);
        else
            add_triangle(first.vertex, second.vertex, point);
    };
    for (std::size_t k = 2; k < ahead.size(); ++k) {
        const Ahead& point = ahead[k];
        const Ahead last = waiting.back();
        if (point.left != last.left || k + 1 == ahead.size()) {
            for (std::size_t i = 0; i + 1 < waiting.size(); ++i) cut_off(waiting[i + 1], waiting[i], point.vertex);
            waiting = {last, point};
            continue;
        }
        while (waiting.size() > 1) {
            const Ahead& second = waiting.back();
            const Ahead& first = waiting[waiting.size() - 2];
            const double turn = twice_area(first.vertex, second.vertex, point.vertex);
            if (point.left ? turn >= 0.0 : turn <= 0.0) break;
            cut_off(second, first, point.vertex);
            waiting.pop_back();
        }
        waiting.push_back(point);
    }
}

bool FlatFace::folds(const Chain& outer, const Chain& inner, Step step) const {
    const std::uint32_t third = step.along_outer ? outer[step.outer + 1] : inner[step.inner + 1];
    return twice_area(outer[step.outer], third, inner[step.inner]) <= 0.0;
}

// Of the two triangles that go on, the one that gets less far round.
std::vector<FlatFace::Step> FlatFace::even_steps(const Chain& outer, const Chain& inner,
                                                 const PlanePoint& middle) const {
    const std::vector<double> on_outer = progress_along(outer, middle, direction_from(middle, at(outer.front())));
    const std::vector<double> on_inner = progress_along(inner, middle, on_outer.front());
    std::vector<Step> steps;
    steps.reserve(outer.size() + inner.size());
    std::uint32_t i = 0;
    std::uint32_t j = 0;
    while (i + 1 < outer.size() || j + 1 < inner.size()) {
        const bool along_outer = j + 1 == inner.size() || (i + 1 < outer.size() && on_outer[i] + on_outer[i + 1] <=
                                                                                       on_inner[j] + on_inner[j + 1]);
        steps.push_back({i, j, along_outer});
        ++(along_outer ? i : j);
    }
    return steps;
}

namespace {

// What is left of a way along two chains from a pair of their points on.
struct Left {
    std::size_t folds = std::numeric_limits<std::size_t>::max() / 2;
    double cuts_mm = 0.0;
    bool along_outer = false;

    [[nodiscard]] bool is_less_than(const Left& other) const {
        return std::tie(folds, cuts_mm) < std::tie(other.folds, other.cuts_mm);
    }
};

// One for each pair of points that lies near a given way.
class LeftFromPairs {
  public:
    LeftFromPairs(std::size_t outer_points, std::size_t inner_points, std::size_t reach) : rows_(outer_points) {
        for (Row& row : rows_) row = {inner_points, 0, {}};
        reach_ = reach;
        last_ = inner_points - 1;
    }

    void pass(std::size_t i, std::size_t j) {
        rows_[i].first = std::min(rows_[i].first, j > reach_ ? j - reach_ : 0);
        rows_[i].last = std::max(rows_[i].last, std::min(j + reach_, last_));
    }
    void make_room() {
        for (Row& row : rows_) row.left.resize(row.last - row.first + 1);
    }
    [[nodiscard]] std::size_t first(std::size_t i) const { return rows_[i].first; }
    [[nodiscard]] std::size_t last(std::size_t i) const { return rows_[i].last; }
    [[nodiscard]] bool has(std::size_t i, std::size_t j) const {
        return i < rows_.size() && j >= rows_[i].first && j <= rows_[i].last;
    }
    Left& at(std::size_t i, std::size_t j) { return rows_[i].left[j - rows_[i].first]; }

  private:
    struct Row {
        std::size_t first;
        std::size_t last;
        std::vector<Left> left;
    };
    std::vector<Row> rows_;
    std::size_t reach_ = 0;
    std::size_t last_ = 0;
};

}  // namespace

// Of all ways along both chains that stay near the given one, the one with the fewest folds, and of those the one with
// the shortest cuts: found from the end, by what is left from each pair of points.
std::vector<FlatFace::Step> FlatFace::best_steps(const Chain& outer, const Chain& inner,
                                                 const std::vector<Step>& near) const {
    constexpr std::size_t kFew = 1U << 14U;
    constexpr std::size_t kNear = 24;
    LeftFromPairs left(outer.size(), inner.size(), outer.size() * inner.size() <= kFew ? inner.size() : kNear);
    for (const Step& step : near) left.pass(step.outer, step.inner);
    left.pass(outer.size() - 1, inner.size() - 1);
    left.make_room();
    const auto by_way_of = [&](std::uint32_t i, std::uint32_t j, bool along_outer) {
        const std::size_t to_i = along_outer ? i + 1 : i;
        const std::size_t to_j = along_outer ? j : j + 1;
        if (!left.has(to_i, to_j)) return Left{};
        const Left& then = left.at(to_i, to_j);
        return Left{then.folds + (folds(outer, inner, {i, j, along_outer}) ? 1U : 0U),
                    then.cuts_mm + std::sqrt(square(at(outer[to_i]), at(inner[to_j]))), along_outer};
    };
    left.at(outer.size() - 1, inner.size() - 1).folds = 0;
    for (auto i = static_cast<std::uint32_t>(outer.size()); i-- > 0;)
        for (auto j = static_cast<std::uint32_t>(left.last(i) + 1); j-- > left.first(i);) {
            if (i + 1 == outer.size() && j + 1 == inner.size()) continue;
            const Left along_inner = by_way_of(i, j, false);
            const Left along_outer = by_way_of(i, j, true);
            left.at(i, j) = along_outer.is_less_than(along_inner) ? along_outer : along_inner;
        }
    std::vector<Step> steps;
    std::uint32_t i = 0;
    std::uint32_t j = 0;
    while (i + 1 < outer.size() || j + 1 < inner.size()) {
        const bool along_outer = left.at(i, j).along_outer;
        steps.push_back({i, j, along_outer});
        ++(along_outer ? i : j);
    }
    return steps;
}

// Both chains run the same way round the middle, the metal on the left of the outer one.
void FlatFace::fill_between(const Chain& outer, const Chain& inner, const PlanePoint& middle) {
    std::vector<Step> steps = even_steps(outer, inner, middle);
    if (std::ranges::any_of(steps, [&](const Step& step) { return folds(outer, inner, step); }))
        steps = best_steps(outer, inner, steps);
    for (const Step& step : steps) {
        const std::uint32_t third = step.along_outer ? outer[step.outer + 1] : inner[step.inner + 1];
        add_triangle(outer[step.outer], third, inner[step.inner]);
    }
}

// Closed chains, cut open where they are nearest to each other.
void FlatFace::fill_round(const Chain& outer, const Chain& inner, const PlanePoint& middle) {
    const std::size_t start = nearest_of(outer, [&](const PlanePoint& p) { return square(p, middle); });
    const std::size_t across = nearest_of(inner, [&](const PlanePoint& p) { return square(p, at(outer[start])); });
    fill_between(piece_of(outer, {start, lines_of(outer.size())}), piece_of(inner, {across, lines_of(inner.size())}),
                 middle);
}

void FlatFace::fill_sector(const Chain& outer, const Chain& inner, const Opening& opening) {
    Chain boundary = piece_of(outer, opening.sector.outer);
    const Chain back = piece_of(inner, opening.sector.inner);
    boundary.insert(boundary.end(), back.rbegin(), back.rend());
    fill_round(boundary, add(opening.edge), opening.centre);
}

void FlatFace::fill_band(const Chain& outer, const Chain& inner, const PlanePoint& middle,
                         std::vector<Opening> openings) {
    if (openings.empty()) {
        fill_round(outer, inner, middle);
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
        fill_between(piece_of(outer, outer_gaps[i]), piece_of(inner, inner_gaps[i]), middle);
}

void add_band_face(Solid& solid, bool up, Surface surface, const FaceBand& band, std::vector<Opening> openings) {
    FlatFace face(solid, up, surface);
    const Chain outer = face.add(band.outer());
    const Chain inner = face.add(band.inner());
    face.fill_band(outer, inner, band.middle(), std::move(openings));
}

}  // namespace couplet
