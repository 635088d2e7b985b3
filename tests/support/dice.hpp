// Dice: chance that comes out the same on every machine for the same seed.
//
// std::mt19937_64 is fixed by the C++ standard; its distributions are not, so these are our own.
#pragma once

#include <cstdint>
#include <random>
#include <utility>
#include <vector>

#include "exact/ratio.hpp"

namespace couplet {

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}

    // A whole number in [least, most].
    int between(int least, int most) {
        const auto choices = static_cast<std::uint64_t>(most - least) + 1;
        return least + static_cast<int>(engine_() % choices);
    }

    bool chance(int percent) { return between(1, 100) <= percent; }

    // A position in a list that is not empty.
    std::size_t position_in(std::size_t size) { return static_cast<std::size_t>(engine_() % size); }

    template <class Entry>
    const Entry& pick(const std::vector<Entry>& entries) {
        return entries[position_in(entries.size())];
    }

    template <class Entry>
    void shuffle(std::vector<Entry>& entries) {
        for (std::size_t k = entries.size(); k > 1; --k) std::swap(entries[k - 1], entries[position_in(k)]);
    }

    // A speed in rpm, now and then 0.
    Ratio speed() { return chance(10) ? Ratio(0) : Ratio(between(-3000, 3000), between(1, 12)); }

  private:
    std::mt19937_64 engine_;
};

}  // namespace couplet
