#include "cli/wish_input.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>

#include "cli/options.hpp"
#include "scene/error.hpp"
#include "sheet/search_json.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

constexpr std::size_t kMostNearest = 10000;

Arrangement arrangement_of(const std::string& word) {
    std::vector<std::string> words;
    for (const Arrangement arrangement : searchable_arrangements()) {
        if (short_name(arrangement) == word) return arrangement;
        words.emplace_back(short_name(arrangement));
    }
    refuse_word("--arrangement", word, words);
}

template <class Enum>
Enum choice_of_two(std::string_view option, const std::string& word, const std::string& first,
                   const std::string& second) {
    if (word == first) return static_cast<Enum>(0);
    if (word == second) return static_cast<Enum>(1);
    refuse_word(option, word, {first, second});
}

// "18..60" or "21".
struct WholeRange {
    int fewest;
    int most;
};

WholeRange range_of(std::string_view option, const std::string& text, std::string_view example, std::size_t most) {
    const std::size_t dots = text.find("..");
    const auto number = [&](const std::string& part) {
        const Ratio value = number_of(option, part, example);
        if (!value.is_whole() || value < Ratio(1) || value > Ratio(static_cast<std::int64_t>(most)))
            throw UsageError(fmt::format("{} {} is no count; it goes from 1 to {}, like {}", option, in_quotes(part),
                                         most, example));
        return static_cast<int>(value.small_numerator());
    };
    if (dots == std::string::npos) return {number(text), number(text)};
    const WholeRange range{number(text.substr(0, dots)), number(text.substr(dots + 2))};
    if (range.fewest > range.most)
        throw UsageError(fmt::format("{} {} begins above its end; write it like {}", option, in_quotes(text), example));
    return range;
}

// A name means itself, or else all counts that have it in theirs: "planet" both gears of a stepped planet, "driving"
// one gear of every pair.
std::vector<std::string> counts_named(const SearchWish& wish, const std::string& name) {
    const std::vector<std::string> names = count_names(wish);
    if (std::ranges::find(names, name) != names.end()) return {name};
    std::vector<std::string> named;
    std::ranges::copy_if(names, std::back_inserter(named),
                         [&](const std::string& one) { return !name.empty() && one.find(name) != std::string::npos; });
    if (named.empty())
        throw UsageError(fmt::format("--teeth: this arrangement has no {}; {}", in_quotes(name),
                                     name_suggestion(name, names, "its counts are", "")));
    return named;
}

// "sun=18..60"; "18..60" alone is of every gear but rings, which follow.
void set_teeth(SearchWish& wish, const std::string& text) {
    const std::size_t equals = text.rfind('=');
    const WholeRange range = range_of("--teeth", equals == std::string::npos ? text : text.substr(equals + 1),
                                      "sun=18..60", kMostSearchedTeeth);
    if (range.fewest < kFewestTeeth)
        throw UsageError(
            fmt::format("--teeth {} begins too low; a gear has {} teeth or more", in_quotes(text), kFewestTeeth));
    if (equals != std::string::npos) {
        for (const std::string& name : counts_named(wish, text.substr(0, equals)))
            wish.teeth[name] = {range.fewest, range.most};
        return;
    }
    const std::vector<std::string> names = count_names(wish);
    const std::vector<std::size_t> rings = count_places(wish).rings;
    for (std::size_t count = 0; count < names.size(); ++count)
        if (std::ranges::find(rings, count) == rings.end()) wish.teeth[names[count]] = {range.fewest, range.most};
}

// Held member, driver and output: what is not said is as usual, or whatever is left.
void set_choice(SearchWish& wish, const WishOptions& options) {
    if (!options.hold && !options.drive && !options.out) return;
    const std::vector<std::string> members = central_members(wish.arrangement);
    const CentralChoice usual = choice_of(wish);
    std::vector<std::string> taken;
    const auto take = [&](std::string_view option, const std::optional<std::string>& name,
                          const std::string& is_usual) {
        if (!name) return;
        if (members.empty() ? *name != is_usual : std::ranges::find(members, *name) == members.end())
            throw UsageError(
                fmt::format("{} {} is no choice of this arrangement; {}", option, in_quotes(*name),
                            name_suggestion(*name, members.empty() ? std::vector{is_usual} : members, "it has", "")));
        if (std::ranges::find(taken, *name) != taken.end())
            throw UsageError(fmt::format("{} {} has another part already; held member, driver and output are three",
                                         option, in_quotes(*name)));
        taken.push_back(*name);
    };
    take("--hold", options.hold, usual.held);
    take("--drive", options.drive, usual.driver);
    take("--out", options.out, usual.output);
    const auto is_free = [&](const std::string& name) { return std::ranges::find(taken, name) == taken.end(); };
    CentralChoice choice{options.hold.value_or(""), options.drive.value_or(""), options.out.value_or("")};
    const auto keep_usual = [&](std::string& part, const std::string& is_usual) {
        if (part.empty() && is_free(is_usual)) taken.push_back(part = is_usual);
    };
    keep_usual(choice.held, usual.held);
    keep_usual(choice.driver, usual.driver);
    keep_usual(choice.output, usual.output);
    for (std::string* part : {&choice.driver, &choice.output, &choice.held})
        if (part->empty()) taken.push_back(*part = *std::ranges::find_if(members, is_free));
    wish.choice = choice;
}

// What would have no effect was meant for something else.
void refuse_idle_options(const WishOptions& options, Arrangement arrangement) {
    const std::string name = in_quotes(options.arrangement);
    if (options.pairs && arrangement != Arrangement::pairs)
        throw UsageError(fmt::format("--pairs is for --arrangement pairs, not for {}", name));
    if (options.nearest && options.tolerance)
        throw UsageError("--tolerance gives all trains within it, --nearest the nearest ones; leave one away");
    const bool has_copies = form_of(arrangement).has_copies;
    if (!has_copies && (options.copies || options.spacing))
        throw UsageError(fmt::format("{} is about planets, and {} has none; leave it away",
                                     options.copies ? "--copies" : "--spacing", name));
    if (!has_copies && options.ring_diameter)
        throw UsageError(
            fmt::format("--ring-diameter limits a ring, and {} has none; limit its gears with --teeth", name));
}

}  // namespace

std::size_t count_within(std::string_view option, const std::string& text, std::size_t most) {
    const Ratio value = number_of(option, text, "20");
    if (!value.is_whole() || value < Ratio(1) || value > Ratio(static_cast<std::int64_t>(most)))
        throw UsageError(fmt::format("{} {} is no count; it goes from 1 to {}", option, in_quotes(text), most));
    return static_cast<std::size_t>(value.small_numerator());
}

Slice slice_of(const std::string& text) {
    const std::size_t stroke = text.find('/');
    if (stroke == std::string::npos)
        throw UsageError(fmt::format("--slice {} is no slice; write the third of eight as 3/8", in_quotes(text)));
    const std::size_t count = count_within("--slice", text.substr(stroke + 1), kMostSlices);
    return {count_within("--slice", text.substr(0, stroke), count) - 1, count};
}

SearchWish wish_of(const WishOptions& options) {
    if (!options.ratio)
        throw UsageError("there is no ratio to look for; give one with --ratio, like --ratio 30/7 or --ratio=-4.3");
    SearchWish wish;
    wish.target = number_of("--ratio", *options.ratio, "6, 43/10 or 4.3");
    if (wish.target.is_zero()) throw UsageError("--ratio 0 is no ratio; the output would never turn");
    wish.arrangement = arrangement_of(options.arrangement);
    refuse_idle_options(options, wish.arrangement);
    if (options.pairs) wish.pairs = static_cast<int>(count_within("--pairs", *options.pairs, 4));
    if (options.tolerance) {
        wish.tolerance = number_of("--tolerance", *options.tolerance, "0 or 0.001");
        if (wish.tolerance->sign() < 0) throw UsageError("--tolerance is below 0; 0 asks for the exact ratio");
    }
    if (options.nearest) wish.most_nearest = count_within("--nearest", *options.nearest, kMostNearest);
    set_choice(wish, options);
    for (const std::string& text : options.teeth) set_teeth(wish, text);
    if (options.copies) {
        const WholeRange copies = range_of("--copies", *options.copies, "2..6", kMostSearchedCopies);
        wish.copies = {copies.fewest, copies.most};
    }
    if (options.ring_diameter) {
        const Ratio diameter = number_of("--ring-diameter", *options.ring_diameter, "180 (mm)");
        if (diameter.sign() <= 0) throw UsageError("--ring-diameter must be above 0; write it like 180 (mm)");
        wish.largest_ring_diameter_mm = diameter.to_double();
    }
    wish.module_mm = number_of("--module", options.module, "2.5 (mm)");
    if (wish.module_mm.sign() <= 0) throw UsageError("--module must be above 0; write it like 2.5 (mm)");
    wish.shift = choice_of_two<ShiftUse>("--shift", options.shift, "none", "allowed");
    wish.hunting = choice_of_two<HuntingUse>("--hunting", options.hunting, "any", "required");
    if (options.spacing) wish.spacing = choice_of_two<SpacingUse>("--spacing", *options.spacing, "equal", "free");
    wish.rows = choice_of_two<RowsUse>("--each", options.each, "train", "ratio");
    return wish;
}

void add_wish_options(CLI::App& verb, WishOptions& options) {
    verb.add_option("--ratio", options.ratio,
                    "driver turns per output turn: 6, 43/10 or 4.3; below 0 where the sense reverses")
        ->type_name("R");
    verb.add_option("--arrangement", options.arrangement,
                    "simple (default), stepped, paired, two-rings, in-series, pairs or reverted")
        ->type_name("WHICH");
    verb.add_option("--pairs", options.pairs, "with --arrangement pairs: 1 to 4, default 2")->type_name("N");
    verb.add_option("--hold", options.hold, "the member that is held; default: the ring")->type_name("NAME");
    verb.add_option("--drive", options.drive, "the member that is driven; default: the sun")->type_name("NAME");
    verb.add_option("--out", options.out, "the output member; default: the carrier")->type_name("NAME");
    verb.add_option("--tolerance", options.tolerance,
                    "largest error as a part of the ratio: 0 or 0.001; default: the nearest, exact ones first")
        ->type_name("PART");
    verb.add_option("--nearest", options.nearest, "without a tolerance: how many of the nearest are kept, default 100")
        ->type_name("N");
    verb.add_option("--teeth", options.teeth,
                    "a range of teeth, sun=18..60, or 12..150 for every gear but rings (repeatable); default 12..100")
        ->allow_extra_args(false)
        ->type_name("WHICH=A..B");
    verb.add_option("--copies", options.copies, "planets: 3 (default) or a range, 2..6")->type_name("N");
    verb.add_option("--spacing", options.spacing,
                    "equal (default) or free: copies that do not fit at equal angles stand at the nearest that suit")
        ->type_name("HOW");
    verb.add_option("--ring-diameter", options.ring_diameter, "largest pitch diameter of a ring, in mm")
        ->type_name("MM");
    verb.add_option("--module", options.module, "module in mm, default 2")->type_name("MM");
    verb.add_option("--shift", options.shift, "profile shift: none (default), or allowed where it mends something")
        ->type_name("USE");
    verb.add_option("--hunting", options.hunting,
                    "any (default), or required: each tooth meets all of the other gear in every mesh")
        ->type_name("USE");
    verb.add_option("--each", options.each, "a row for each train (default), or for each ratio its smallest train")
        ->type_name("train|ratio");
}

}  // namespace couplet
