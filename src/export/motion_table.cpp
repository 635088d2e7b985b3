#include "export/motion_table.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <variant>

#include "couple/joints.hpp"
#include "exact/decimal.hpp"
#include "export/loop_animation.hpp"
#include "export/steady_decimals.hpp"
#include "motion/loop.hpp"
#include "sheet/table.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

constexpr int kTimeDecimals = 9;
constexpr int kDegreeDecimals = 9;
constexpr int kRadianDecimals = 11;

const Drive& driver_of(const ExportModel& model) {
    return model.motion.drivers[*reference_driver(model.motion)];
}

void expect_motion(const ExportModel& model) {
    if (!model.setting)
        throw ExportRefused("the scene has no setting, so that nothing moves; add a [[setting]] that drives a member");
    if (model.moves() && reference_driver(model.motion)) return;
    throw ExportRefused(
        fmt::format("the setting '{}' {}, and a table of motion needs one that moves; choose another "
                    "one with --setting",
                    model.setting->name,
                    model.moves() ? "drives nothing" : fmt::format("is {}", outcome_name(model.motion.outcome))));
}

// How many turns the driver makes, without their sense.
Ratio driver_turns(const ExportModel& model, const MotionSpan& span) {
    if (span.of == MotionSpan::Of::driver_turns) return span.amount;
    const Drive& driver = driver_of(model);
    if (driver.rpm.is_zero())
        throw ExportRefused(
            fmt::format("'{}' is driven at no speed, so that there is no time; give it a speed in the "
                        "scene, or say how far it turns, like 360deg",
                        name_of(model.train, driver.member)));
    return span.amount * driver.rpm.magnitude() / Ratio(60);
}

Ratio usual_turns(const ExportModel& model) {
    const std::optional<Ratio> loop = strict_loop_turns(model.motion);
    const Ratio rpm = driver_of(model).rpm.magnitude();
    const bool is_short = loop && *loop * Ratio(60) <= Ratio(kLongestUsualLoop_s) * rpm;
    return is_short ? *loop : Ratio(1);
}

std::int64_t rows_of(const Ratio& step_turns, const Ratio& until_turns) {
    const Ratio rows = (until_turns / step_turns).floor() + Ratio(1);
    if (rows > Ratio(kMostTableRows))
        throw ExportRefused(
            fmt::format("the table would have more than {} rows; take a larger --step, or an earlier "
                        "--until",
                        kMostTableRows));
    return rows.small_numerator();
}

// 2 pi, to 60 decimals (from memory; the digits are checked against std::numbers in the test of this file).
Ratio two_pi() {
    static const Ratio value =
        Ratio(2) *
        (Ratio(3) +
         Ratio::whole_from_digits("141592653589793238462643383279502884197169399375105820974944") * power_of_ten(-60));
    return value;
}

Ratio one_turn(AngleUnit unit) {
    return unit == AngleUnit::degrees ? Ratio(360) : two_pi();
}

void append_whole(std::string& text, std::int64_t whole) {
    std::array<char, 24> digits{};
    text.append(digits.data(), std::to_chars(digits.data(), digits.data() + digits.size(), whole).ptr);
}

// The exact turns of each row, as a fraction.
class ExactTurns {
  public:
    ExactTurns(const Ratio& turns_per_row, bool wrap) : per_row_(turns_per_row), wrap_(wrap) {}

    void append_next(std::string& text) {
        if (!append_words(text)) {
            const Ratio turns = per_row_ * Ratio(row_);
            text += (wrap_ ? turns.fraction() : turns).to_string();
        }
        ++row_;
    }

  private:
    // In lowest terms: what row and denominator share is taken out of both. False where that leaves a word.
    bool append_words(std::string& text) const {
        if (!per_row_.is_small()) return false;
        const std::int64_t per_turn = per_row_.small_denominator();
        const auto shared = static_cast<std::int64_t>(
            detail::gcd_words(static_cast<std::uint64_t>(row_), static_cast<std::uint64_t>(per_turn)));
        const std::int64_t bottom = per_turn / shared;
        std::int64_t top = 0;
        if (__builtin_mul_overflow(per_row_.small_numerator(), row_ / shared, &top)) return false;
        if (wrap_) top = (top % bottom + bottom) % bottom;
        append_whole(text, top);
        if (bottom != 1) append_whole(text += '/', bottom);
        return true;
    }

    Ratio per_row_;
    bool wrap_;
    std::int64_t row_ = 0;
};

// The time of a train whose drivers have no speed.
struct NoTime {
    static void append_next(std::string& /*text*/) {}
};

using CellWriter = std::variant<SteadyDecimals, ExactTurns, NoTime>;

std::vector<CellWriter> cell_writers(const MotionTable& table) {
    std::vector<CellWriter> writers;
    if (table.seconds_per_row)
        writers.emplace_back(SteadyDecimals(*table.seconds_per_row, kTimeDecimals));
    else
        writers.emplace_back(NoTime{});
    const Ratio turn = one_turn(table.unit);
    const int decimals = table.unit == AngleUnit::degrees ? kDegreeDecimals : kRadianDecimals;
    const std::optional<Ratio> period = table.wrap ? std::optional(turn) : std::nullopt;
    for (const MotionTable::Column& column : table.columns) {
        if (column.is_exact)
            writers.emplace_back(ExactTurns(column.turns_per_row, table.wrap));
        else
            writers.emplace_back(SteadyDecimals(column.turns_per_row * turn, decimals, period));
    }
    return writers;
}

std::string header_of(const MotionTable& table) {
    Table headings;
    headings.columns.push_back({"time_s", "", Align::right});
    const std::string unit = table.unit == AngleUnit::degrees ? "deg" : "rad";
    for (const MotionTable::Column& column : table.columns)
        headings.columns.push_back({column.heading, column.is_exact ? "turns" : unit, Align::right});
    return csv_table(headings);
}

}  // namespace

MotionTable motion_table_of(const ExportModel& model, const MotionTableOptions& options) {
    expect_motion(model);
    const Ratio step_turns = driver_turns(model, options.step.value_or(MotionSpan{Ratio(5, 360)}));
    const Ratio until_turns = options.until ? driver_turns(model, *options.until) : usual_turns(model);
    const Drive& driver = driver_of(model);
    const Ratio turned = driver.rpm.sign() < 0 ? -step_turns : step_turns;
    MotionTable table;
    table.rows = rows_of(step_turns, until_turns);
    table.wrap = options.wrap;
    table.unit = options.unit;
    if (!driver.rpm.is_zero()) table.seconds_per_row = step_turns / driver.rpm.magnitude() * Ratio(60);
    table.columns.push_back({name_of(model.train, driver.member), turned, false});
    for (const Joint& joint : joints_of(model.train)) {
        const Combination rate = rate_on(model.train, model.motion, joint.turns, joint.against);
        const Ratio turns = turns_per_driver_turn(model.motion, rate).value() * turned;
        const std::string name = joint_name(model.train, joint);
        table.columns.push_back({name, joint.flipped ? -turns : turns, false});
        if (options.exact) table.columns.push_back({name, table.columns.back().turns_per_row, true});
    }
    return table;
}

void write_motion_table(const MotionTable& table, const std::function<void(std::string_view)>& take) {
    constexpr std::size_t kPiece = std::size_t{1} << 20;
    std::vector<CellWriter> writers = cell_writers(table);
    std::string piece = header_of(table);
    for (std::int64_t row = 0; row < table.rows; ++row) {
        for (CellWriter& writer : writers) {
            std::visit([&](auto& cells) { cells.append_next(piece); }, writer);
            piece += ',';
        }
        piece.back() = '\r';
        piece += '\n';
        if (piece.size() < kPiece) continue;
        take(piece);
        piece.clear();
    }
    if (!piece.empty()) take(piece);
}

}  // namespace couplet
