// Choices: every way to choose some positions out of a list, in lexicographic order.
#pragma once

#include <cstddef>
#include <vector>

namespace couplet {

// Calls visit(chosen positions, rising) for every choice of `size` out of `count`. Stops and returns false where visit
// returns false.
template <class Visit>
bool each_choice(std::size_t count, std::size_t size, Visit visit) {
    if (size > count) return true;
    std::vector<std::size_t> choice(size);
    for (std::size_t i = 0; i < size; ++i) choice[i] = i;
    while (true) {
        if (!visit(choice)) return false;
        std::size_t moved = size;
        while (moved > 0 && choice[moved - 1] == count - size + moved - 1) --moved;
        if (moved == 0) return true;
        ++choice[moved - 1];
        for (std::size_t i = moved; i < size; ++i) choice[i] = choice[i - 1] + 1;
    }
}

}  // namespace couplet
