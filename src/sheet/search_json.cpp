#include "sheet/search_json.hpp"

#include <algorithm>
#include <stdexcept>

#include "exact/decimal.hpp"
#include "sheet/cautions.hpp"
#include "sheet/quantity.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

// Words that stand for the values of an enum, in their order.
constexpr std::array<std::string_view, 2> kShifts = {"none", "allowed"};
constexpr std::array<std::string_view, 2> kHuntings = {"any", "required"};
constexpr std::array<std::string_view, 2> kSpacings = {"equal", "free"};
constexpr std::array<std::string_view, 2> kRows = {"train", "ratio"};

template <class Enum, std::size_t N>
std::string_view word_of(Enum value, const std::array<std::string_view, N>& words) {
    return words[static_cast<std::size_t>(value)];
}

Json wish_json(const SearchWish& wish) {
    Json ranges = Json::object();
    const std::vector<std::string> names = count_names(wish);
    const std::vector<ToothRange> given = ranges_of(wish);
    for (std::size_t count = 0; count < names.size(); ++count)
        ranges[names[count]] = Json::array({given[count].fewest, given[count].most});
    const CentralChoice choice = choice_of(wish);
    return {{"arrangement", short_name(wish.arrangement)},
            {"pairs", wish.arrangement == Arrangement::pairs ? Json(wish.pairs) : Json(nullptr)},
            {"held", choice.held},
            {"driver", choice.driver},
            {"output", choice.output},
            {"tolerance", exact_json(wish.tolerance)},
            {"nearest", wish.tolerance ? Json(nullptr) : Json(wish.most_nearest)},
            {"teeth", std::move(ranges)},
            {"copies", Json::array({wish.copies.fewest, wish.copies.most})},
            {"largest_ring_diameter_mm",
             wish.largest_ring_diameter_mm ? Json(*wish.largest_ring_diameter_mm) : Json(nullptr)},
            {"module_mm", exact_json(wish.module_mm)},
            {"shift", word_of(wish.shift, kShifts)},
            {"hunting", word_of(wish.hunting, kHuntings)},
            {"spacing", word_of(wish.spacing, kSpacings)},
            {"each", word_of(wish.rows, kRows)}};
}

Json places_json(const SearchRow& row) {
    if (row.places_deg.empty()) return nullptr;
    Json carriers = Json::array();
    for (const std::vector<Ratio>& places : row.places_deg) {
        Json list = Json::array();
        for (const Ratio& place : places) list.push_back(exact_json(place));
        carriers.push_back(std::move(list));
    }
    return carriers;
}

Json row_json(const SearchWish& wish, const SearchRow& row, bool is_unbeaten) {
    const std::vector<std::string> names = count_names(wish);
    Json teeth = Json::object();
    Json shifts = Json::object();
    for (std::size_t count = 0; count < names.size(); ++count) {
        teeth[names[count]] = row.teeth[count];
        shifts[names[count]] = exact_json(row.shifts[count]);
    }
    return {{"teeth", std::move(teeth)},
            {"copies", row.copies},
            {"ratio", exact_json(row.ratio)},
            {"error_ppm", double_json(row.error_ppm)},
            {"ring_diameter_mm", measured_json(row.ring_diameter_mm)},
            {"shifts", std::move(shifts)},
            {"places_deg", places_json(row)},
            {"contact_ratio", measured_json(row.contact_ratio)},
            {"hunting", row.hunting},
            {"balance", {{"residual", row.balance.residual}, {"in_step", row.balance.in_step}}},
            {"unbeaten", is_unbeaten},
            {"cautions", row.cautions}};
}

Json loosenings_json(const SearchReport& report) {
    Json list = Json::array();
    for (const Loosening& loosening : report.loosenings)
        list.push_back({{"limit", name_of(loosening.limit)},
                        {"part", loosening.part ? Json(*loosening.part) : Json(nullptr)},
                        {"row", row_json(report.wish, loosening.row, false)}});
    return list;
}

// One of a few words; throws with the key that it is read for.
template <class Enum, std::size_t N>
Enum value_of(const Json& object, const char* key, const std::array<std::string_view, N>& words) {
    const std::string word = object.at(key).get<std::string>();
    const auto found = std::ranges::find(words, word);
    if (found == words.end()) throw std::invalid_argument(std::string("'") + word + "' is no " + key);
    return static_cast<Enum>(found - words.begin());
}

Ratio ratio_of(const Json& exact) {
    const std::string text = exact.at("exact").get<std::string>();
    if (std::optional<Ratio> value = parse_ratio(text)) return *std::move(value);
    throw std::invalid_argument("'" + text + "' is no number");
}

Arrangement arrangement_of(const std::string& word) {
    for (const Arrangement arrangement : searchable_arrangements())
        if (short_name(arrangement) == word) return arrangement;
    throw std::invalid_argument("'" + word + "' is no arrangement");
}

SearchWish wish_of(const Json& json, const Ratio& target) {
    SearchWish wish;
    wish.target = target;
    wish.arrangement = arrangement_of(json.at("arrangement").get<std::string>());
    if (!json.at("pairs").is_null()) wish.pairs = json.at("pairs").get<int>();
    wish.choice = {json.at("held").get<std::string>(), json.at("driver").get<std::string>(),
                   json.at("output").get<std::string>()};
    if (!json.at("tolerance").is_null()) wish.tolerance = ratio_of(json.at("tolerance"));
    if (!json.at("nearest").is_null()) wish.most_nearest = json.at("nearest").get<std::size_t>();
    for (const auto& [name, range] : json.at("teeth").items()) {
        const ToothRange given{range.at(0).get<int>(), range.at(1).get<int>()};
        if (given.most <= kMostSearchedTeeth) wish.teeth[name] = given;
    }
    wish.copies = {json.at("copies").at(0).get<int>(), json.at("copies").at(1).get<int>()};
    if (!json.at("largest_ring_diameter_mm").is_null())
        wish.largest_ring_diameter_mm = json.at("largest_ring_diameter_mm").get<double>();
    wish.module_mm = ratio_of(json.at("module_mm"));
    wish.shift = value_of<ShiftUse>(json, "shift", kShifts);
    wish.hunting = value_of<HuntingUse>(json, "hunting", kHuntings);
    wish.spacing = value_of<SpacingUse>(json, "spacing", kSpacings);
    wish.rows = value_of<RowsUse>(json, "each", kRows);
    require_meant(wish);
    return wish;
}

// Counted from 1 in the text.
Slice slice_of(const Json& json) {
    if (json.is_null()) return {};
    const auto index = json.at("index").get<std::int64_t>();
    const auto count = json.at("of").get<std::int64_t>();
    if (index < 1 || index > count || count > static_cast<std::int64_t>(kMostSlices))
        throw std::invalid_argument("there is no slice " + std::to_string(index) + " of " + std::to_string(count));
    return {static_cast<std::size_t>(index) - 1, static_cast<std::size_t>(count)};
}

SearchRow row_of(const SearchWish& wish, const Json& json) {
    SearchRow row;
    for (const std::string& name : count_names(wish)) {
        row.teeth.push_back(json.at("teeth").at(name).get<int>());
        row.shifts.push_back(ratio_of(json.at("shifts").at(name)));
    }
    row.copies = json.at("copies").get<int>();
    row.ratio = ratio_of(json.at("ratio"));
    if (row.ratio.is_zero()) throw std::invalid_argument("no train has the ratio 0");
    row.error_ppm = error_in_ppm(row.ratio, wish.target);
    row.ring_diameter_mm = json.at("ring_diameter_mm").get<double>();
    if (!json.at("places_deg").is_null())
        for (const Json& places : json.at("places_deg")) {
            row.places_deg.emplace_back();
            for (const Json& place : places) row.places_deg.back().push_back(ratio_of(place));
        }
    row.contact_ratio = json.at("contact_ratio").get<double>();
    row.hunting = json.at("hunting").get<bool>();
    row.balance = {json.at("balance").at("residual").get<double>(), json.at("balance").at("in_step").get<int>()};
    row.cautions = json.at("cautions").get<std::vector<std::string>>();
    return row;
}

SearchReport report_of(const Json& json) {
    SearchReport report;
    report.wish = wish_of(json.at("wish"), ratio_of(json.at("target")));
    report.slice = slice_of(json.at("slice"));
    SearchResult& result = report.result;
    result.target = report.wish.target;
    result.examined = json.at("examined").get<std::int64_t>();
    for (std::size_t rule = 0; rule < kRules; ++rule)
        result.rejected[rule] = json.at("rejected").at(name_of(static_cast<Rule>(rule))).get<std::int64_t>();
    for (const Json& row : json.at("rows")) result.rows.push_back(row_of(report.wish, row));
    std::ranges::sort(result.rows, comes_before);
    if (result.rows.size() != json.at("rows_found").get<std::size_t>())
        throw std::invalid_argument("it shows some of the rows only; write it with --slice");
    result.extent = json.at("partial").get<bool>() ? SearchExtent::partial : SearchExtent::whole;
    return report;
}

}  // namespace

Json search_json(const SearchReport& report) {
    const SearchResult& result = report.result;
    Json rejected = Json::object();
    for (std::size_t rule = 0; rule < kRules; ++rule)
        rejected[std::string(name_of(static_cast<Rule>(rule)))] = result.rejected[rule];
    const std::vector<bool> marks = unbeaten(result.rows);
    Json rows = Json::array();
    for (const std::size_t position : shown_rows(report)) {
        rows.push_back(row_json(report.wish, result.rows[position], marks[position]));
        if (report.rpm)
            rows.back()["drift_turns_a_year"] = exact_json(drift_turns_a_year(report, result.rows[position]));
    }
    const bool whole_slice = report.slice.count == 1;
    return {
        {"couplet", 1},
        {"scene", form_of(report.wish.arrangement).name},
        {"outcome", result.rows.empty() ? "nothing found" : "found"},
        {"target", exact_json(report.wish.target)},
        {"wish", wish_json(report.wish)},
        {"slice", whole_slice ? Json(nullptr) : Json{{"index", report.slice.index + 1}, {"of", report.slice.count}}},
        {"partial", result.extent == SearchExtent::partial},
        {"examined", result.examined},
        {"rejected", std::move(rejected)},
        {"rows_found", result.rows.size()},
        {"rows", std::move(rows)},
        {"loosenings", loosenings_json(report)},
        {"cautions", cautions_json()}};
}

SearchReport search_of_json(std::string_view text) {
    try {
        return report_of(Json::parse(text));
    } catch (const Json::exception&) {
        throw std::invalid_argument("it is no result of a search; write it with --format json");
    }
}

}  // namespace couplet
