// Fuzz target: any bytes read as a sound train, which survives writing and rewriting, or are refused by a SceneError.
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "scene/scene.hpp"
#include "train/faults.hpp"

namespace {

using namespace couplet;

void require(bool holds) {
    if (!holds) std::abort();
}

// A small change of each kind: a value, an entry that goes, one that comes.
Train changed(Train train) {
    train.title += "x";
    if (!train.gears.empty()) train.gears.back().teeth = 1000;
    if (!train.couplings.empty()) train.couplings.erase(train.couplings.begin());
    if (!train.shots.empty()) train.shots.erase(train.shots.begin());
    if (!train.settings.empty()) train.settings.back().hold.clear();
    Member member;
    member.name = "a new one";
    while (find_member(train, member.name)) member.name += "!";
    train.members.push_back(member);
    return train;
}

void try_all(std::string_view text) {
    const Train train = read_scene(text, "fuzz.toml");
    require(faults(train).empty());
    require(read_scene(write_scene(train), "written.toml") == train);
    require(rewrite_scene(text, train) == text);
    const Train other = changed(train);
    require(read_scene(rewrite_scene(text, other), "rewritten.toml") == other);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    try {
        try_all(text);
    } catch (const SceneError& error) {
        require(error.line >= 1);
    }
    return 0;
}
