#include "export/gltf.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "export/gltf_buffer.hpp"
#include "export/loop_animation.hpp"
#include "sheet/place_words.hpp"
#include "sheet/words.hpp"
#include "solid/detail.hpp"

namespace couplet {

namespace {

// Base colours (linear) and roughness: reflectances of metals head-on, from memory of tables, a little dulled by use.
struct Metal {
    const char* name;
    std::array<double, 3> colour;
    double metallic;
    double roughness;
};

Metal metal_of(PartRole role) {
    switch (role) {
        case PartRole::sun_or_wheel:
            return {"brass", {0.86, 0.64, 0.28}, 1.0, 0.30};
        case PartRole::planet:
            return {"bronze", {0.74, 0.44, 0.25}, 1.0, 0.32};
        case PartRole::ring:
            return {"steel", {0.57, 0.57, 0.56}, 1.0, 0.30};
        case PartRole::carrier:
            return {"dull steel", {0.50, 0.51, 0.52}, 1.0, 0.45};
        case PartRole::shaft:
            return {"ground steel", {0.63, 0.63, 0.62}, 1.0, 0.20};
        case PartRole::fastener:
            return {"blackened steel", {0.12, 0.12, 0.13}, 1.0, 0.40};
        case PartRole::stand:
            return {"painted iron", {0.045, 0.048, 0.052}, 0.0, 0.55};
    }
    return {};
}

constexpr Metal kEnamel{"enamel of the tooth marks", {0.012, 0.10, 0.30}, 0.0, 0.25};

Json material_of(const Metal& metal) {
    return {{"name", metal.name},
            {"pbrMetallicRoughness",
             {{"baseColorFactor", {metal.colour[0], metal.colour[1], metal.colour[2], 1.0}},
              {"metallicFactor", metal.metallic},
              {"roughnessFactor", metal.roughness}}}};
}

double metres(double mm) {
    return mm / 1000.0;
}

// About +Z.
Json rotation_of(double half_rad) {
    return Json::array({0.0, 0.0, std::sin(half_rad), std::cos(half_rad)});
}

class GlbWriter {
  public:
    GlbWriter(const ExportModel& model, const GltfOptions& options)
        : model_(model), options_(options), animation_(loop_animation_of(model, options.loop)) {
        detail_ = animation_ && animation_->end == LoopEnd::looks_alike ? Detail::plain : Detail::marked;
    }

    std::string bytes() {
        add_places();
        add_parts();
        add_animation();
        return buffer_.packed_with(document());
    }

  private:
    int material(const Metal& metal) {
        const auto [known, is_new] = materials_of_.emplace(metal.name, static_cast<int>(materials_.size()));
        if (is_new) materials_.push_back(material_of(metal));
        return known->second;
    }

    // Metal, and the enamel of tooth marks where there is some, over the same vertices; nothing where there is no
    // metal.
    std::optional<int> add_mesh(const Shape& shape, PartRole role) {
        const Solid solid = solid_of(with_detail(shape, detail_), options_.tolerance_mm);
        if (solid.triangles.empty()) return std::nullopt;
        std::vector<float> positions;
        std::vector<float> normals;
        for (const SolidVertex& vertex : solid.vertices)
            for (std::size_t c = 0; c < 3; ++c) {
                positions.push_back(static_cast<float>(metres(static_cast<double>(vertex.position_mm[c]))));
                normals.push_back(vertex.normal[c]);
            }
        const int position = buffer_.add_floats(positions, 3, GltfBuffer::Use::vertices, GltfBuffer::Told::extent_too);
        const int normal = buffer_.add_floats(normals, 3, GltfBuffer::Use::vertices);
        std::array<std::vector<std::uint32_t>, 2> indices;
        for (const auto& triangle : solid.triangles) {
            const bool enamel = solid.vertices[triangle[0]].surface == Surface::mark;
            indices[enamel ? 1 : 0].insert(indices[enamel ? 1 : 0].end(), triangle.begin(), triangle.end());
        }
        Json primitives = Json::array();
        for (std::size_t i = 0; i < 2; ++i)
            if (!indices[i].empty())
                primitives.push_back({{"attributes", {{"POSITION", position}, {"NORMAL", normal}}},
                                      {"indices", buffer_.add_indices(indices[i], solid.vertices.size())},
                                      {"material", material(i == 0 ? metal_of(role) : kEnamel)}});
        meshes_.push_back({{"primitives", std::move(primitives)}});
        return static_cast<int>(meshes_.size()) - 1;
    }

    std::optional<int> mesh_of(const Part& part) {
        const auto [known, is_new] = mesh_of_.emplace(std::pair{part.shape, part.role}, std::nullopt);
        if (is_new) known->second = add_mesh(model_.machine.shapes[part.shape], part.role);
        return known->second;
    }

    void add_child(PlaceIndex under, std::size_t child) {
        nodes_[behind_the_frame(under)]["children"].push_back(child);
    }

    // What every copy of a member has in common.
    std::vector<Json> member_extras() const {
        const Train& train = model_.train;
        std::vector<Combination> rates;
        if (model_.moves()) rates = rates_on_frame(train, model_.motion);
        std::vector<Json> extras;
        for (std::int32_t m = 0; m < static_cast<std::int32_t>(train.members.size()); ++m) {
            const MemberIndex member{m};
            Json entry = {{"member", name_of(train, member)},
                          {"rides_on", name_of(train, rides_on(train, member))},
                          {"joint", default_joint_name(train, member, rides_on(train, member))}};
            if (model_.moves()) {
                entry["turns"] = exact_json(turns_per_driver_turn(model_.motion, rates[member.position()]));
                entry["per_driver_turn"] =
                    exact_json(turns_per_driver_turn(model_.motion, model_.motion.joint_rate(member)));
            }
            extras.push_back(std::move(entry));
        }
        return extras;
    }

    void add_places() {
        // A quarter turn about -X: what was +Z is +Y.
        nodes_.push_back({{"name", "frame"}, {"rotation", {-std::sqrt(0.5), 0.0, 0.0, std::sqrt(0.5)}}});
        const std::vector<Json> extras = member_extras();
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(model_.placement.places.size()); ++p) {
            const Place& place = model_.placement[PlaceIndex{p}];
            const PlanePoint& at = place.centre_on_carrier_mm;
            Json node = {{"name", place_name(model_.train, model_.placement, {p})},
                         {"translation", {metres(at.x_mm), metres(at.y_mm), 0.0}},
                         {"extras", extras[place.member.position()]}};
            node["extras"]["copy"] = place.copy;
            nodes_.push_back(std::move(node));
        }
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(model_.placement.places.size()); ++p)
            add_child(model_.placement[PlaceIndex{p}].under, behind_the_frame({p}));
    }

    void add_parts() {
        for (const Part& part : model_.machine.parts) {
            if (detail_ == Detail::plain && part.singles_out) continue;
            const std::optional<int> mesh = mesh_of(part);
            if (!mesh) continue;
            Json node = {
                {"mesh", *mesh},
                {"translation", {metres(part.offset_mm.x_mm), metres(part.offset_mm.y_mm), metres(part.z_mm)}}};
            if (part.gear != GearIndex{}) node["name"] = full_name(model_.train, part.gear);
            if (part.turned_rad != 0.0) node["rotation"] = rotation_of(part.turned_rad / 2.0);
            nodes_.push_back(std::move(node));
            add_child(part.place, nodes_.size() - 1);
        }
    }

    // The sampler of a member's joint, which all of its copies share.
    int add_sampler(MemberIndex member) {
        std::vector<float> times;
        std::vector<float> rotations;
        for (const JointKey& key : keys_of(model_, *animation_, member)) {
            const double half_rad = std::numbers::pi * key.phase_turns.to_double();
            times.push_back(key.seconds);
            for (const double q : {0.0, 0.0, std::sin(half_rad), std::cos(half_rad)})
                rotations.push_back(static_cast<float>(q));
        }
        const auto [known, is_new] = times_of_.emplace(static_cast<int>(times.size()), -1);
        if (is_new)
            known->second = buffer_.add_floats(times, 1, GltfBuffer::Use::animation, GltfBuffer::Told::extent_too);
        const int output = buffer_.add_floats(rotations, 4, GltfBuffer::Use::animation);
        samplers_.push_back({{"input", known->second}, {"interpolation", "LINEAR"}, {"output", output}});
        return static_cast<int>(samplers_.size()) - 1;
    }

    void add_animation() {
        if (!animation_) return;
        std::vector<int> sampler_of(model_.train.members.size(), -1);
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(model_.placement.places.size()); ++p) {
            const MemberIndex member = model_.placement[PlaceIndex{p}].member;
            if (animation_->steps[member.position()] == 0) continue;
            int& sampler = sampler_of[member.position()];
            if (sampler < 0) sampler = add_sampler(member);
            channels_.push_back(
                {{"sampler", sampler}, {"target", {{"node", behind_the_frame({p})}, {"path", "rotation"}}}});
        }
    }

    Json scene_extras() const {
        Json extras = {{"couplet", 1}};
        if (!model_.setting) return extras;
        extras["setting"] = model_.setting->name;
        extras["outcome"] = outcome_name(model_.motion.outcome);
        if (const std::optional<std::size_t> driver = reference_driver(model_.motion))
            extras["driver"] = name_of(model_.train, model_.motion.drivers[*driver].member);
        if (animation_) {
            static constexpr std::array kEnds = {"every tooth back", "looks alike", "open"};
            extras["loop"] = {{"driver_turns", exact_json(animation_->driver_turns)},
                              {"seconds", exact_json(animation_->seconds)},
                              {"end", kEnds[static_cast<std::size_t>(animation_->end)]}};
        }
        return extras;
    }

    Json document() const {
        Json gltf = {{"asset", {{"version", "2.0"}, {"generator", "Couplet"}}},
                     {"scene", 0},
                     {"scenes", {{{"name", model_.train.title}, {"nodes", {0}}, {"extras", scene_extras()}}}},
                     {"nodes", nodes_}};
        // An empty list is no list in glTF.
        const auto add = [&](const char* name, const Json& list) {
            if (!list.empty()) gltf[name] = list;
        };
        add("meshes", meshes_);
        add("materials", materials_);
        if (!channels_.empty())
            gltf["animations"] = {{{"name", model_.setting->name}, {"samplers", samplers_}, {"channels", channels_}}};
        return gltf;
    }

    const ExportModel& model_;
    GltfOptions options_;
    std::optional<LoopAnimation> animation_;
    Detail detail_ = Detail::marked;

    GltfBuffer buffer_;
    Json materials_ = Json::array();
    Json meshes_ = Json::array();
    Json nodes_ = Json::array();
    Json samplers_ = Json::array();
    Json channels_ = Json::array();
    std::map<std::string, int> materials_of_;
    std::map<std::pair<std::size_t, PartRole>, std::optional<int>> mesh_of_;
    std::map<int, int> times_of_;  // accessors of key times, by their number
};

}  // namespace

std::string glb_of(const ExportModel& model, const GltfOptions& options) {
    return GlbWriter(model, options).bytes();
}

}  // namespace couplet
