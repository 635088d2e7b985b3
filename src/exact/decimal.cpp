#include "exact/decimal.hpp"

#include <algorithm>
#include <charconv>

namespace couplet {

namespace {

bool all_digits(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

// TOML allows '_' between two digits only; nothing where one stands elsewhere.
std::optional<std::string> without_underscores(std::string_view text) {
    std::string digits;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] != '_') {
            digits += text[i];
            continue;
        }
        const bool between =
            i > 0 && i + 1 < text.size() && all_digits(text.substr(i - 1, 1)) && all_digits(text.substr(i + 1, 1));
        if (!between) return std::nullopt;
    }
    return digits;
}

std::optional<int> parse_exponent(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    int exponent = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), exponent);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    if (exponent > kMostDecimals || exponent < -kMostDecimals) return std::nullopt;
    return exponent;
}

std::optional<Ratio> parse_decimal(std::string_view written) {
    const bool negative = written.starts_with('-');
    if (negative || written.starts_with('+')) written.remove_prefix(1);
    const std::optional<std::string> plain = without_underscores(written);
    if (!plain || plain->size() > static_cast<std::size_t>(kMostDecimals)) return std::nullopt;
    std::string_view mantissa = *plain;
    int exponent = 0;
    if (const std::size_t e = mantissa.find_first_of("eE"); e != std::string_view::npos) {
        const std::optional<int> parsed = parse_exponent(mantissa.substr(e + 1));
        if (!parsed) return std::nullopt;
        exponent = *parsed;
        mantissa = mantissa.substr(0, e);
    }
    const std::size_t point = mantissa.find('.');
    const std::string_view whole = mantissa.substr(0, point);
    const std::string_view decimals = point == std::string_view::npos ? "" : mantissa.substr(point + 1);
    if (!all_digits(whole) || (point != std::string_view::npos && !all_digits(decimals))) return std::nullopt;
    const Ratio digits = Ratio::whole_from_digits(std::string(whole) + std::string(decimals));
    const Ratio value = digits * power_of_ten(exponent - static_cast<int>(decimals.size()));
    return negative ? -value : value;
}

// How often the prime divides the whole number, which is divided by it as often.
int remove_factor(Ratio& whole, std::int64_t prime) {
    int count = 0;
    while (true) {
        const Ratio divided = whole / prime;
        if (!divided.is_whole()) return count;
        whole = divided;
        ++count;
    }
}

}  // namespace

Ratio power_of_ten(int exponent) {
    if (exponent < 0) return power_of_ten(-exponent).inverse();
    return Ratio::whole_from_digits("1" + std::string(static_cast<std::size_t>(exponent), '0'));
}

std::optional<Ratio> parse_ratio(std::string_view text) {
    const std::size_t slash = text.find('/');
    if (slash == std::string_view::npos) return parse_decimal(text);
    const std::string_view top = text.substr(0, slash);
    const std::string_view bottom = text.substr(slash + 1);
    const bool signed_top = top.starts_with('-') || top.starts_with('+');
    if (!all_digits(top.substr(signed_top ? 1 : 0)) || !all_digits(bottom)) return std::nullopt;
    const std::optional<Ratio> numerator = parse_decimal(top);
    const std::optional<Ratio> denominator = parse_decimal(bottom);
    if (!numerator || !denominator || denominator->is_zero()) return std::nullopt;
    return *numerator / *denominator;
}

std::optional<int> decimals_needed(const Ratio& value) {
    Ratio rest = value.denominator();
    // Beyond kMostDecimals factors the value is not one that anybody wrote as a decimal.
    if (rest.bits() > static_cast<std::size_t>(kMostDecimals) * 4) return std::nullopt;
    const int twos = remove_factor(rest, 2);
    const int fives = remove_factor(rest, 5);
    if (rest != Ratio(1)) return std::nullopt;
    return std::max(twos, fives);
}

Ratio rounded(const Ratio& value, int decimals) {
    const Ratio scale = power_of_ten(decimals);
    const Ratio whole = (value.magnitude() * scale + Ratio(1, 2)).floor();
    return (value.sign() < 0 ? -whole : whole) / scale;
}

std::string decimal_text(const Ratio& value, int decimals) {
    const Ratio scaled = rounded(value, decimals) * power_of_ten(decimals);
    std::string digits = scaled.magnitude().to_string();
    const auto places = static_cast<std::size_t>(decimals);
    if (digits.size() <= places) digits.insert(0, places + 1 - digits.size(), '0');
    if (places > 0) {
        digits.insert(digits.size() - places, 1, '.');
        digits.erase(digits.find_last_not_of('0') + 1);
        if (digits.back() == '.') digits.pop_back();
    }
    return scaled.sign() < 0 ? "-" + digits : digits;
}

std::string exact_text(const Ratio& value) {
    const std::optional<int> decimals = decimals_needed(value);
    return decimals && *decimals <= kMostDecimals ? decimal_text(value, *decimals) : value.to_string();
}

}  // namespace couplet
