#include "find/search_result.hpp"

#include <numeric>
#include <tuple>

namespace couplet {

std::string_view name_of(Rule rule) {
    static constexpr std::array<std::string_view, kRules> names = {
        "ratio",           "tooth range", "ring diameter", "hunting",       "assembly", "neighbour clearance",
        "centre distance", "undercut",    "interference",  "contact ratio", "teeth"};
    return names[static_cast<std::size_t>(rule)];
}

Ratio error_in_ppm(const Ratio& ratio, const Ratio& target) {
    return (ratio / target - Ratio(1)) * Ratio(1000000);
}

bool comes_before(const SearchRow& a, const SearchRow& b) {
    if (const auto errors = a.error_ppm.magnitude() <=> b.error_ppm.magnitude(); errors != 0) return errors < 0;
    const auto all = [](const SearchRow& row) { return std::accumulate(row.teeth.begin(), row.teeth.end(), 0); };
    const int all_of_a = all(a);
    const int all_of_b = all(b);
    return std::tie(all_of_a, a.teeth, a.copies) < std::tie(all_of_b, b.teeth, b.copies);
}

}  // namespace couplet
