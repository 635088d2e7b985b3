#include "app/size_edits.hpp"

#include <algorithm>

#include "exact/decimal.hpp"
#include "place/copy_places.hpp"
#include "scene/limits.hpp"

namespace couplet {

namespace {

const Ratio kInch_mm(127, 5);
const Ratio kModuleWhereNone_mm(2);
constexpr int kLengthDecimals = 6;

// As tooth/train_teeth.hpp has it.
bool is_in_inches(const Train& train, const ToothSpec& spec) {
    if (spec.module_mm) return false;
    return spec.diametral_pitch || (!train.teeth.module_mm && train.teeth.diametral_pitch);
}

// Writes a length in the unit that it now counts in.
class Converter {
  public:
    Converter(const Train& before, const Train& after) : before_(before), after_(after) {}

    void convert(std::optional<Ratio>& length, const ToothSpec& by) const {
        const bool was_inches = is_in_inches(before_, by);
        const bool is_inches = is_in_inches(after_, by);
        if (!length || was_inches == is_inches) return;
        const Ratio exact = was_inches ? *length * kInch_mm : *length / kInch_mm;
        length = rounded(exact, kLengthDecimals);
    }
    void convert_lengths_of(ToothSpec& spec, const ToothSpec& by) const {
        convert(spec.face_width, by);
        convert(spec.backlash, by);
    }

  private:
    const Train& before_;
    const Train& after_;
};

std::optional<Ratio> reciprocal_pitch(const std::optional<Ratio>& size) {
    if (!size) return std::nullopt;
    return rounded(kInch_mm / *size, kLengthDecimals);
}

}  // namespace

PitchUnit pitch_unit(const Train& train) {
    return is_in_inches(train, ToothSpec{}) ? PitchUnit::diametral_pitch : PitchUnit::module_mm;
}

Train with_pitch_unit(const Train& train, PitchUnit unit) {
    if (unit == pitch_unit(train)) return train;
    Train changed = train;
    ToothSpec& teeth = changed.teeth;
    if (unit == PitchUnit::module_mm) {
        teeth.module_mm = reciprocal_pitch(train.teeth.diametral_pitch);
        teeth.diametral_pitch.reset();
    } else {
        teeth.diametral_pitch = reciprocal_pitch(train.teeth.module_mm.value_or(kModuleWhereNone_mm));
        teeth.module_mm.reset();
    }
    const Train in_new_unit = changed;
    const Converter converter(train, in_new_unit);
    converter.convert_lengths_of(teeth, ToothSpec{});
    for (Gear& gear : changed.gears) {
        const ToothSpec by = gear.spec;
        converter.convert_lengths_of(gear.spec, by);
        converter.convert(gear.bore, by);
    }
    for (Mesh& mesh : changed.meshes)
        converter.convert(mesh.centre_distance, train[external_gear_of(train, mesh)].spec);
    return changed;
}

Train with_copies(const Train& train, MemberIndex member, int copies) {
    Train changed = train;
    changed.members[member.position()].copies = copies;
    changed.members[member.position()].at_deg.clear();
    return changed;
}

std::optional<CopyMove> nearest_move(const MisplacedCopy& copy) {
    const std::optional<Ratio> to_deg = nearest_place_deg(copy);
    if (!to_deg) return std::nullopt;
    return CopyMove{copy.place, *to_deg};
}

Train with_copies_moved(const Train& train, const Placement& placement, std::span<const CopyMove> moves) {
    Train changed = train;
    for (const CopyMove& move : moves) {
        const Place& place = placement[move.place];
        Member& member = changed.members[place.member.position()];
        if (member.at_deg.empty())
            for (int k = 0; k < member.copies; ++k)
                member.at_deg.push_back(rounded(turns_from_first(train, place.member, k) * Ratio(360), kPlaceDecimals));
        const Ratio turns = (member.at_deg.front() + move.to_deg) / Ratio(360);
        member.at_deg[static_cast<std::size_t>(place.own_copy - 1)] =
            rounded(turns.fraction() * Ratio(360), kPlaceDecimals);
    }
    return changed;
}

}  // namespace couplet
