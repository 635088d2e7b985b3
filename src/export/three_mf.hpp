// 3MF: all members as objects to print, in one file, in mm.
//
// An object for each body (member_body.hpp), under its member's name, standing on the bed; an item for each copy.
// Items lie beside each other in rows, none above another, everything at positive x, y and z. An object's shells
// reach into each other where they are one piece (printable.hpp): the format counts what lies in either.
//
// Source: 3D Manufacturing Format, Core Specification 1.3, 3MF Consortium, clauses 3 and 4; its package is that of
// ISO/IEC 29500-2 (both from memory; files are read back by the consortium's own library).
#pragma once

#include <string>

#include "export/member_body.hpp"

namespace couplet {

struct ThreeMfOptions {
    double tolerance_mm = 0.01;  // how far a chord may leave its curve; above 0
};

// `machine` is the model's, or what printable made of it.
[[nodiscard]] std::string three_mf_of(const ExportModel& model, const Machine& machine,
                                      const std::vector<MemberBody>& bodies, const ThreeMfOptions& options);

}  // namespace couplet
