// Format: the four ways in which a verb prints its answer.
#pragma once

namespace couplet {

// text and md are for eyes, json and csv for programs.
enum class Format { text, json, csv, md };

}  // namespace couplet
