#include "find/plain_formulas.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numbers>
#include <numeric>
#include <optional>

namespace couplet {

namespace {

constexpr int kNoUndercut_teeth = 18;

using Counts = std::vector<int>;

// Room between two equal copies at a centre distance, both in teeth: twice the distance, and the tip diameter.
bool have_room(double twice_distance, int teeth, int copies) {
    return copies == 1 || twice_distance * std::sin(std::numbers::pi / copies) > teeth + 2 + 1e-9;
}

// Involute interference (gear makers' handbooks): z1 / z2 >= 1 - tan(a_a2) / tan(a), with ring teeth of addendum 0.8
// and 20 degrees.
bool ring_is_clear(int planet, int ring) {
    constexpr double kPressureAngle = std::numbers::pi / 9.0;
    const double at_tip = std::acos(ring * std::cos(kPressureAngle) / (ring - 1.6));
    return static_cast<double>(planet) / ring >= 1.0 - std::tan(at_tip) / std::tan(kPressureAngle);
}

// Willis: (w_sun - w_carrier) = i0 (w_ring - w_carrier), as coefficients whose sum over the members is 0.
Ratio willis(const Ratio& i0, const CentralChoice& choice) {
    const std::map<std::string, Ratio> coefficients = {{"sun", Ratio(1)}, {"ring", -i0}, {"carrier", i0 - Ratio(1)}};
    return -(coefficients.at(choice.output) / coefficients.at(choice.driver));
}

bool simple_suits(int s, int p, int r, int n) {
    return r == s + 2 * p && (s + r) % n == 0 && have_room(s + p, p, n);
}

Ratio body_sum(int s, int p1, int p2, int r) {
    return Ratio(s * p2 + r * p1) / Ratio(std::gcd(p1, p2));
}

// Inner and outer planets of all copies, each pair of one copy in mesh: what is not in mesh must not touch.
bool paired_have_room(int s, int i, int o, int r, int n) {
    const double inner = (s + i) / 2.0;
    const double outer = (r - o) / 2.0;
    const double apart = (i + o) / 2.0;
    const double cosine = (inner * inner + outer * outer - apart * apart) / (2.0 * inner * outer);
    if (std::abs(cosine) > 1.0) return false;
    for (int k = 1; k < n; ++k) {
        const double angle = std::acos(cosine) + 2.0 * std::numbers::pi * k / n;
        const double distance = std::sqrt(inner * inner + outer * outer - 2.0 * inner * outer * std::cos(angle));
        if (distance <= apart + 2.0 + 1e-9) return false;
    }
    return have_room(2.0 * inner, i, n) && have_room(2.0 * outer, o, n);
}

// The sun drives: either ring is held and the other one creeps, or the carrier is the output (Wolfrom's formulas).
std::optional<Ratio> two_rings_ratio(const Counts& t, const CentralChoice& choice) {
    const bool first_is_held = choice.held == "held ring";
    const Ratio to_carrier = Ratio(1) + (first_is_held ? Ratio(t[2], t[0]) : Ratio(t[4], t[0]) * Ratio(t[1], t[3]));
    if (choice.output == "carrier") return to_carrier;
    const Ratio held_per_output = Ratio(t[2], t[1]) * Ratio(t[3], t[4]);
    const Ratio creep = Ratio(1) - (first_is_held ? held_per_output : held_per_output.inverse());
    return creep.is_zero() ? std::nullopt : std::optional(to_carrier / creep);
}

// Whether the counts make a train with so many copies, and its ratio.
struct Plain {
    bool suits;
    Ratio ratio;
};

Plain plain_set(const SearchWish& wish, const Counts& t, int n) {
    const CentralChoice choice = choice_of(wish);
    switch (wish.arrangement) {
        case Arrangement::simple:
            return {simple_suits(t[0], t[1], t[2], n), willis(Ratio(-t[2], t[0]), choice)};
        case Arrangement::stepped:
            return {t[3] == t[0] + t[1] + t[2] && (body_sum(t[0], t[1], t[2], t[3]) / Ratio(n)).is_whole() &&
                        have_room(t[0] + t[1], std::max(t[1], t[2]), n),
                    willis(Ratio(-t[1], t[0]) * Ratio(t[3], t[2]), choice)};
        case Arrangement::paired:
            return {(t[3] - t[0]) % n == 0 && paired_have_room(t[0], t[1], t[2], t[3], n),
                    willis(Ratio(t[3], t[0]), choice)};
        case Arrangement::two_rings: {
            const bool closes = t[2] == t[0] + 2 * t[1] && t[4] == t[0] + t[1] + t[3];
            const bool assembles = (t[0] + t[2]) % n == 0 && (body_sum(t[0], t[1], t[3], t[4]) / Ratio(n)).is_whole();
            const std::optional<Ratio> ratio = two_rings_ratio(t, choice);
            if (!ratio) return {false, Ratio(1)};
            return {closes && assembles && have_room(t[0] + t[1], std::max(t[1], t[3]), n), *ratio};
        }
        case Arrangement::in_series:
            return {simple_suits(t[0], t[1], t[2], n) && simple_suits(t[3], t[4], t[5], n),
                    (Ratio(1) + Ratio(t[2], t[0])) * (Ratio(1) + Ratio(t[5], t[3]))};
        default:
            break;
    }
    Ratio ratio(1);
    bool rises = true;
    for (std::size_t gear = 0; gear < t.size(); gear += 2) {
        ratio *= Ratio(-t[gear + 1], t[gear]);
        if (gear > 0) rises = rises && std::pair(t[gear - 2], t[gear - 1]) <= std::pair(t[gear], t[gear + 1]);
    }
    if (wish.arrangement == Arrangement::reverted) return {t[0] + t[1] == t[2] + t[3], ratio};
    return {rises, ratio};
}

}  // namespace

std::vector<PlainRow> plain_rows(const SearchWish& wish) {
    const std::vector<ToothRange> ranges = ranges_of(wish);
    const std::vector<std::size_t> rings = count_places(wish).rings;
    const auto meshes = count_places(wish).meshes;
    const bool has_copies = !rings.empty();
    std::vector<PlainRow> rows;
    Counts counts(ranges.size());
    const std::function<void(std::size_t)> run = [&](std::size_t count) {
        if (count < counts.size()) {
            for (counts[count] = ranges[count].fewest; counts[count] <= ranges[count].most; ++counts[count])
                run(count + 1);
            return;
        }
        for (const auto& [one, other] : meshes)
            if (std::ranges::find(rings, other) != rings.end() && !ring_is_clear(counts[one], counts[other])) return;
        for (std::size_t gear = 0; gear < counts.size(); ++gear)
            if (std::ranges::find(rings, gear) == rings.end() && counts[gear] < kNoUndercut_teeth) return;
        for (int n = has_copies ? wish.copies.fewest : 1; n <= (has_copies ? wish.copies.most : 1); ++n) {
            const Plain plain = plain_set(wish, counts, n);
            if (plain.suits && plain.ratio.sign() == wish.target.sign() &&
                (plain.ratio / wish.target - Ratio(1)).magnitude() <= *wish.tolerance)
                rows.push_back({counts, n, plain.ratio});
        }
    };
    run(0);
    return rows;
}

}  // namespace couplet
