#include "app/finding_places.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

namespace couplet {

namespace {

// What stands in a `where` behind the name that it begins with.
constexpr std::array<std::string_view, 5> kBehindName = {", ", " tip in ", " with ", " on ", " "};

template <class Index>
using Names = std::unordered_map<std::string, Index>;

// The longest name that the text is or begins with.
template <class Index>
std::optional<Index> leading_name(const Names<Index>& names, const std::string& where) {
    if (const auto whole = names.find(where); whole != names.end()) return whole->second;
    for (std::size_t end = where.rfind(' '); end != std::string::npos && end > 0; end = where.rfind(' ', end - 1))
        for (const std::string_view behind : kBehindName)
            for (const std::size_t at : {end, end - 1})
                if (where.compare(at, behind.size(), behind) == 0)
                    if (const auto found = names.find(where.substr(0, at)); found != names.end()) return found->second;
    return std::nullopt;
}

bool is_about_copies(const std::string& rule) {
    constexpr std::array<std::string_view, 7> kRules = {
        "assembly condition", "neighbour clearance", "teeth meet gaps all round", "copies on one axis",
        "copies in mesh",     "triangle of axes",    "centre distances agree"};
    return std::ranges::find(kRules, rule) != kRules.end();
}

class Sorter {
  public:
    explicit Sorter(const Train& train) : train_(train) {
        for (std::int32_t g = 0; g < static_cast<std::int32_t>(train.gears.size()); ++g)
            gears_.emplace(name_of(train, GearIndex{g}), GearIndex{g});
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m)
            members_.emplace(train.members[static_cast<std::size_t>(m)].name, MemberIndex{m});
    }

    void add(const Finding& finding) {
        if (finding.rule == "backlash") return add_once(places_.backlash, finding);
        const std::optional<GearIndex> gear = leading_name(gears_, finding.where);
        if (finding.rule == "module of ISO 54" && gear && !train_[*gear].spec.module_mm)
            return add_once(places_.module, finding);
        if (is_about_copies(finding.rule)) {
            if (const std::optional<MemberIndex> member = member_with_copies(finding.where))
                return places_.members[*member].push_back(finding);
        }
        if (gear) return places_.gears[*gear].push_back(finding);
        places_.elsewhere.push_back(finding);
    }
    FindingPlaces take() { return std::move(places_); }

  private:
    // The first of the members or gears named that has copies, or is carried.
    std::optional<MemberIndex> member_with_copies(const std::string& where) const {
        for (std::size_t from = 0; from < where.size();) {
            const std::string rest = where.substr(from);
            std::optional<MemberIndex> member = leading_name(members_, rest);
            if (!member)
                if (const std::optional<GearIndex> gear = leading_name(gears_, rest)) member = train_[*gear].member;
            if (member && has_copies(*member)) return member;
            const std::size_t comma = where.find(", ", from);
            if (comma == std::string::npos) break;
            from = comma + 2;
        }
        return std::nullopt;
    }
    bool has_copies(MemberIndex member) const {
        return train_[member].copies > 1 || rides_on(train_, member) != kFrame;
    }

    static void add_once(std::vector<Finding>& list, const Finding& finding) {
        const bool known = std::ranges::any_of(list, [&](const Finding& other) {
            return other.rule == finding.rule && other.figure == finding.figure && other.limit == finding.limit;
        });
        if (!known) list.push_back(finding);
    }

    const Train& train_;
    Names<GearIndex> gears_;
    Names<MemberIndex> members_;
    FindingPlaces places_;
};

}  // namespace

FindingPlaces finding_places(const Train& train, const std::vector<Finding>& findings) {
    if (std::ranges::all_of(findings, [](const Finding& f) { return f.verdict == Verdict::holds; })) return {};
    Sorter sorter(train);
    for (const Finding& finding : findings)
        if (finding.verdict != Verdict::holds) sorter.add(finding);
    return sorter.take();
}

}  // namespace couplet
