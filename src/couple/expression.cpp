#include "couple/expression.hpp"

#include <map>
#include <string_view>

#include "exact/decimal.hpp"
#include "motion/elimination.hpp"
#include "train/faults.hpp"

namespace couplet {

namespace {

using SymbolicRow = std::map<std::int32_t, ToothSum>;

// The gear whose tooth count stands in a mesh row at a column: the gear's own, or that of the gear beside the arm.
GearIndex gear_at(const Train& train, const Mesh& mesh, MemberIndex column) {
    const MemberIndex a = train[mesh.first].member;
    const MemberIndex b = train[mesh.second].member;
    if (column == a) return mesh.first;
    if (column == b) return mesh.second;
    return rides_on(train, a) == column ? mesh.second : mesh.first;
}

std::vector<SymbolicRow> symbolic_rows(const Train& train, const Rows& rows) {
    std::vector<SymbolicRow> symbolic(rows.count());
    for (std::size_t r = 0; r < rows.count(); ++r) {
        for (const Term& term : rows[r]) {
            const bool is_mesh = r < train.meshes.size();
            symbolic[r][term.column] =
                is_mesh ? sum_of(gear_at(train, train.meshes[r], {term.column})) * Ratio(term.coefficient < 0 ? -1 : 1)
                        : sum_of(Ratio(term.coefficient));
        }
    }
    return symbolic;
}

// p x target - a x source over their common factors, without the eliminated column.
SymbolicRow combined(const Train& train, const SymbolicRow& target, const SymbolicRow& source, std::int32_t column) {
    const Quotient factor = quotient_of(target.at(column), source.at(column));
    ToothSum p = sum_of(factor.constant.denominator());
    for (const ToothSum& below : factor.bottom) p = p * below;
    ToothSum a = sum_of(-factor.constant.numerator());
    for (const ToothSum& above : factor.top) a = a * above;

    SymbolicRow sum;
    for (const auto& [at, coefficient] : target) sum[at] = coefficient * p;
    for (const auto& [at, coefficient] : source) sum[at] = sum[at] + coefficient * a;
    // Zero by value: counts may cancel where symbols do not.
    std::erase_if(sum,
                  [&](const auto& entry) { return entry.first == column || value_of(train, entry.second).is_zero(); });
    std::vector<const ToothSum*> coefficients;
    for (const auto& [at, coefficient] : sum) coefficients.push_back(&coefficient);
    const Content content = content_of(coefficients);
    for (auto& [at, coefficient] : sum) coefficient = divided(coefficient, content);
    return sum;
}

// A column's value from its row; nothing where another column's value is not known.
std::optional<Quotient> value_given_by(const SymbolicRow& row, std::int32_t column,
                                       const std::vector<std::optional<Quotient>>& values) {
    Quotient sum;
    for (const auto& [at, coefficient] : row) {
        if (at == column) continue;
        const std::optional<Quotient>& other = values[static_cast<std::size_t>(at)];
        if (!other) return std::nullopt;
        sum = sum + *other * quotient_of(coefficient, row.at(column) * Ratio(-1));
    }
    return sum;
}

std::optional<Quotient> joint_quotient(const Train& train, const std::vector<std::optional<Quotient>>& rates,
                                       const Joint& joint) {
    Quotient sum;
    const auto add_path = [&](MemberIndex member, MemberIndex end, std::int64_t sign) {
        for (MemberIndex under = member; under != kFrame && under != end; under = rides_on(train, under)) {
            const std::optional<Quotient>& rate = rates[under.position()];
            if (!rate) return false;
            sum = sum + *rate * quotient_of(sum_of(Ratio(sign)), sum_of(Ratio(1)));
        }
        return true;
    };
    const std::int64_t sense = joint.flipped ? -1 : 1;
    const bool nested = joint.against != kFrame && rides_on(train, joint.turns) == joint.against;
    if (nested) return add_path(joint.turns, joint.against, sense) ? std::optional(sum) : std::nullopt;
    if (!add_path(joint.turns, kFrame, sense) || !add_path(joint.against, kFrame, -sense)) return std::nullopt;
    return sum;
}

// Recursive descent over sum = product {(+|-) product}, product = factor {(*|/) factor}, factor = number | (sum).
class Parser {
  public:
    explicit Parser(std::string_view text) : rest_(text) {}

    std::optional<Ratio> whole_text() {
        const std::optional<Ratio> value = sum(0);
        skip_spaces();
        return rest_.empty() ? value : std::nullopt;
    }

  private:
    static constexpr int kMostDepth = 100;

    void skip_spaces() {
        while (rest_.starts_with(' ')) rest_.remove_prefix(1);
    }
    bool take(char symbol) {
        skip_spaces();
        if (!rest_.starts_with(symbol)) return false;
        rest_.remove_prefix(1);
        return true;
    }
    std::optional<Ratio> sum(int depth) {
        const bool negative = take('-');
        std::optional<Ratio> value = product(depth);
        if (value && negative) value = -*value;
        while (value) {
            const bool plus = take('+');
            if (!plus && !take('-')) break;
            const std::optional<Ratio> next = product(depth);
            if (!next) return std::nullopt;
            value = plus ? *value + *next : *value - *next;
        }
        return value;
    }
    std::optional<Ratio> product(int depth) {
        std::optional<Ratio> value = factor(depth);
        while (value) {
            const bool times = take('*');
            if (!times && !take('/')) break;
            const std::optional<Ratio> next = factor(depth);
            if (!next || (!times && next->is_zero())) return std::nullopt;
            value = times ? *value * *next : *value / *next;
        }
        return value;
    }
    std::optional<Ratio> factor(int depth) {
        if (depth > kMostDepth) return std::nullopt;
        if (take('(')) {
            const std::optional<Ratio> value = sum(depth + 1);
            return take(')') ? value : std::nullopt;
        }
        const std::size_t length = std::min(rest_.find_first_not_of("0123456789."), rest_.size());
        const std::string_view number = rest_.substr(0, length);
        rest_.remove_prefix(length);
        return parse_ratio(number);
    }

    std::string_view rest_;
};

}  // namespace

std::vector<std::optional<Quotient>> symbolic_joint_rates(const Train& train, const Setting& setting,
                                                          const Motion& motion, std::size_t parameter) {
    const std::size_t members = train.members.size();
    if (members > kMostExpressedMembers || motion.free_joints.size() != motion.free_parameters) return {};
    const Rows rows = equations(train, setting);
    std::vector<SymbolicRow> symbolic = symbolic_rows(train, rows);
    std::vector<std::optional<Quotient>> values(static_cast<std::size_t>(rows.columns));
    const Quotient one{1, {}, {}};
    for (std::size_t i = 0; i < motion.drivers.size(); ++i) values[members + i] = i == parameter ? one : Quotient{};
    for (std::size_t i = 0; i < motion.free_joints.size(); ++i)
        values[motion.free_joints[i].position()] = motion.drivers.size() + i == parameter ? one : Quotient{};

    for (const EliminationStep& step : elimination_steps(rows, static_cast<std::int32_t>(motion.drivers.size()))) {
        const SymbolicRow& source = symbolic[static_cast<std::size_t>(step.source)];
        try {
            if (step.kind == EliminationStep::Kind::combine) {
                SymbolicRow& target = symbolic[static_cast<std::size_t>(step.target)];
                target =
                    target.empty() || source.empty() ? SymbolicRow{} : combined(train, target, source, step.column);
            } else if (!source.empty()) {
                values[static_cast<std::size_t>(step.column)] = value_given_by(source, step.column, values);
            }
        } catch (const TooManyTerms&) {
            // An empty row stands for one that grew too long; so does all that comes of it.
            if (step.kind == EliminationStep::Kind::combine) symbolic[static_cast<std::size_t>(step.target)].clear();
        }
    }
    values.resize(members);
    return values;
}

std::string fraction_expression(const Ratio& second_per_first, const Ratio& first_deg) {
    if (second_per_first.is_zero()) return "0";
    const bool negative = second_per_first.sign() * first_deg.sign() < 0;
    return (negative ? "-" : "") + exact_text(first_deg.magnitude()) + " * " + second_per_first.magnitude().to_string();
}

std::string angle_expression(const Train& train, const std::vector<std::optional<Quotient>>& joint_rates,
                             const Joint& first, const Joint& second, const Ratio& second_per_first,
                             const Ratio& first_deg) {
    const Ratio angle = second_per_first * first_deg;
    if (!joint_rates.empty()) {
        try {
            const std::optional<Quotient> above = joint_quotient(train, joint_rates, second);
            const std::optional<Quotient> below = joint_quotient(train, joint_rates, first);
            if (above && below && !below->constant.is_zero()) {
                std::string text = text_of(train, *above * inverse(*below), first_deg);
                if (text.size() <= kMostExpressionLength && evaluate_expression(text) == angle) return text;
            }
        } catch (const TooManyTerms&) {
        }
    }
    return fraction_expression(second_per_first, first_deg);
}

std::optional<Ratio> evaluate_expression(const std::string& text) {
    return Parser(text).whole_text();
}

}  // namespace couplet
