#include "couple/symbols.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace couplet {

namespace {

constexpr std::size_t kMostGearsInProduct = 24;

void add_term(ToothSum& sum, const GearProduct& gears, const Ratio& multiple) {
    if (multiple.is_zero()) return;
    const auto [place, inserted] = sum.try_emplace(gears, multiple);
    if (inserted) {
        if (sum.size() > kMostSumTerms) throw TooManyTerms("a sum of tooth counts grew beyond what anybody would read");
        return;
    }
    place->second += multiple;
    if (place->second.is_zero()) sum.erase(place);
}

GearProduct merged(const GearProduct& a, const GearProduct& b) {
    GearProduct product;
    std::ranges::merge(a, b, std::back_inserter(product));
    if (product.size() > kMostGearsInProduct)
        throw TooManyTerms("a product of tooth counts grew beyond what anybody would read");
    return product;
}

GearProduct without(const GearProduct& gears, const GearProduct& removed) {
    GearProduct rest;
    std::ranges::set_difference(gears, removed, std::back_inserter(rest));
    return rest;
}

// Splits a sum into its constant, its gears as factors of their own, and what is left as one factor.
void add_factors(Quotient& quotient, const ToothSum& sum, bool above) {
    Content content = content_of({&sum});
    if (sum.begin()->second.sign() < 0) content.number = -content.number;
    quotient.constant = above ? quotient.constant * content.number : quotient.constant / content.number;
    std::vector<ToothSum>& side = above ? quotient.top : quotient.bottom;
    for (const GearIndex gear : content.gears) side.push_back(sum_of(gear));
    if (sum.size() > 1) side.push_back(divided(sum, content));
}

// Takes out of both lists what stands in both, and returns it.
std::vector<ToothSum> take_common(std::vector<ToothSum>& a, std::vector<ToothSum>& b) {
    std::vector<ToothSum> common;
    std::vector<ToothSum> rest;
    for (ToothSum& factor : a) {
        const auto match = std::ranges::find(b, factor);
        if (match == b.end()) {
            rest.push_back(std::move(factor));
        } else {
            common.push_back(std::move(factor));
            b.erase(match);
        }
    }
    a = std::move(rest);
    return common;
}

ToothSum expanded(const std::vector<ToothSum>& factors) {
    ToothSum product = sum_of(Ratio(1));
    for (const ToothSum& factor : factors) product = product * factor;
    return product;
}

std::string text_of(const Train& train, const GearProduct& gears, const Ratio& multiple) {
    std::string text;
    if (multiple != Ratio(1) || gears.empty()) text = multiple.to_string();
    for (const GearIndex gear : gears) {
        if (!text.empty()) text += '*';
        text += std::to_string(train[gear].teeth);
    }
    return text;
}

std::string text_of(const Train& train, const ToothSum& factor) {
    std::string text;
    for (const auto& [gears, multiple] : factor) {
        if (multiple.sign() < 0)
            text += '-';
        else if (!text.empty())
            text += '+';
        text += text_of(train, gears, multiple.magnitude());
    }
    return factor.size() == 1 ? text : "(" + text + ")";
}

// Single gears first, then sums, each in the order of the train.
std::vector<std::string> factor_texts(const Train& train, std::vector<ToothSum> factors) {
    std::ranges::stable_sort(factors, [](const ToothSum& a, const ToothSum& b) {
        const bool a_is_sum = a.size() > 1;
        const bool b_is_sum = b.size() > 1;
        return a_is_sum != b_is_sum ? b_is_sum : a.begin()->first < b.begin()->first;
    });
    std::vector<std::string> texts;
    texts.reserve(factors.size());
    for (const ToothSum& factor : factors) texts.push_back(text_of(train, factor));
    return texts;
}

}  // namespace

ToothSum sum_of(const Ratio& number) {
    return number.is_zero() ? ToothSum{} : ToothSum{{{}, number}};
}

ToothSum sum_of(GearIndex gear) {
    return {{{gear}, Ratio(1)}};
}

ToothSum operator+(const ToothSum& a, const ToothSum& b) {
    ToothSum sum = a;
    for (const auto& [gears, multiple] : b) add_term(sum, gears, multiple);
    return sum;
}

ToothSum operator*(const ToothSum& a, const ToothSum& b) {
    ToothSum product;
    for (const auto& [a_gears, a_multiple] : a)
        for (const auto& [b_gears, b_multiple] : b)
            add_term(product, merged(a_gears, b_gears), a_multiple * b_multiple);
    return product;
}

ToothSum operator*(const ToothSum& a, const Ratio& factor) {
    return a * sum_of(factor);
}

Content content_of(const std::vector<const ToothSum*>& sums) {
    Content content;
    bool first = true;
    for (const ToothSum* sum : sums) {
        for (const auto& [gears, multiple] : *sum) {
            GearProduct shared;
            std::ranges::set_intersection(content.gears, gears, std::back_inserter(shared));
            content.gears = std::exchange(first, false) ? gears : shared;
            content.number = whole_gcd(content.number, multiple);
        }
    }
    if (first) content.number = 1;
    return content;
}

ToothSum divided(const ToothSum& sum, const Content& content) {
    ToothSum quotient;
    for (const auto& [gears, multiple] : sum)
        quotient.emplace(without(gears, content.gears), multiple / content.number);
    return quotient;
}

Quotient quotient_of(const ToothSum& top, const ToothSum& bottom) {
    Quotient quotient;
    if (top.empty()) return quotient;
    quotient.constant = 1;
    add_factors(quotient, top, true);
    add_factors(quotient, bottom, false);
    take_common(quotient.top, quotient.bottom);
    return quotient;
}

Quotient operator*(const Quotient& a, const Quotient& b) {
    Quotient product = a;
    product.constant *= b.constant;
    if (product.constant.is_zero()) return {};
    product.top.insert(product.top.end(), b.top.begin(), b.top.end());
    product.bottom.insert(product.bottom.end(), b.bottom.begin(), b.bottom.end());
    take_common(product.top, product.bottom);
    return product;
}

// a + b = common x (rest of a + rest of b), over the least common bottom.
Quotient operator+(const Quotient& a, const Quotient& b) {
    if (a.constant.is_zero()) return b;
    if (b.constant.is_zero()) return a;
    Quotient rest_a = a;
    Quotient rest_b = b;
    Quotient common{1, take_common(rest_a.top, rest_b.top), take_common(rest_a.bottom, rest_b.bottom)};
    // The constants over one denominator, so that sums keep whole multiples.
    const Ratio below = a.constant.denominator() * b.constant.denominator();
    common.constant = below.inverse();
    const ToothSum left = expanded(rest_a.top) * expanded(rest_b.bottom) * (a.constant * below);
    const ToothSum right = expanded(rest_b.top) * expanded(rest_a.bottom) * (b.constant * below);
    common.bottom.insert(common.bottom.end(), rest_a.bottom.begin(), rest_a.bottom.end());
    common.bottom.insert(common.bottom.end(), rest_b.bottom.begin(), rest_b.bottom.end());
    return common * quotient_of(left + right, sum_of(Ratio(1)));
}

Quotient inverse(const Quotient& quotient) {
    return {quotient.constant.inverse(), quotient.bottom, quotient.top};
}

Ratio value_of(const Train& train, const ToothSum& sum) {
    Ratio value;
    for (const auto& [gears, multiple] : sum) {
        Ratio product = multiple;
        for (const GearIndex gear : gears) product *= Ratio(train[gear].teeth);
        value += product;
    }
    return value;
}

std::string text_of(const Train& train, const Quotient& quotient, const Ratio& times) {
    const Ratio number = quotient.constant * times;
    if (number.is_zero()) return "0";
    std::vector<std::string> top = factor_texts(train, quotient.top);
    std::vector<std::string> bottom = factor_texts(train, quotient.bottom);
    if (const Ratio below = number.denominator(); below != Ratio(1)) bottom.insert(bottom.begin(), below.to_string());

    // As many fractions as there are factors below, the wished angle over the first one where those above run out.
    std::string text = number.numerator().to_string();
    std::size_t below = 0;
    while (bottom.size() - below > top.size()) text += "/" + bottom[below++];
    for (const std::string& factor : top) {
        text += " * " + factor;
        if (below < bottom.size()) text += "/" + bottom[below++];
    }
    return text;
}

}  // namespace couplet
