// Walk: runs through the candidates of a wish's arrangement, one first count at a time, and hands them to a sieve.
//
// A part of search.hpp, which gives the method. One walk serves any number of sieves at once: what it has looked up
// beforehand (second sets of a series, gear sets of pairs) never changes.
#pragma once

#include <cstdint>
#include <vector>

#include "find/gear_sets.hpp"
#include "find/sieve.hpp"

namespace couplet {

class Walk {
  public:
    // The wish must outlive the walk. std::length_error where there are too many candidates to run through.
    explicit Walk(const SearchWish& wish);

    // The candidates that share a first count.
    void run(int first, Sieve& sieve) const;

  private:
    // Positions in central_members.
    struct Choice {
        std::size_t held = 0;
        std::size_t driver = 0;
        std::size_t output = 0;
    };
    // A simple set of the second place in a series.
    struct SecondSet {
        double ratio;
        int sun;
        int planet;
        int ring;
    };

    using Ranges = std::vector<ToothRange>;
    // How many share a first count, whatever their ratio.
    [[nodiscard]] double candidates_of(int first, const Ranges& ranges) const;
    [[nodiscard]] ClosedRatio ratio_of(const CentralRates& rates) const;
    template <class Visit>
    void each(std::size_t count, const Visit& visit) const;
    template <class Visit>
    void each_ring(int teeth, const Visit& visit) const;

    void run_simple(int sun, Sieve& sieve) const;
    void run_stepped(int sun, Sieve& sieve) const;
    void run_two_rings(int sun, Sieve& sieve) const;
    [[nodiscard]] ToothRange paired_rings() const;
    void run_paired(int sun, Sieve& sieve) const;
    void list_second_sets();
    void run_in_series(int sun, Sieve& sieve) const;
    void run_second_sets(int sun, int planet, int ring, Sieve& sieve) const;
    void list_driven_sets();
    void run_pairs(int first, Sieve& sieve) const;
    void run_driving(GearSet& driving, std::size_t gear, Sieve& sieve, std::int64_t& looked_at) const;
    [[nodiscard]] std::int64_t run_driven(const GearSet& driving, Sieve& sieve) const;
    [[nodiscard]] double trains_of_pairs(int first, const Ranges& ranges) const;
    void walk(int first, Sieve& sieve) const;
    void run_reverted(int driving, Sieve& sieve) const;

    const SearchWish& wish_;
    const Ranges asked_;
    const Ranges ranges_;  // without counts that are undercut in any case
    const int mended_;
    Choice choice_;
    std::vector<SecondSet> second_sets_;  // by ratio
    std::size_t pairs_ = 0;
    GearOrder order_ = GearOrder::as_given;  // of pairs
    std::vector<GearSet> driven_sets_;       // by product
};

}  // namespace couplet
