#include "export/urdf.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "export/plain_names.hpp"
#include "sheet/place_words.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

void refuse_unless_one_joint_leads(const ExportModel& model) {
    if (!model.setting)
        throw ExportRefused(
            "the scene has no setting, so that no joint follows another one; add a [[setting]] that drives a member");
    const std::string& name = model.setting->name;
    if (!model.moves())
        throw ExportRefused(
            fmt::format("the setting '{}' is {}, and joints that follow one another need one that "
                        "moves; choose another one with --setting",
                        name, outcome_name(model.motion.outcome)));
    if (model.motion.freedom > 1)
        throw ExportRefused(
            fmt::format("the setting '{}' has {} drivers, and a joint of a robot description can follow "
                        "only one; choose a setting with one driver, or hold another member",
                        name, model.motion.freedom));
}

Ratio joint_turns(const ExportModel& model, MemberIndex member) {
    return turns_per_driver_turn(model.motion, model.motion.joint_rate(member)).value();
}

// The driver where its joint turns, else the first member whose joint does; nothing where none does.
std::optional<MemberIndex> leader_of(const ExportModel& model) {
    const std::optional<std::size_t> driver = reference_driver(model.motion);
    if (driver && !joint_turns(model, model.motion.drivers[*driver].member).is_zero())
        return model.motion.drivers[*driver].member;
    for (std::int32_t m = 0; m < static_cast<std::int32_t>(model.train.members.size()); ++m)
        if (!joint_turns(model, {m}).is_zero()) return MemberIndex{m};
    return std::nullopt;
}

struct Paint {
    const char* name;
    const char* rgba;
};

Paint paint_of(PartRole role) {
    switch (role) {
        case PartRole::sun_or_wheel:
            return {"brass", "0.86 0.70 0.36 1"};
        case PartRole::planet:
            return {"bronze", "0.76 0.52 0.33 1"};
        case PartRole::stand:
            return {"iron", "0.23 0.24 0.25 1"};
        default:
            return {"steel", "0.66 0.66 0.66 1"};
    }
}

class UrdfWriter {
  public:
    UrdfWriter(const ExportModel& model, const std::vector<MemberBody>& bodies, const UrdfOptions& options)
        : model_(model),
          bodies_(bodies),
          options_(options),
          files_(mesh_file_names(bodies)),
          leader_(leader_of(model)) {
        std::vector<std::string> names = {"frame"};
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(model.placement.places.size()); ++p)
            names.push_back(place_name(model.train, model.placement, {p}));
        names_ = plain_names(names);
        body_at_.resize(names_.size());
        for (std::size_t b = 0; b < bodies.size(); ++b)
            for (std::size_t i = 0; i < bodies[b].places.size(); ++i)
                body_at_[behind_the_frame(bodies[b].places[i])] = {b, bodies[b].turned_rad[i]};
    }

    std::string text() {
        text_ = fmt::format(
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<!-- Every joint is at zero in the start pose, where all teeth meet their gaps. Ratios beside the joints "
            "are exact. -->\n"
            "<robot name=\"{}\">\n",
            plain_names({model_.train.title}).front());
        add_link({-1});
        for (std::int32_t p = 0; p < static_cast<std::int32_t>(model_.placement.places.size()); ++p) {
            add_link({p});
            add_joint({p});
        }
        return text_ + "</robot>\n";
    }

  private:
    struct BodyAt {
        std::optional<std::size_t> body;
        double turned_rad = 0.0;
    };

    const std::string& name(PlaceIndex place) const { return names_[behind_the_frame(place)]; }
    std::string joint_name(PlaceIndex place) const {
        return name(place) + "_on_" + name(model_.placement[place].under);
    }

    void add_link(PlaceIndex place) {
        const BodyAt& at = body_at_[behind_the_frame(place)];
        if (!at.body) {
            text_ += fmt::format("  <link name=\"{}\"/>\n", name(place));
            return;
        }
        const Paint paint = paint_of(model_.machine.parts[bodies_[*at.body].parts.front()].role);
        text_ += fmt::format(
            "  <link name=\"{}\">\n"
            "    <visual>\n"
            "      <origin xyz=\"0 0 0\" rpy=\"0 0 {}\"/>\n"
            "      <geometry><mesh filename=\"{}/{}\" scale=\"0.001 0.001 0.001\"/></geometry>\n"
            "      <material name=\"{}\"><color rgba=\"{}\"/></material>\n"
            "    </visual>\n"
            "  </link>\n",
            name(place), at.turned_rad, options_.mesh_folder, files_[*at.body], paint.name, paint.rgba);
    }

    void add_joint(PlaceIndex place) {
        const Place& p = model_.placement[place];
        const Ratio turns = joint_turns(model_, p.member);
        constexpr double kMetre_mm = 1000.0;
        text_ += fmt::format(
            "  <joint name=\"{}\" type=\"{}\">\n"
            "    <parent link=\"{}\"/>\n"
            "    <child link=\"{}\"/>\n"
            "    <origin xyz=\"{} {} 0\" rpy=\"0 0 0\"/>\n",
            joint_name(place), turns.is_zero() ? "fixed" : "continuous", name(p.under), name(place),
            p.centre_on_carrier_mm.x_mm / kMetre_mm, p.centre_on_carrier_mm.y_mm / kMetre_mm);
        if (!turns.is_zero()) {
            text_ += "    <axis xyz=\"0 0 1\"/>\n";
            if (place != leading_place()) add_mimic(place, turns / joint_turns(model_, *leader_));
        }
        text_ += "  </joint>\n";
    }

    PlaceIndex leading_place() const { return {model_.placement.first_place[leader_->position()]}; }

    void add_mimic(PlaceIndex place, const Ratio& per_leader) {
        const double multiplier = per_leader.to_double();
        if (!std::isnormal(multiplier))
            throw ExportRefused(
                fmt::format("{} turns too much or too little for a robot description's numbers per turn of {}; drive "
                            "another member",
                            joint_name(place), joint_name(leading_place())));
        text_ += fmt::format("    <mimic joint=\"{}\" multiplier=\"{}\" offset=\"0\"/> <!-- {} -->\n",
                             joint_name(leading_place()), multiplier, per_leader.to_string());
    }

    const ExportModel& model_;
    const std::vector<MemberBody>& bodies_;
    const UrdfOptions& options_;
    std::vector<std::string> files_;
    std::optional<MemberIndex> leader_;
    std::vector<std::string> names_;  // by place, the frame first
    std::vector<BodyAt> body_at_;     // likewise
    std::string text_;
};

}  // namespace

std::vector<std::string> mesh_file_names(const std::vector<MemberBody>& bodies) {
    std::vector<std::string> names;
    names.reserve(bodies.size());
    for (const MemberBody& body : bodies) names.push_back(body.name);
    names = plain_names(names);
    for (std::string& name : names) name += ".stl";
    return names;
}

std::string urdf_of(const ExportModel& model, const std::vector<MemberBody>& bodies, const UrdfOptions& options) {
    refuse_unless_one_joint_leads(model);
    return UrdfWriter(model, bodies, options).text();
}

}  // namespace couplet
