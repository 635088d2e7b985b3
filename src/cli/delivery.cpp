#include "cli/delivery.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>

#include "cli/interrupt.hpp"
#include "cli/options.hpp"
#include "record/recorder.hpp"
#include "record/unfinished.hpp"
#include "scene/error.hpp"

namespace couplet {

namespace {

namespace fs = std::filesystem;

// Without the slash that a folder's name may end with.
fs::path named(const fs::path& target) {
    return target.filename().empty() ? target.parent_path() : target;
}

bool is_foreign(const fs::directory_entry& entry, const Delivery& delivery) {
    return !entry.is_regular_file() || std::ranges::none_of(delivery.files, [&](const DeliveredFile& file) {
        return fs::path(file.name).extension() == entry.path().extension();
    });
}

void expect_room(const Delivery& delivery, ExistingFiles existing) {
    const fs::path target = named(delivery.target);
    const fs::file_status status = fs::status(target);
    if (!fs::exists(status)) return;
    const std::string name = in_quotes(target.string());
    if (existing == ExistingFiles::keep)
        throw UsageError(fmt::format("{} is there already; --force replaces it", name));
    if (fs::is_directory(status) != delivery.is_folder)
        throw UsageError(fmt::format("{} is {}; give another name", name,
                                     delivery.is_folder ? "a file, and the export a folder" : "a folder"));
    if (!delivery.is_folder) return;
    for (const fs::directory_entry& entry : fs::directory_iterator(target))
        if (is_foreign(entry, delivery))
            throw UsageError(fmt::format("the folder {} holds {}, which no export of this kind made; give another name",
                                         name, in_quotes(entry.path().filename().string())));
}

void go_on() {
    if (is_work_stopped()) throw Stopped();
}

void write_file(const fs::path& path, const fs::path& target, const DeliveredFile& delivered) {
    go_on();
    std::ofstream file(path, std::ios::binary);
    const auto expect_written = [&] {
        if (!file)
            throw std::runtime_error(fmt::format("{} cannot be written: {}", target.string(), std::strerror(errno)));
    };
    errno = 0;
    delivered.write([&](std::string_view bytes) {
        go_on();
        errno = 0;
        file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
        expect_written();
    });
    file.close();
    expect_written();
    go_on();
}

void write(const Delivery& delivery, const fs::path& path) {
    if (!delivery.is_folder) {
        write_file(path, delivery.target, delivery.files.front());
        return;
    }
    std::error_code error;
    fs::create_directory(path, error);
    if (error)
        throw std::runtime_error(fmt::format("{} cannot be made: {}", delivery.target.string(), error.message()));
    for (const DeliveredFile& file : delivery.files) write_file(path / file.name, delivery.target / file.name, file);
}

// What has taken its place, until all have.
class Swaps {
  public:
    Swaps() = default;
    ~Swaps() {
        for (auto swap = swaps_.rbegin(); swap != swaps_.rend(); ++swap) undo(*swap);
    }
    Swaps(const Swaps&) = delete;
    Swaps& operator=(const Swaps&) = delete;

    void swap(const fs::path& target, Unfinished& made) {
        auto old = std::make_unique<Unfinished>(target);
        const bool was_there = fs::exists(target);
        if (was_there) fs::rename(target, old->path());
        swaps_.push_back({target, std::move(old), was_there, false});
        made.take_place();
        swaps_.back().taken = true;
    }
    // What was there before goes.
    void keep() { swaps_.clear(); }

  private:
    struct Swap {
        fs::path target;
        std::unique_ptr<Unfinished> old;
        bool was_there;
        bool taken;
    };

    static void undo(const Swap& swap) {
        std::error_code ignored;
        if (swap.taken) fs::remove_all(swap.target, ignored);
        if (swap.was_there) fs::rename(swap.old->path(), swap.target, ignored);
    }

    std::vector<Swap> swaps_;
};

}  // namespace

DeliveredFile whole_file(std::string name, std::function<std::string()> bytes) {
    return {std::move(name), [bytes = std::move(bytes)](const TakeBytes& take) { take(bytes()); }};
}

void deliver_together(const std::vector<Delivery>& deliveries, ExistingFiles existing) {
    for (const Delivery& delivery : deliveries) expect_room(delivery, existing);
    std::vector<std::unique_ptr<Unfinished>> made;
    for (const Delivery& delivery : deliveries) {
        made.push_back(std::make_unique<Unfinished>(delivery.target));
        write(delivery, made.back()->path());
    }
    Swaps swaps;
    for (std::size_t i = 0; i + 1 < deliveries.size(); ++i) swaps.swap(named(deliveries[i].target), *made[i]);
    // The last one needs no way back: a file takes another's place at once or not at all.
    if (deliveries.back().is_folder)
        swaps.swap(named(deliveries.back().target), *made.back());
    else
        made.back()->take_place();
    swaps.keep();
}

}  // namespace couplet
