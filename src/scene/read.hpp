// Read: the parts in which a scene is read, in this order, each adding to the train and to the names known.
#pragma once

#include <array>
#include <vector>

#include "scene/name_table.hpp"
#include "scene/table_reader.hpp"
#include "train/faults.hpp"

namespace couplet {

struct SceneReading : Reading {
    Train train;
    NameTable members;
    // What a mesh may call a gear: "planet/outer", and "planet" where that is its only one.
    NameTable gears;
    // Explicit joints.
    NameTable joints;
    // The tables that the train's entries were read from, by TrainList.
    std::array<std::vector<TableReader>, 6> entries;

    std::vector<TableReader>& entries_of(TrainList list) { return entries[static_cast<std::size_t>(list)]; }
    // The tables of a list of the file, kept as the entries of the list.
    const std::vector<TableReader>& open(const TableReader& root, std::string_view key, const TableForm& form,
                                         TrainList list);
};

// The train that the text, parsed as `table`, describes.
[[nodiscard]] Train read_train(const toml::table& table, std::string_view text, const std::string& file_name);

void read_tooth_spec(const TableReader& table, ToothSpec& spec);
void read_members(SceneReading& scene, const TableReader& root);
void read_meshes(SceneReading& scene, const TableReader& root);
void read_settings(SceneReading& scene, const TableReader& root);
void read_joints(SceneReading& scene, const TableReader& root);
void read_couplings(SceneReading& scene, const TableReader& root);
void read_shots(SceneReading& scene, const TableReader& root);

// The member of that name, which was found under the key; where there is none, an error in the line.
[[nodiscard]] std::optional<MemberIndex> member_named(SceneReading& scene, const TableReader& table,
                                                      std::string_view key, std::string_view name, int line);
// The member that the key's text names; nothing where the key is absent or wrong.
[[nodiscard]] std::optional<MemberIndex> member_under(SceneReading& scene, const TableReader& table,
                                                      std::string_view key);
// The same for a node that stands under the key.
[[nodiscard]] std::optional<MemberIndex> member_at(SceneReading& scene, const TableReader& table, std::string_view key,
                                                   const toml::node& node);

// The text under "name", added to the names, which must be new among them and made of visible characters. Empty where
// there is no such key. `whose` is "member".
[[nodiscard]] std::string read_name(NameTable& names, const TableReader& table, std::string_view whose,
                                    std::size_t position);

}  // namespace couplet
