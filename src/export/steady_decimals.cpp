#include "export/steady_decimals.hpp"

#include <array>
#include <charconv>

#include "exact/decimal.hpp"

namespace couplet {

namespace {

constexpr std::uint64_t kFinestBase = std::uint64_t{1} << 62;
constexpr std::int64_t kMostWhole = std::int64_t{1} << 61;

Ratio part_above_periods(const Ratio& value, const Ratio& period) {
    return value - (value / period).floor() * period;
}

}  // namespace

SteadyDecimals::SteadyDecimals(const Ratio& step, int decimals, std::optional<Ratio> period)
    : step_(step),
      decimals_(decimals),
      period_(std::move(period)),
      units_in_one_(static_cast<std::uint64_t>(power_of_ten(decimals).small_numerator())) {
    const Ratio magnitude = period_ ? part_above_periods(step_, *period_) : step_.magnitude();
    leaves_words_ = magnitude >= Ratio(kMostWhole);
    if (leaves_words_) return;
    choose_base(magnitude);
    per_row_ = digits_of(magnitude);
    if (period_) period_digits_ = digits_of(*period_);
}

void SteadyDecimals::choose_base(const Ratio& magnitude) {
    const Ratio per_unit = (magnitude * power_of_ten(decimals_)).denominator();
    const bool counts_whole_parts =
        per_unit < Ratio(static_cast<std::int64_t>(kFinestBase)) && (!period_ || period_->is_whole());
    is_truncated_ = !magnitude.is_zero() && !counts_whole_parts;
    base_ = is_truncated_ ? kFinestBase : static_cast<std::uint64_t>(per_unit.small_numerator());
}

SteadyDecimals::Digits SteadyDecimals::digits_of(const Ratio& magnitude) const {
    const auto word = [](const Ratio& whole) { return static_cast<std::uint64_t>(whole.small_numerator()); };
    const Ratio units = magnitude.fraction() * power_of_ten(decimals_);
    const Ratio parts = units.fraction() * Ratio(static_cast<std::int64_t>(base_));
    return {magnitude.floor().small_numerator(), word(units.floor()), word(parts.floor())};
}

void SteadyDecimals::advance() {
    ++row_;
    if (leaves_words_) return;
    at_.part += per_row_.part;
    at_.units += per_row_.units;
    at_.whole += per_row_.whole;
    if (at_.part >= base_) {
        at_.part -= base_;
        ++at_.units;
    }
    if (at_.units >= units_in_one_) {
        at_.units -= units_in_one_;
        ++at_.whole;
    }
    if (period_) take_off_period();
    leaves_words_ = at_.whole >= kMostWhole;
}

// The value is below two periods.
void SteadyDecimals::take_off_period() {
    const Digits& p = period_digits_;
    const bool is_full = at_.whole != p.whole   ? at_.whole > p.whole
                         : at_.units != p.units ? at_.units > p.units
                                                : at_.part >= p.part;
    if (!is_full) return;
    std::uint64_t borrowed = at_.part < p.part ? 1 : 0;
    at_.part += borrowed * base_ - p.part;
    const std::uint64_t units = p.units + borrowed;
    borrowed = at_.units < units ? 1 : 0;
    at_.units += borrowed * units_in_one_ - units;
    at_.whole -= p.whole + static_cast<std::int64_t>(borrowed);
}

// Whether the kept value is too near to where rounding turns, or to a whole period, for what was rounded down.
bool SteadyDecimals::is_doubtful() const {
    if (!is_truncated_) return false;
    const auto off = static_cast<std::uint64_t>(row_) + 1;
    const std::uint64_t half = base_ / 2;
    if (at_.part + off >= half && at_.part < half + off) return true;
    if (!period_) return false;
    const bool is_first_unit = at_.whole == 0 && at_.units == 0;
    const std::int64_t wholes_left = period_digits_.whole - at_.whole;
    const bool is_last_unit =
        wholes_left <= 1 &&
        static_cast<std::uint64_t>(wholes_left) * units_in_one_ + period_digits_.units <= at_.units + 1;
    return is_first_unit || is_last_unit;
}

void SteadyDecimals::append_next(std::string& text) {
    if (leaves_words_ || is_doubtful()) {
        text += exact_row(row_);
    } else {
        std::int64_t whole = at_.whole;
        std::uint64_t units = at_.units + (at_.part * 2 >= base_ ? 1 : 0);
        if (units == units_in_one_) {
            units = 0;
            ++whole;
        }
        const bool is_whole_period = period_ && !is_truncated_ && units == 0 && whole == period_digits_.whole;
        append_digits(text, is_whole_period ? 0 : whole, units, !period_ && step_.sign() < 0);
    }
    advance();
}

void SteadyDecimals::append_digits(std::string& text, std::int64_t whole, std::uint64_t units, bool is_negative) const {
    constexpr std::size_t kRoom = 48;
    std::array<char, kRoom> digits;
    char* end = digits.data();
    if (is_negative && (whole != 0 || units != 0)) *end++ = '-';
    end = std::to_chars(end, digits.data() + kRoom, whole).ptr;
    if (units != 0) {
        *end++ = '.';
        for (int i = decimals_; i-- > 0; units /= 10) end[i] = static_cast<char>('0' + units % 10);
        end += decimals_;
        while (end[-1] == '0') --end;
    }
    text.append(digits.data(), end);
}

std::string SteadyDecimals::exact_row(std::int64_t row) const {
    const Ratio value = step_ * Ratio(row);
    if (!period_) return decimal_text(value, decimals_);
    const Ratio part = rounded(part_above_periods(value, *period_), decimals_);
    return part == *period_ ? "0" : decimal_text(part, decimals_);
}

}  // namespace couplet
