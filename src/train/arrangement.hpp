// Arrangement: the usual ways to arrange a gear train, each made into a whole train from its tooth counts.
//
// Trains made here have members with the trade's names (sun, planet, ring, carrier, shaft 1, ...), one setting that
// moves, and teeth of module 2 unless said otherwise. Ring teeth are counted positive.
#pragma once

#include <string_view>
#include <vector>

#include "train/train.hpp"

namespace couplet {

// simple: sun, planets, ring and carrier. stepped: each planet has two gears on one body, one in mesh with the sun, the
// other with the ring. paired: two planets in mesh between sun and ring. two_rings: stepped planets with a sun, a held
// ring and a second ring as output (Wolfrom). in_series: two simple sets, the first one's carrier driving the second
// one's sun. pairs: a fixed-axis train of one to four pairs, each on the shaft of the one before. reverted: two pairs
// whose output shaft stands on the axis of the input. differential: a simple set with sun and ring driven.
enum class Arrangement { simple, stepped, paired, two_rings, in_series, pairs, reverted, differential };

struct ArrangementForm {
    Arrangement arrangement;
    std::string_view name;                 // "simple planetary set"
    std::string_view what_it_is;           // one sentence
    std::vector<std::string_view> counts;  // what each tooth count belongs to, in order: "sun", "planet", "ring"
    std::vector<int> usual;                // counts that close, assemble and need no shift
    bool has_copies;                       // whether planets come in copies; 3 is usual
};

// In the order above. `pairs` is listed with two pairs; train_of takes 2, 4, 6 or 8 counts for it.
[[nodiscard]] const std::vector<ArrangementForm>& arrangement_forms();

[[nodiscard]] const ArrangementForm& form_of(Arrangement arrangement);

// std::invalid_argument where the number of counts is not the form's.
[[nodiscard]] Train train_of(Arrangement arrangement, const std::vector<int>& counts, int copies = 3);

}  // namespace couplet
