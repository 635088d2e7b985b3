#include "sheet/audit_words.hpp"

#include <fmt/format.h>

#include "sheet/numbers.hpp"
#include "sheet/words.hpp"

namespace couplet {

namespace {

std::string second_joint_members(const Train& train, const Coupling& coupling) {
    return default_joint_name(train, coupling.second.turns, coupling.second.against);
}

std::string_view carrier_correction_missing() {
    return "the carrier correction is missing, for tooth counts do not see the carrier turn";
}

std::string sense_reversed(const Train& train, const Audit& audit) {
    if (!audit.probably_flipped) return "The sense is reversed: change the sign of one angle.";
    return fmt::format(
        "The sense is reversed: the axis of {} probably points the other way; change one sign, or mark that joint "
        "flipped in the scene.",
        joint_name(train, *audit.probably_flipped));
}

// "planet against frame": a joint spoken of as the pair of members that it is.
std::string pair_of_members(const Train& train, const Joint& joint) {
    return fmt::format("{} against {}{}", name_of(train, joint.turns), name_of(train, joint.against),
                       joint.flipped ? " (flipped)" : "");
}

bool same_pair(const Joint& a, const Joint& b) {
    return a.turns == b.turns && a.against == b.against && a.flipped == b.flipped;
}

std::string other_joints(const Train& train, const Coupling& coupling, const std::array<Joint, 2>& fits) {
    const bool first_is_ours = same_pair(fits[0], coupling.first);
    const bool second_is_ours = same_pair(fits[1], coupling.second);
    if (first_is_ours)
        return fmt::format("This is {}, not {}.", pair_of_members(train, fits[1]),
                           pair_of_members(train, coupling.second));
    if (second_is_ours)
        return fmt::format("This is right where the first joint is {}, not {}.", pair_of_members(train, fits[0]),
                           pair_of_members(train, coupling.first));
    return fmt::format("This is {} and {}, not the two joints named.", pair_of_members(train, fits[0]),
                       pair_of_members(train, fits[1]));
}

std::string other_held(const Train& train, const Audit& audit) {
    if (audit.fits_held.empty()) return "This would be right if nothing were held.";
    return fmt::format("This would be right if {} were held instead.", list_text(names_of(train, audit.fits_held)));
}

std::string stands_still(const Train& train, const Coupling& coupling) {
    return coupling.second_per_first->is_zero()
               ? fmt::format("{} stands still: fix that joint instead of coupling it.",
                             joint_name(train, coupling.second))
               : fmt::format("An angle of 0 says that a joint stands still, but {} turns.",
                             second_joint_members(train, coupling));
}

std::string mistake_sentence(const Train& train, const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    switch (audit.mistake) {
        case Mistake::none:
            return "The angles typed turn as the train does.";
        case Mistake::bare_tooth_ratio:
            return fmt::format("This is the bare tooth ratio: {}.", carrier_correction_missing());
        case Mistake::bare_tooth_ratio_sense:
            return fmt::format("This is the bare tooth ratio with its sense reversed: {}.",
                               carrier_correction_missing());
        case Mistake::sense_reversed:
            return sense_reversed(train, audit);
        case Mistake::swapped:
            return "The two angles stand in each other's place.";
        case Mistake::swapped_and_reversed:
            return "The two angles stand in each other's place, and the sense is reversed.";
        case Mistake::other_joints:
            return audit.fits_joints ? other_joints(train, coupling, *audit.fits_joints)
                                     : "This is right for another pair of joints.";
        case Mistake::other_held:
            return other_held(train, audit);
        case Mistake::rounded:
            return "The angles typed are the right ones, but rounded.";
        case Mistake::stands_still:
            return stands_still(train, coupling);
        case Mistake::unexplained:
            return "No common mistake explains these angles.";
    }
    return "";
}

std::string drift_clause(const Train& train, const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    std::string clause =
        fmt::format("it drifts by {} deg per 1000 turns of {}", rough_text(audit.drift_deg_per_1000_turns.magnitude()),
                    joint_name(train, coupling.first));
    if (audit.turns_to_quarter_tooth)
        clause += fmt::format(" and is a quarter tooth out after {} turns", rough_text(*audit.turns_to_quarter_tooth));
    return clause;
}

std::string instead_text(const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    return audit.corrected == *coupling.typed
               ? "No better pair fits the modeller's fields; the formula is exact."
               : fmt::format("Type {} instead.", pair_text(audit.corrected[0], audit.corrected[1]));
}

}  // namespace

std::string_view verdict_name(const Audit& audit) {
    if (audit.is_right()) return "right";
    return audit.mistake == Mistake::rounded ? "rounded" : "wrong";
}

std::string_view mistake_name(Mistake mistake) {
    switch (mistake) {
        case Mistake::none:
            return "none";
        case Mistake::bare_tooth_ratio:
            return "bare_tooth_ratio";
        case Mistake::bare_tooth_ratio_sense:
            return "bare_tooth_ratio_sense";
        case Mistake::sense_reversed:
            return "sense_reversed";
        case Mistake::swapped:
            return "swapped";
        case Mistake::swapped_and_reversed:
            return "swapped_and_reversed";
        case Mistake::other_joints:
            return "other_joints";
        case Mistake::other_held:
            return "other_held";
        case Mistake::rounded:
            return "rounded";
        case Mistake::stands_still:
            return "stands_still";
        case Mistake::unexplained:
            return "unexplained";
    }
    return "";
}

std::string audit_explanation(const Train& train, const Coupling& coupling) {
    std::string sentence = mistake_sentence(train, coupling);
    if (!coupling.audit->also_rounded) return sentence;
    sentence.pop_back();
    return sentence + " (and rounded).";
}

std::string audit_text(const Train& train, const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    const std::string typed =
        fmt::format("{} to {}: typed {}", joint_name(train, coupling.first), joint_name(train, coupling.second),
                    pair_text((*coupling.typed)[0], (*coupling.typed)[1]));
    if (audit.is_right()) return typed + " is right.";
    const std::string explanation = audit_explanation(train, coupling);
    const std::string instead = instead_text(coupling);
    if (audit.mistake == Mistake::rounded)
        return fmt::format("{} is rounded: {}. {}", typed, drift_clause(train, coupling), instead);
    const std::string by =
        audit.off_deg_per_turn.is_zero()
            ? ""
            : fmt::format(" by {} deg per turn of {}", rough_text(audit.off_deg_per_turn.magnitude()),
                          joint_name(train, coupling.first));
    return fmt::format("{} is WRONG{}. {} {}", typed, by, explanation, instead);
}

std::string audit_mend(const Train& train, const Coupling& coupling) {
    const Audit& audit = *coupling.audit;
    if (audit.is_right()) return "";
    const std::string why = audit.mistake == Mistake::rounded
                                ? fmt::format("Rounded, {}.", drift_clause(train, coupling))
                                : audit_explanation(train, coupling);
    return instead_text(coupling) + ' ' + why;
}

}  // namespace couplet
