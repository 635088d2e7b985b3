#include "sheet/matched_shifts.hpp"

#include <fmt/format.h>

#include "sheet/quantity.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::string mesh_text(const Train& train, MeshIndex mesh) {
    return name_of(train, train[mesh].first) + " with " + name_of(train, train[mesh].second);
}

std::string shift_text(const Train& train, const MatchedShift& matched) {
    return fmt::format(
        "{0}: type shift = {1:.6f}. {2} keeps its centre distance of {3:.4f} mm, and with this shift {4} runs at the "
        "same distance; the teeth that carry both meshes stay as they are.",
        name_of(train, matched.gear), matched.shift, mesh_text(train, matched.kept), matched.centre_distance_mm,
        mesh_text(train, matched.matched));
}

Json mesh_json(const Train& train, MeshIndex mesh) {
    return Json::array({full_name(train, train[mesh].first), full_name(train, train[mesh].second)});
}

}  // namespace

Json shifts_json(const Train& train, const std::vector<MatchedShift>& shifts) {
    Json list = Json::array();
    for (const MatchedShift& matched : shifts)
        list.push_back({{"gear", full_name(train, matched.gear)},
                        {"shift", measured_json(matched.shift)},
                        {"kept", mesh_json(train, matched.kept)},
                        {"matched", mesh_json(train, matched.matched)},
                        {"centre_distance_mm", measured_json(matched.centre_distance_mm)}});
    return list;
}

void add_shifts(Page& page, const Train& train, const std::vector<MatchedShift>& shifts) {
    page.blocks.emplace_back(Heading{"Shifts that make the centre distances agree"});
    Bullets bullets;
    for (const MatchedShift& matched : shifts) bullets.items.push_back(shift_text(train, matched));
    if (bullets.items.empty())
        page.blocks.emplace_back(Paragraph{"All centre distances agree as they are: no shift was changed."});
    else
        page.blocks.emplace_back(std::move(bullets));
}

}  // namespace couplet
