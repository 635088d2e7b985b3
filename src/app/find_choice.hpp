// Find choice: what the Find panel looks for, and how it shows what is found.
#pragma once

#include <optional>

#include "find/ranking.hpp"
#include "find/search_wish.hpp"

namespace couplet {

struct FindChoice {
    SearchWish wish = [] {
        SearchWish usual;
        usual.target = Ratio(4);
        return usual;
    }();
    RankKey sort = RankKey::error;
    bool limits_open = false;        // unfolded
    std::optional<SearchRow> shown;  // its train stands on the stage, while the cursor rests on its row
};

}  // namespace couplet
