#include "export/plain_names.hpp"

#include <map>
#include <set>

namespace couplet {

namespace {

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string plain(const std::string& name) {
    constexpr std::size_t kLongest = 100;
    std::string result;
    for (const char c : name) {
        const char taken = is_letter(c) || is_digit(c) ? c : '_';
        if (taken != '_' || (!result.empty() && result.back() != '_')) result.push_back(taken);
    }
    while (!result.empty() && result.back() == '_') result.pop_back();
    if (result.empty()) result = "member";
    if (is_digit(result.front())) result.insert(0, "m_");
    return result.substr(0, kLongest);
}

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

}  // namespace

std::vector<std::string> plain_names(const std::vector<std::string>& names) {
    std::vector<std::string> result(names.size());
    std::set<std::string> taken;
    std::map<std::string, int> next_number;
    for (const bool unchanged : {true, false})
        for (std::size_t i = 0; i < names.size(); ++i) {
            if (!result[i].empty()) continue;
            const std::string wished = plain(names[i]);
            if (unchanged && (wished != names[i] || taken.contains(lower(wished)))) continue;
            std::string given = wished;
            int& number = next_number.try_emplace(lower(wished), 2).first->second;
            while (!taken.insert(lower(given)).second) given = wished + "_" + std::to_string(number++);
            result[i] = given;
        }
    return result;
}

}  // namespace couplet
