#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <memory>
#include <thread>

#include "cli/interrupt.hpp"
#include "cli/options.hpp"
#include "cli/output.hpp"
#include "cli/progress_bar.hpp"
#include "cli/verb.hpp"
#include "cli/wish_input.hpp"
#include "scene/error.hpp"
#include "scene/scene.hpp"
#include "sheet/search_json.hpp"
#include "sheet/search_scatter.hpp"
#include "sheet/search_sheet.hpp"
#include "sheet/search_words.hpp"

namespace couplet {

namespace {

struct FindArguments {
    SheetOptions sheet;
    WishOptions wish;
    std::string sort = "error";
    std::string top = "20";
    std::optional<std::string> rpm;
    std::optional<std::string> threads;
    std::optional<std::string> slice;
    std::vector<std::string> join;
    std::optional<std::string> save;
    std::optional<std::string> scatter;
};

constexpr std::size_t kMostShown = kMostSearchRows;

RankKey sort_of(const std::string& word) {
    std::vector<std::string> words;
    for (std::size_t key = 0; key < kRankKeys; ++key) {
        words.emplace_back(name_of(static_cast<RankKey>(key)));
        if (words.back() == word) return static_cast<RankKey>(key);
    }
    refuse_word("--sort", word, words);
}

unsigned threads_of(const FindArguments& arguments) {
    constexpr std::size_t kMostThreads = 1024;
    if (arguments.threads) return static_cast<unsigned>(count_within("--threads", *arguments.threads, kMostThreads));
    return std::clamp(std::thread::hardware_concurrency(), 1U, static_cast<unsigned>(kMostThreads));
}

// What can be refused of a search is told in the words of its options.
template <class Work>
auto of_search(Work work) {
    try {
        return work();
    } catch (const std::invalid_argument& error) {
        throw UsageError(fmt::format("{}; --help tells what each option takes", error.what()));
    } catch (const std::length_error& error) {
        throw UsageError(error.what());
    }
}

class Listener {
  public:
    SearchPace operator()(const SearchProgress& progress) {
        bar_.show(static_cast<std::int64_t>(progress.done), static_cast<std::int64_t>(progress.all),
                  fmt::format("step {} of {}", progress.done, progress.all));
        return is_work_stopped() ? SearchPace::stop : SearchPace::go_on;
    }

  private:
    ProgressBar bar_{true};
};

void look(SearchReport& report, unsigned threads) {
    Listener listener;
    report.result = of_search([&] { return search(report.wish, report.slice, std::ref(listener), threads); });
}

// What would help where nothing was found. Stopped meanwhile, it may be less than all: the report is partial then.
void look_for_loosenings(SearchReport& report) {
    if (!report.result.rows.empty() || report.result.extent == SearchExtent::partial || report.slice.count > 1) return;
    Listener listener;
    report.loosenings = of_search([&] { return loosenings(report.wish, std::ref(listener)); });
    if (is_work_stopped()) report.result.extent = SearchExtent::partial;
}

// Every slice of one wish, each once.
void expect_all_slices(const std::vector<SearchReport>& slices, const std::vector<std::string>& files) {
    const SearchReport& first = slices.front();
    std::vector<bool> seen(first.slice.count, false);
    for (std::size_t part = 0; part < slices.size(); ++part) {
        const SearchReport& slice = slices[part];
        if (!(slice.wish == first.wish) || slice.slice.count != first.slice.count)
            throw UsageError(fmt::format("{} is of another search than {}; join slices of one", shown(files[part]),
                                         shown(files.front())));
        if (seen[slice.slice.index])
            throw UsageError(fmt::format("{} is slice {} of {} once more; give each once", shown(files[part]),
                                         slice.slice.index + 1, slice.slice.count));
        seen[slice.slice.index] = true;
    }
    const auto missing = std::ranges::find(seen, false);
    if (missing != seen.end())
        throw UsageError(fmt::format("slice {} of {} is missing; run it with --slice {}/{}", missing - seen.begin() + 1,
                                     seen.size(), missing - seen.begin() + 1, seen.size()));
}

SearchReport joined(const FindArguments& arguments) {
    if (!(arguments.wish == WishOptions{}) || arguments.slice)
        throw UsageError(
            "--join takes what to look for from its files; leave --slice and all options that say what to look for "
            "away");
    std::vector<SearchReport> slices;
    for (const std::string& file : arguments.join) {
        const std::string text = load_scene_text(file);
        try {
            slices.push_back(search_of_json(text));
        } catch (const std::invalid_argument& error) {
            throw UsageError(fmt::format("{}: {}", shown(file), error.what()));
        }
    }
    expect_all_slices(slices, arguments.join);
    std::vector<SearchResult> results;
    for (SearchReport& slice : slices) results.push_back(std::move(slice.result));
    SearchReport report;
    report.wish = slices.front().wish;
    report.result = of_search([&] { return join(report.wish, results); });
    return report;
}

SearchReport searched(const FindArguments& arguments, Format format, unsigned threads) {
    SearchReport report;
    report.wish = wish_of(arguments.wish);
    of_search([&] { require_meant(report.wish); });
    if (arguments.slice) {
        report.slice = slice_of(*arguments.slice);
        if (format != Format::json) throw UsageError("--slice needs --format json, which --join reads");
        if (arguments.save || arguments.scatter)
            throw UsageError("--save and --scatter show a whole search; use them with --join");
    }
    look(report, threads);
    return report;
}

// "simple_21_24_69_x3.toml"
std::string scene_name(const SearchWish& wish, const SearchRow& row) {
    std::string name = fmt::format("{}_{}", short_name(wish.arrangement), fmt::join(row.teeth, "_"));
    if (form_of(wish.arrangement).has_copies) name += fmt::format("_x{}", row.copies);
    return name + ".toml";
}

// All or none: a file that is there already is told before any is written.
void save(const SearchReport& report, const std::string& folder) {
    std::error_code error;
    std::vector<std::pair<std::filesystem::path, std::string>> files;
    for (const std::size_t position : shown_rows(report)) {
        const SearchRow& row = report.result.rows[position];
        files.emplace_back(std::filesystem::path(folder) / scene_name(report.wish, row),
                           write_scene(found_train(report.wish, row)));
        if (std::filesystem::exists(files.back().first, error))
            throw UsageError(fmt::format("{} is there already; save into another folder, or remove it",
                                         shown(files.back().first.string())));
    }
    std::filesystem::create_directories(folder, error);
    if (error)
        throw UsageError(fmt::format("--save {}: no such folder can be made; {}", shown(folder), error.message()));
    for (const auto& [path, text] : files) save_scene_text(path, text);
}

int run_find(const FindArguments& arguments) {
    const Format format = format_of(arguments.sheet);
    const RankKey sort = sort_of(arguments.sort);
    const std::size_t top = count_within("--top", arguments.top, kMostShown);
    if (arguments.sheet.output && arguments.sheet.output == arguments.scatter)
        throw UsageError("-o and --scatter name the same file; give each a file of its own");
    std::optional<Ratio> rpm;
    if (arguments.rpm) rpm = number_of("--rpm", *arguments.rpm, "30");
    const unsigned threads = threads_of(arguments);
    listen_for_interrupt();
    SearchReport report = arguments.join.empty() ? searched(arguments, format, threads) : joined(arguments);
    look_for_loosenings(report);
    report.sort = sort;
    report.rpm = rpm;
    // A slice is written whole, to be joined.
    report.top = report.slice.count > 1 ? kMostShown : top;
    if (arguments.save) save(report, *arguments.save);
    if (arguments.scatter) deliver_file(search_scatter(report), *arguments.scatter, "");
    deliver(search_sheet(report, format), arguments.sheet);
    if (report.result.extent == SearchExtent::partial)
        fmt::print(stderr, "couplet: the search was stopped before its end; what is shown is partial\n");
    return report.result.rows.empty() && report.slice.count == 1 ? kDesignFails : kDone;
}

}  // namespace

Verb add_find_verb(CLI::App& program) {
    CLI::App* verb = program.add_subcommand("find", "tooth counts that give a ratio and keep every rule");
    auto arguments = std::make_shared<FindArguments>();
    add_wish_options(*verb, arguments->wish);
    verb->add_option("--sort", arguments->sort,
                     "what rows are ranked by: error (default), size, contact, hunting, balance or teeth")
        ->type_name("KEY");
    verb->add_option("--top", arguments->top, "rows to show, default 20")->type_name("N");
    verb->add_option("--rpm", arguments->rpm, "speed of the driver: also show each row's drift in a year")
        ->type_name("RPM");
    verb->add_option("--save", arguments->save, "also write each row that is shown as a scene into this folder")
        ->type_name("DIR");
    verb->add_option("--scatter", arguments->scatter, "also draw error against size of all rows, as SVG, to FILE")
        ->type_name("FILE");
    verb->add_option("--threads", arguments->threads, "default: one for each core")->type_name("N");
    verb->add_option("--slice", arguments->slice, "only the I-th of N parts of the search, as JSON for --join")
        ->type_name("I/N");
    verb->add_option("--join", arguments->join, "the slices of a search, as one")->type_name("FILES");
    verb->add_option("--format", arguments->sheet.format, "text (default), json, csv or md")->type_name("FORMAT");
    verb->add_option("-o,--output", arguments->sheet.output, "write to FILE instead of the terminal")
        ->type_name("FILE");
    return {verb, [arguments] { return run_find(*arguments); }};
}

}  // namespace couplet
