#pragma once
/// Whether two readings are of one colour, as far as their uncertainties let it be said.

#include <colorlib/colorimetry/color_types.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace colorlib {

/// A colour as it was read: Lab (D50, 2 degree) and the covariance of (L*, a*, b*).
struct UncertainColor {
  Lab lab;
  Matrix3 covariance{};
};

enum class Verdict { same, different, undecided };
std::string_view verdict_word(Verdict verdict);

struct AgreementRule {
  /// How far apart two colours may truly be and still count as the same, in dE00. Without it any difference
  /// that can be shown makes them different, and default_tolerance_de00 (naming/tolerance.hpp) is what "same"
  /// rules out.
  std::optional<double> tolerance_de00;
};

/// Two standard deviations in one dimension hold 95.45 %; in three dimensions the same share is held
/// by 2.8328 of them (chi-squared with 3 degrees of freedom). The coverage factor of `de00_expanded`.
inline constexpr double joint_coverage_factor = 2.832822225;
inline constexpr double joint_coverage = 0.9544997361;

/// What two readings say about each other.
struct Agreement {
  double de00 = 0;  ///< between the two readings
  /// Expanded uncertainty of the difference in its own direction, dE00: two readings of one colour differ by
  /// more, measured this way, with a probability of 4.55 % (as k = 2 has it in one dimension).
  double de00_expanded = 0;
  double en = 0;     ///< de00 / de00_expanded, >= 0; above 1 the uncertainties do not explain the difference
  Vector3 en_lab{};  ///< E_n of L*, a*, b* [ISO13528], signed: first minus second
  Vector3 zeta{};    ///< zeta scores of L*, a*, b*, signed
  double within_probability = 0;  ///< that the true difference is at most the tolerance, given these readings
  Verdict verdict = Verdict::undecided;
};

/// dE00 is never negative and has a kink at 0, so it is not the difference of two numbers with a normal
/// error. The test is made in Lab, where errors are nearly normal: with d the difference and C the sum of
/// both covariances, E_n = sqrt(d' C^-1 d) / 2.8328. For errors in one coordinate only, this is E_n of
/// [ISO13528]; colours that are equal give E_n > 1 in 4.55 % of cases, whatever the covariances.
///
/// Without a tolerance: `different` when E_n > 1; `same` when E_n <= 1 and the true difference is at most
/// dE00 2 with a probability of 95 %; else `undecided`. With a tolerance T: `different` when E_n > 1 and the
/// readings differ by more than 95 % of pairs would whose true difference is T in this direction; `same` when
/// the true difference is at most T with a probability of 95 % (all true differences taken as equally likely
/// beforehand, which is on the careful side); else `undecided`.
///
/// The readings are taken as independent. Two of one collector share sheet, lamp and camera, so their
/// difference is more certain than said here. Variances below 1e-6 count as 1e-6: Lab is written to 3
/// decimals. Lab and covariances finite, covariances positive semi-definite. The same answer, with signs
/// turned, for (b, a).
Agreement agreement_between(const UncertainColor& a, const UncertainColor& b, const AgreementRule& rule = {});

/// d' C^-1 d of the above alone: chi-squared with 3 degrees of freedom when both are of one colour.
double difference_statistic(const UncertainColor& a, const UncertainColor& b);

/// E_n for people: two decimals, and as many more as tell it from the limit 1 (at most six).
std::string en_text(double en);

}  // namespace colorlib
