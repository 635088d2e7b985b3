#include <fmt/format.h>

#include <array>

#include "app/panel_parts.hpp"
#include "app/size_edits.hpp"
#include "app/size_parts.hpp"
#include "exact/decimal.hpp"

namespace couplet {

namespace {

// A key of [teeth] as the panel calls it. `usual`: what ISO 53 profile A gives where the key is left out.
struct TeethField {
    std::string_view name;
    std::string_view unit;  // "length": mm or inches
    std::string_view usual;
    std::optional<Ratio> ToothSpec::*value;
};

constexpr std::array<TeethField, 7> kFields = {
    TeethField{"pressure angle", "deg", "20", &ToothSpec::pressure_angle_deg},
    TeethField{"helix angle", "deg", "0", &ToothSpec::helix_angle_deg},
    TeethField{"face width", "length", "10 modules", &ToothSpec::face_width},
    TeethField{"backlash", "length", "0", &ToothSpec::backlash},
    TeethField{"addendum", "x module", "1", &ToothSpec::addendum},
    TeethField{"dedendum", "x module", "1.25", &ToothSpec::dedendum},
    TeethField{"root radius", "x module", "0.38", &ToothSpec::root_radius}};

const NumberLimits& limits_of(std::optional<Ratio> ToothSpec::*value) {
    for (const ToothKey& key : kToothKeys)
        if (key.value == value) return key.limits;
    return kAnyNumber;
}

class TeethSection {
  public:
    TeethSection(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings)
        : screen_(screen), session_(session), edits_(edits), findings_(findings) {}

    void draw() {
        heading(screen_, "All teeth");
        const PitchUnit unit = pitch_unit(session_.train());
        const std::array<std::string, 2> units = {"module", "diametral pitch"};
        const auto chosen = segments(screen_, "size by", units, unit == PitchUnit::module_mm ? 0 : 1);
        if (chosen)
            take("teeth by " + units[*chosen],
                 with_pitch_unit(session_.train(), *chosen == 0 ? PitchUnit::module_mm : PitchUnit::diametral_pitch));
        rows_.emplace(screen_, "all teeth", kNames_u);
        draw_size(unit);
        for (const TeethField& field : kFields) {
            const std::string_view length = unit == PitchUnit::module_mm ? "mm" : "inches";
            draw_field(field.name, field.unit == "length" ? length : field.unit, field.usual, field.value);
            if (field.value == &ToothSpec::backlash) interrupt(findings_.backlash);
        }
        rows_.reset();
    }

  private:
    void draw_size(PitchUnit unit) {
        if (unit == PitchUnit::module_mm)
            draw_field("module", "mm", session_.train().teeth.module_mm ? "" : "by gear", &ToothSpec::module_mm);
        else
            draw_field("diametral pitch", "per inch", "", &ToothSpec::diametral_pitch);
        interrupt(findings_.module);
    }

    // Findings stand across the rows, which go on below them.
    void interrupt(const std::vector<Finding>& findings) {
        if (findings.empty()) return;
        rows_.reset();
        draw_findings(screen_, findings);
        rows_.emplace(screen_, "all teeth below " + findings.front().rule, kNames_u);
    }

    void draw_field(std::string_view name, std::string_view unit, std::string_view usual,
                    std::optional<Ratio> ToothSpec::*value) {
        rows_->row(fmt::format("{} ({})", name, unit));
        const auto entered =
            optional_number_field(screen_, name, session_.train().teeth.*value, limits_of(value), usual);
        if (!entered) return;
        Train train = session_.train();
        train.teeth.*value = *entered;
        take(fmt::format("{}: {}", name, *entered ? exact_text(**entered) : usual), std::move(train),
             std::string(name));
    }

    void take(std::string what, Train train, std::string key = {}) {
        Draft draft = session_.draft();
        draft.train = std::move(train);
        edits_.change(std::move(what), std::move(draft), std::move(key));
    }

    Screen& screen_;
    const Session& session_;
    Edits& edits_;
    const FindingPlaces& findings_;
    std::optional<NamedRows> rows_;  // those that are open
    static constexpr float kNames_u = 170;
};

}  // namespace

void draw_teeth_section(Screen& screen, const Session& session, Edits& edits, const FindingPlaces& findings) {
    TeethSection(screen, session, edits, findings).draw();
}

}  // namespace couplet
