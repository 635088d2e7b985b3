#include "sheet/quantity.hpp"

#include <fmt/format.h>

#include <cmath>

namespace couplet {

namespace {

std::string without_trailing_zeros(std::string text) {
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string shown_number(double value, std::string_view unit) {
    const std::string text = unit == "mm"             ? fmt::format("{:.3f}", value)
                             : std::abs(value) >= 1e9 ? fmt::format("{:.6g}", value)
                                                      : without_trailing_zeros(fmt::format("{:.4f}", value));
    const bool is_zero = text.find_first_not_of("-0.") == std::string::npos;
    return is_zero && text.front() == '-' ? text.substr(1) : text;
}

Cell value_cell(const Quantity& quantity) {
    const Json& value = quantity.value;
    if (value.is_null()) return {"", "none"};
    if (value.is_boolean()) return {value.dump(), value.get<bool>() ? "yes" : "no"};
    if (value.is_number_float()) return measured_cell(value.get<double>(), quantity.unit);
    if (value.is_string()) return {value.get<std::string>()};
    return {value.dump()};
}

}  // namespace

Json measured_json(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json measured_json(const std::optional<double>& value) {
    return value ? measured_json(*value) : Json(nullptr);
}

Cell measured_cell(double value, std::string_view unit) {
    if (!std::isfinite(value)) return {"", "none"};
    return {fmt::format("{}", value), shown_number(value, unit)};
}

Json quantities_json(const std::vector<Quantity>& quantities) {
    Json object = Json::object();
    for (const Quantity& quantity : quantities) object[quantity.key] = quantity.value;
    return object;
}

Table quantities_table(std::string title, const std::vector<Quantity>& quantities) {
    Table table;
    table.title = std::move(title);
    table.columns = {{"quantity", "", Align::left}, {"value", "", Align::right}, {"unit", "", Align::left}};
    for (const Quantity& quantity : quantities)
        if (!quantity.label.empty())
            table.rows.push_back({quantity.label, value_cell(quantity), quantity.value.is_null() ? "" : quantity.unit});
    return table;
}

Table quantities_list() {
    Table table;
    table.columns = {{"what", "", Align::left},
                     {"name", "", Align::left},
                     {"quantity", "", Align::left},
                     {"value", "", Align::right},
                     {"unit", "", Align::left}};
    return table;
}

void add_quantities(Table& list, const std::string& what, const std::string& name,
                    const std::vector<Quantity>& quantities) {
    for (const Quantity& quantity : quantities)
        list.rows.push_back({what, name, quantity.key, value_cell(quantity), quantity.unit});
}

}  // namespace couplet
