#pragma once
/// A description as one plain sentence.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <string>

namespace colorlib {

/// "moderate brown (82 %), otherwise strong brown; ±1.3": the most probable name and how likely it is, the
/// other names down to 5 %, and the expanded uncertainty in dE00. An exact colour gets the bare name. A
/// colour beyond the renotation says so. UTF-8.
std::string sentence_from(const ColorDescription& description, const Wording& wording);

/// "82 %"; "> 99 %" and "< 1 %" where a figure would claim certainty. For readings, not for exact colours.
std::string percentage_from(double probability);

}  // namespace colorlib
