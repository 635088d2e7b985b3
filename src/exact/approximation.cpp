#include "exact/approximation.hpp"

#include <algorithm>
#include <stdexcept>

namespace couplet {

namespace {

// Two neighbouring convergents and the recurrence between them (Khinchin, theorem 1): p_k = a_k p_(k-1) + p_(k-2).
struct Convergent {
    Ratio numerator;
    Ratio denominator;

    [[nodiscard]] Ratio value() const { return numerator / denominator; }
};

Convergent follow(const Convergent& older, const Convergent& newer, const Ratio& quotient) {
    return {quotient * newer.numerator + older.numerator, quotient * newer.denominator + older.denominator};
}

// The largest a with older + a * newer <= most, for whole numbers >= 0; `newer` is not 0.
Ratio most_steps(const Ratio& older, const Ratio& newer, const Ratio& most) {
    return ((most - older) / newer).floor();
}

}  // namespace

std::vector<Ratio> continued_fraction(const Ratio& value) {
    std::vector<Ratio> quotients;
    Ratio rest = value;
    while (true) {
        const Ratio whole = rest.floor();
        quotients.push_back(whole);
        if (rest == whole) return quotients;
        rest = (rest - whole).inverse();
    }
}

std::vector<Ratio> convergents(const Ratio& value) {
    std::vector<Ratio> result;
    Convergent older{0, 1};
    Convergent newer{1, 0};
    for (const Ratio& quotient : continued_fraction(value)) {
        older = std::exchange(newer, follow(older, newer, quotient));
        result.push_back(newer.value());
    }
    return result;
}

Ratio best_approximation(const Ratio& value, const Ratio& most_numerator, const Ratio& most_denominator) {
    if (most_numerator < Ratio(1) || most_denominator < Ratio(1))
        throw std::invalid_argument("the bounds of an approximation are at least 1");
    if (value.sign() < 0) return -best_approximation(-value, most_numerator, most_denominator);

    Convergent older{0, 1};
    Convergent newer{1, 0};
    for (const Ratio& quotient : continued_fraction(value)) {
        Ratio steps = quotient;
        if (!newer.denominator.is_zero())
            steps = std::min(steps, most_steps(older.denominator, newer.denominator, most_denominator));
        if (!newer.numerator.is_zero())
            steps = std::min(steps, most_steps(older.numerator, newer.numerator, most_numerator));
        const Convergent next = follow(older, newer, steps);
        if (steps < quotient) {
            // Cut short: an intermediate fraction, or the convergent before it where that is as near.
            if (newer.denominator.is_zero()) return next.value();
            const bool intermediate_is_nearer =
                !next.denominator.is_zero() && (next.value() - value).magnitude() < (newer.value() - value).magnitude();
            return intermediate_is_nearer ? next.value() : newer.value();
        }
        older = std::exchange(newer, next);
    }
    return newer.value();
}

}  // namespace couplet
