#include "sheet/numbers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "exact/decimal.hpp"

namespace couplet {

namespace {

constexpr int kDecimals = 6;
constexpr int kSignificant = 6;

// The power of ten of the leading digit; the value is not 0. Floating point never sees the value: it may be far out of
// a double's range.
int leading_power(const Ratio& value) {
    const Ratio size = value.magnitude();
    const auto digits = [](const Ratio& whole) { return static_cast<int>(whole.to_string().size()); };
    int power = digits(size.numerator()) - digits(size.denominator());
    if (size < power_of_ten(power)) --power;
    return power;
}

std::string scientific_text(const Ratio& value) {
    int power = leading_power(value);
    Ratio leading = rounded(value / power_of_ten(power), kSignificant - 1);
    if (leading.magnitude() >= Ratio(10)) {
        leading /= Ratio(10);
        ++power;
    }
    return fmt::format("{}e{}", decimal_text(leading, kSignificant - 1), power);
}

Cell cell_of(std::string exact, const Ratio& value) {
    if (exact.size() <= kLongestShown) return {std::move(exact)};
    const auto digits = std::ranges::count_if(exact, [](char c) { return c >= '0' && c <= '9'; });
    std::string shown = fmt::format("{} ({} digits)", rough_text(value), digits);
    return {std::move(exact), std::move(shown)};
}

}  // namespace

std::string rough_text(const Ratio& value) {
    if (value.is_zero()) return "0";
    const int power = leading_power(value);
    return power < -3 || power > 8 ? scientific_text(value) : decimal_text(value, kDecimals);
}

Cell fraction_cell(const Ratio& value) {
    return cell_of(value.to_string(), value);
}

Cell decimal_cell(const Ratio& value) {
    return cell_of(exact_text(value), value);
}

bool is_abbreviated(const Cell& cell) {
    return cell.full.size() > kLongestShown && cell.shown != cell.full;
}

Cell rough_cell(const Ratio& value) {
    const double nearest = value.to_double();
    const bool near_enough = std::isfinite(nearest) && (nearest != 0 || value.is_zero());
    return {near_enough ? fmt::format("{}", nearest) : "", rough_text(value)};
}

std::string pair_text(const Ratio& first_deg, const Ratio& second_deg) {
    return decimal_cell(first_deg).shown + " : " + decimal_cell(second_deg).shown;
}

}  // namespace couplet
