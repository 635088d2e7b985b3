#include "sheet/search_scatter.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sheet/numbers.hpp"
#include "sheet/paper.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

constexpr double kLeft_mm = 30.0;
constexpr double kRight_mm = 140.0;  // at most; beyond it the names of unbeaten rows
constexpr double kLeader_mm = 8.0;   // to the names
constexpr double kTop_mm = 50.0;
constexpr double kBottom_mm = 230.0;
constexpr double kExact_mm = 245.0;  // the line of exact ratios
constexpr double kMargin_mm = 8.0;   // at the right of all texts
constexpr double kThin_mm = 0.12;
constexpr double kLine_mm = 0.3;

// Wider than any sans-serif face draws digits, in heights of the text.
constexpr double kDigitWidth = 0.66;

// The largest height up to `wished_mm` at which the text ends on the sheet.
double height_for(std::string_view words, double x_mm, double wished_mm) {
    const double room_mm = kSheetWidth_mm - kMargin_mm - x_mm;
    return std::min(wished_mm, room_mm / (kDigitWidth * static_cast<double>(words.size())));
}

double error_of(const SearchRow& row) {
    return std::abs(row.error_ppm.to_double());
}

class Scatter {
  public:
    explicit Scatter(const SearchReport& report) : report_(report), rows_(report.result.rows), marks_(unbeaten(rows_)) {
        find_names();
        find_size_scale();
        find_error_scale();
    }

    std::string run() {
        draw_words();
        draw_axes();
        draw_rows();
        return paper_.document(1);
    }

  private:
    void find_names() {
        double smallest_mm = std::numeric_limits<double>::infinity();
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            // Rows come with rising error: no row before this one is smaller.
            if (!marks_[row] || rows_[row].ring_diameter_mm >= smallest_mm) continue;
            smallest_mm = rows_[row].ring_diameter_mm;
            named_.push_back(row);
            const std::size_t longest = std::max(name_of(row).size(), ratio_of(row).size());
            const double width_mm = kDigitWidth * Paper::kText_mm * static_cast<double>(longest);
            right_mm_ = std::min(right_mm_, kSheetWidth_mm - kMargin_mm - kLeader_mm - width_mm);
        }
    }

    [[nodiscard]] std::string name_of(std::size_t row) const { return teeth_text(report_.wish, rows_[row]); }
    [[nodiscard]] std::string ratio_of(std::size_t row) const { return fraction_cell(rows_[row].ratio).shown; }

    // Sizes from and to a multiple of a round step.
    void find_size_scale() {
        double least = std::numeric_limits<double>::infinity();
        double most = 0.0;
        for (const SearchRow& row : rows_) {
            least = std::min(least, row.ring_diameter_mm);
            most = std::max(most, row.ring_diameter_mm);
        }
        if (rows_.empty()) least = 0.0, most = 1.0;
        size_step_mm_ = 1.0 / scale_into(std::max(most - least, 1.0), 8.0);
        size_from_mm_ = std::floor(least / size_step_mm_) * size_step_mm_;
        size_to_mm_ = std::max(std::ceil(most / size_step_mm_) * size_step_mm_, size_from_mm_ + size_step_mm_);
    }

    void find_error_scale() {
        for (const SearchRow& row : rows_) {
            if (row.error_ppm.is_zero()) continue;
            const double power = std::log10(error_of(row));
            power_from_ = std::min(power_from_, static_cast<int>(std::floor(power)));
            power_to_ = std::max(power_to_, static_cast<int>(std::ceil(power)));
        }
        if (power_to_ < power_from_) power_from_ = 0, power_to_ = 1;
        power_to_ = std::max(power_to_, power_from_ + 1);
    }

    [[nodiscard]] double x_of(double size_mm) const {
        return kLeft_mm + (right_mm_ - kLeft_mm) * (size_mm - size_from_mm_) / (size_to_mm_ - size_from_mm_);
    }
    [[nodiscard]] double y_of(double power) const {
        return kBottom_mm + (kTop_mm - kBottom_mm) * (power - power_from_) / (power_to_ - power_from_);
    }
    [[nodiscard]] PlanePoint place_of(const SearchRow& row) const {
        return {x_of(row.ring_diameter_mm), row.error_ppm.is_zero() ? kExact_mm : y_of(std::log10(error_of(row)))};
    }

    void draw_words() {
        const std::string title = fmt::format("Tooth counts for {} to 1", decimal_cell(report_.wish.target).shown);
        paper_.text({kLeft_mm, 18.0}, title, height_for(title, kLeft_mm, 6.0), true);
        const std::string wanted = wanted_text(report_.wish, report_.wish.target);
        paper_.text({kLeft_mm, 26.0}, wanted, height_for(wanted, kLeft_mm, Paper::kText_mm));
        const ArrangementForm& form = form_of(report_.wish.arrangement);
        paper_.text({kLeft_mm, 32.0}, fmt::format("{}: {} trains found{}", form.name, rows_.size(),
                                                  report_.result.extent == SearchExtent::partial
                                                      ? "; the search was stopped before its end"
                                                      : ""));
        paper_.text({kLeft_mm, 44.0}, "size of the error, ppm");
        const bool has_ring = !count_places(report_.wish).rings.empty();
        paper_.text({kLeft_mm, 265.0}, fmt::format("pitch diameter of the largest {}, mm", has_ring ? "ring" : "gear"));
        paper_.text({kLeft_mm, 276.0},
                    "Named: no other train found is both nearer and smaller. Filled: none is at least as");
        paper_.text({kLeft_mm, 281.0},
                    "good in error, size, contact ratio, hunting and balance, and better in one of them.");
    }

    void draw_axes() {
        for (double size = size_from_mm_; size <= size_to_mm_ * (1 + 1e-9); size += size_step_mm_) {
            paper_.line({{x_of(size), kTop_mm}, {x_of(size), kExact_mm}}, kThin_mm, "1 1");
            paper_.text({x_of(size) - 3.0, kExact_mm + 7.0}, fmt::format("{:g}", size));
        }
        for (int power = power_from_; power <= power_to_; ++power) {
            paper_.line({{kLeft_mm, y_of(power)}, {right_mm_, y_of(power)}}, kThin_mm, "1 1");
            paper_.text({8.0, y_of(power) + 1.0}, rough_power(power));
        }
        paper_.line({{kLeft_mm, kExact_mm}, {right_mm_, kExact_mm}}, kLine_mm);
        paper_.text({8.0, kExact_mm + 1.0}, "exact");
        paper_.line({{kLeft_mm, kTop_mm}, {kLeft_mm, kExact_mm}}, kLine_mm);
    }

    static std::string rough_power(int power) {
        return std::abs(power) <= 5 ? fmt::format("{:.10g}", std::pow(10.0, power)) : fmt::format("1e{}", power);
    }

    void draw_rows() {
        for (std::size_t row = 0; row < rows_.size(); ++row) {
            if (marks_[row])
                paper_.dot(place_of(rows_[row]));
            else
                paper_.circle(place_of(rows_[row]), 0.8, kThin_mm);
        }
        std::vector<Callout> names;
        for (const std::size_t row : named_) names.push_back({place_of(rows_[row]), name_of(row), ratio_of(row)});
        paper_.callouts(std::move(names), {right_mm_ + kLeader_mm, kTop_mm, kExact_mm, 8.0});
    }

    const SearchReport& report_;
    const std::vector<SearchRow>& rows_;
    const std::vector<bool> marks_;
    std::vector<std::size_t> named_;  // rows
    double right_mm_ = kRight_mm;
    double size_from_mm_ = 0.0;
    double size_to_mm_ = 1.0;
    double size_step_mm_ = 1.0;
    int power_from_ = std::numeric_limits<int>::max();
    int power_to_ = std::numeric_limits<int>::min();
    Paper paper_;
};

}  // namespace

std::string search_scatter(const SearchReport& report) {
    return Scatter(report).run();
}

}  // namespace couplet
