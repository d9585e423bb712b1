#pragma once
/// The user's word for "the same colour", and answers that know what they do not know.

#include <colorlib/colorimetry/color_types.hpp>
#include <string_view>
#include <vector>

namespace colorlib {

/// How far apart two colours may be and still be called the same: dE00 2. The project's own default, since no
/// threshold is published for powders photographed on paper. It lies just above the median difference
/// that observers accept between pale solid samples side by side, 1.8 [Paravina2015], because a remembered or
/// printed comparison is coarser than two samples in one booth.
inline constexpr double default_tolerance_de00 = 2.0;

/// A yes or a no is given when it is at least this likely to be right; the 95 % of every other statement
/// here.
inline constexpr double decision_probability = 0.95;

enum class Answer { yes, no, undecided };
std::string_view answer_word(Answer answer);

/// `probability` that the statement is true, in [0, 1].
Answer answer_from(double probability);

/// The share of `distribution` (see distribution_of) within `tolerance_de00` of `center`.
double share_within(const std::vector<Lab>& distribution, const Lab& center, double tolerance_de00);

}  // namespace colorlib
