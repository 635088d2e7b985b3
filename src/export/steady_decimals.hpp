// Steady decimals: a value that grows by the same exact amount from row to row, written as decimals that are right to
// the last digit, at the speed of adding words.
//
// Row k reads as decimal_text(k x step, decimals) of exact/decimal.hpp does: rounded half away from zero, no zeros at
// the end. With a period, as that of the part of k x step above a whole number of periods, and "0" where it rounds up
// to a whole period.
//
// METHOD    1  The value's magnitude is kept as a whole part, units of the last decimal, and a part of one unit. A step
//              adds to all three, with carries, and a period that is full is taken off again.
//           2  Parts count in 1 / q of a unit, q being the step's own denominator there: nothing is rounded at all.
//              Where q leaves a word, or the period is not whole, they count in 2^-62 of a unit instead, and step and
//              period are rounded down to them. After k rows the kept value is less than k parts off to either side.
//           3  Where rounding could fall either way within that, the row is worked out anew with Ratio. That a row
//              should be so chances once in 2^61 / k.
//           4  Values that leave a word are worked out with Ratio, every one.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "exact/ratio.hpp"

namespace couplet {

class SteadyDecimals {
  public:
    static constexpr int kMostDecimals = 17;
    static constexpr std::int64_t kMostRows = std::int64_t{1} << 40;

    // Decimals 1 to kMostDecimals; a period is above 0 and fits a word.
    SteadyDecimals(const Ratio& step, int decimals, std::optional<Ratio> period = std::nullopt);

    // Adds the text of the next row, row 0 first; up to kMostRows of them.
    void append_next(std::string& text);

    // What one row reads, worked out with Ratio.
    [[nodiscard]] std::string exact_row(std::int64_t row) const;

  private:
    struct Digits {
        std::int64_t whole = 0;
        std::uint64_t units = 0;
        std::uint64_t part = 0;
    };

    [[nodiscard]] Digits digits_of(const Ratio& magnitude) const;
    void choose_base(const Ratio& magnitude);
    void advance();
    void take_off_period();
    [[nodiscard]] bool is_doubtful() const;
    void append_digits(std::string& text, std::int64_t whole, std::uint64_t units, bool is_negative) const;

    Ratio step_;
    int decimals_;
    std::optional<Ratio> period_;
    std::uint64_t units_in_one_;
    std::uint64_t base_ = 1;     // parts in a unit
    bool is_truncated_ = false;  // parts are rounded down
    bool leaves_words_ = false;  // no digits are kept
    Digits at_;
    Digits per_row_;
    Digits period_digits_;
    std::int64_t row_ = 0;
};

}  // namespace couplet
