#include "find/search_wish.hpp"

#include <algorithm>
#include <stdexcept>

#include "train/train.hpp"

namespace couplet {

namespace {

void require(bool meant, const std::string& wrong) {
    if (!meant) throw std::invalid_argument(wrong);
}

bool has(const std::vector<std::string>& names, const std::string& name) {
    return std::ranges::find(names, name) != names.end();
}

CentralChoice usual_choice(const SearchWish& wish) {
    switch (wish.arrangement) {
        case Arrangement::two_rings:
            return {"held ring", "sun", "output ring"};
        case Arrangement::in_series:
            return {"ring 1", "sun 1", "carrier 2"};
        case Arrangement::pairs:
            return {"frame", "shaft 1", "shaft " + std::to_string(wish.pairs + 1)};
        case Arrangement::reverted:
            return {"frame", "input shaft", "output shaft"};
        default:
            return {"ring", "sun", "carrier"};
    }
}

void require_choice(const SearchWish& wish) {
    if (!wish.choice) return;
    const CentralChoice& choice = *wish.choice;
    const std::vector<std::string> members = central_members(wish.arrangement);
    require(!members.empty() || choice == usual_choice(wish), "this arrangement leaves no choice of held members");
    if (members.empty()) return;
    for (const std::string& name : {choice.held, choice.driver, choice.output})
        require(has(members, name), "this arrangement has no member '" + name + "' to hold, drive or take off");
    require(choice.held != choice.driver && choice.driver != choice.output && choice.output != choice.held,
            "held member, driver and output must be three");
}

}  // namespace

const std::vector<Arrangement>& searchable_arrangements() {
    static const std::vector<Arrangement> arrangements = {
        Arrangement::simple,    Arrangement::stepped, Arrangement::paired,  Arrangement::two_rings,
        Arrangement::in_series, Arrangement::pairs,   Arrangement::reverted};
    return arrangements;
}

std::vector<std::string> count_names(const SearchWish& wish) {
    std::vector<std::string> names;
    if (wish.arrangement == Arrangement::pairs) {
        for (int pair = 1; pair <= wish.pairs; ++pair)
            for (const char* role : {", driving", ", driven"}) names.push_back("pair " + std::to_string(pair) + role);
        return names;
    }
    const ArrangementForm& form = form_of(wish.arrangement);
    names.assign(form.counts.begin(), form.counts.end());
    return names;
}

std::vector<std::string> central_members(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::simple:
        case Arrangement::stepped:
        case Arrangement::paired:
            return {"sun", "carrier", "ring"};
        case Arrangement::two_rings:
            return {"sun", "carrier", "held ring", "output ring"};
        default:
            return {};
    }
}

CentralChoice choice_of(const SearchWish& wish) {
    return wish.choice ? *wish.choice : usual_choice(wish);
}

CountPlaces count_places(const SearchWish& wish) {
    switch (wish.arrangement) {
        case Arrangement::stepped:
            return {{3}, {{0, 1}, {2, 3}}};
        case Arrangement::paired:
            return {{3}, {{0, 1}, {1, 2}, {2, 3}}};
        case Arrangement::two_rings:
            return {{2, 4}, {{0, 1}, {1, 2}, {3, 4}}};
        case Arrangement::in_series:
            return {{2, 5}, {{0, 1}, {1, 2}, {3, 4}, {4, 5}}};
        case Arrangement::pairs:
        case Arrangement::reverted: {
            CountPlaces places;
            for (std::size_t gear = 0; gear < count_names(wish).size(); gear += 2)
                places.meshes.emplace_back(gear, gear + 1);
            return places;
        }
        default:
            return {{2}, {{0, 1}, {1, 2}}};
    }
}

std::vector<ToothRange> ranges_of(const SearchWish& wish) {
    const std::vector<std::string> names = count_names(wish);
    std::vector<ToothRange> ranges(names.size());
    for (const std::size_t ring : count_places(wish).rings) ranges[ring] = {kFewestTeeth, kMostTeeth};
    for (std::size_t count = 0; count < names.size(); ++count) {
        const auto given = wish.teeth.find(names[count]);
        if (given != wish.teeth.end()) ranges[count] = given->second;
    }
    return ranges;
}

void require_meant(const SearchWish& wish) {
    require(std::ranges::find(searchable_arrangements(), wish.arrangement) != searchable_arrangements().end(),
            "this arrangement has no single ratio to look for");
    require(wish.arrangement != Arrangement::pairs || (wish.pairs >= 1 && wish.pairs <= 4),
            "a train on fixed axes has 1 to 4 pairs");
    require(!wish.target.is_zero(), "no train has the ratio 0");
    require(!wish.tolerance || wish.tolerance->sign() >= 0, "a tolerance is 0 or more");
    require(wish.most_nearest >= 1, "at least one row must be wanted");
    require(wish.module_mm.sign() > 0, "a module is above 0");
    require(!wish.largest_ring_diameter_mm || *wish.largest_ring_diameter_mm > 0.0, "a diameter is above 0");
    require(
        wish.copies.fewest >= 1 && wish.copies.fewest <= wish.copies.most && wish.copies.most <= kMostSearchedCopies,
        "copies range from 1 to " + std::to_string(kMostSearchedCopies));
    const std::vector<std::string> names = count_names(wish);
    for (const auto& [name, range] : wish.teeth) {
        require(has(names, name), "this arrangement has no count '" + name + "'");
        require(range.fewest >= kFewestTeeth && range.fewest <= range.most && range.most <= kMostSearchedTeeth,
                "teeth of '" + name + "' range from " + std::to_string(kFewestTeeth) + " to " +
                    std::to_string(kMostSearchedTeeth));
    }
    require_choice(wish);
}

}  // namespace couplet
