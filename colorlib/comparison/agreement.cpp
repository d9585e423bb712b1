#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/agreement.hpp>
#include <colorlib/comparison/ellipsoids.hpp>
#include <colorlib/comparison/scores.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/tolerance.hpp>

namespace colorlib {
namespace {

constexpr double least_variance = 1e-6;

/// The uncertainty of a difference, along its axes.
struct DifferenceSpread {
  std::array<EllipsoidAxis, 3> axes;
  Matrix3 covariance;  ///< with the least variance on every axis

  explicit DifferenceSpread(const Matrix3& sum) : axes(principal_axes(sum)) {
    for (auto& axis : axes) {
      axis.variance = std::max(axis.variance, least_variance);
      for (int row = 0; row < 3; ++row)
        for (int column = 0; column < 3; ++column)
          covariance(row, column) += axis.variance * axis.direction[static_cast<std::size_t>(row)] *
                                     axis.direction[static_cast<std::size_t>(column)];
    }
  }

  double statistic(const Vector3& d) const {
    double sum = 0;
    for (const auto& axis : axes) {
      const double along = d[0] * axis.direction[0] + d[1] * axis.direction[1] + d[2] * axis.direction[2];
      sum += along * along / axis.variance;
    }
    return sum;
  }
};

/// `middle` +- half of `factor` d.
double spread_de00(const Lab& middle, const Vector3& d, double factor) {
  const double s = factor / 2;
  return difference_ciede2000({middle.l - s * d[0], middle.a - s * d[1], middle.b - s * d[2]},
                              {middle.l + s * d[0], middle.a + s * d[1], middle.b + s * d[2]});
}

/// The expanded uncertainty in the direction that has most of it: for two equal readings.
double largest_expanded(const Lab& middle, const DifferenceSpread& spread) {
  double largest = 0;
  for (const auto& axis : spread.axes)
    largest = std::max(largest,
                       spread_de00(middle, axis.direction, joint_coverage_factor * std::sqrt(axis.variance)));
  return largest;
}

/// Whether less than 5 % of pairs whose true difference is `tolerance`, in the direction of d, would read
/// further apart than `de00`.
bool beyond_tolerance(const Lab& middle, const Vector3& d, const DifferenceSpread& spread, double de00,
                      double tolerance) {
  if (de00 <= tolerance) return false;
  double low = 0, high = 1;
  for (int i = 0; i < 40; ++i) {
    const double half = (low + high) / 2;
    (spread_de00(middle, d, half) < tolerance ? low : high) = half;
  }
  const double s = low / 2;
  const Lab near{middle.l - s * d[0], middle.a - s * d[1], middle.b - s * d[2]},
      far{middle.l + s * d[0], middle.a + s * d[1], middle.b + s * d[2]};
  const double not_beyond = share_within(distribution_of(far, spread.covariance), near, de00);
  return 1 - not_beyond < 1 - decision_probability;
}

Verdict verdict_from(const Agreement& found, const AgreementRule& rule, bool beyond) {
  const bool shown = found.en > 1;
  if (shown && (!rule.tolerance_de00 || beyond)) return Verdict::different;
  if (answer_from(found.within_probability) == Answer::yes && (!shown || rule.tolerance_de00))
    return Verdict::same;
  return Verdict::undecided;
}

}  // namespace

std::string_view verdict_word(Verdict verdict) {
  switch (verdict) {
    case Verdict::same:
      return "same";
    case Verdict::different:
      return "different";
    case Verdict::undecided:
      break;
  }
  return "undecided";
}

double difference_statistic(const UncertainColor& a, const UncertainColor& b) {
  return DifferenceSpread(a.covariance + b.covariance)
      .statistic({a.lab.l - b.lab.l, a.lab.a - b.lab.a, a.lab.b - b.lab.b});
}

Agreement agreement_between(const UncertainColor& a, const UncertainColor& b, const AgreementRule& rule) {
  const Vector3 of_a = vector_from(a.lab), of_b = vector_from(b.lab);
  const Vector3 d{of_a[0] - of_b[0], of_a[1] - of_b[1], of_a[2] - of_b[2]};
  const Lab middle{(of_a[0] + of_b[0]) / 2, (of_a[1] + of_b[1]) / 2, (of_a[2] + of_b[2]) / 2};
  const DifferenceSpread spread(a.covariance + b.covariance);

  Agreement found;
  found.de00 = difference_ciede2000(a.lab, b.lab);
  found.en = std::sqrt(spread.statistic(d)) / joint_coverage_factor;
  constexpr double no_direction = 1e-9;
  found.de00_expanded = found.en > no_direction ? found.de00 / found.en : largest_expanded(middle, spread);
  for (std::size_t i = 0; i < 3; ++i) {
    const int k = static_cast<int>(i);
    const double u_a = std::sqrt(std::max(0.0, a.covariance(k, k))),
                 u_b = std::sqrt(std::max(0.0, b.covariance(k, k)));
    const double floor = std::sqrt(least_variance);
    found.zeta[i] = zeta_score(of_a[i], std::max(u_a, floor), of_b[i], u_b);
    found.en_lab[i] = en_score(of_a[i], 2 * std::max(u_a, floor), of_b[i], 2 * u_b);
  }
  const double tolerance = rule.tolerance_de00.value_or(default_tolerance_de00);
  // Twice the expanded uncertainty beyond the tolerance nothing is left of the distribution.
  if (found.de00 < tolerance + 2 * largest_expanded(middle, spread))
    found.within_probability = share_within(distribution_of(b.lab, spread.covariance), a.lab, tolerance);
  const bool beyond =
      rule.tolerance_de00 && found.en > 1 && beyond_tolerance(middle, d, spread, found.de00, tolerance);
  found.verdict = verdict_from(found, rule, beyond);
  return found;
}

std::string en_text(double en) {
  constexpr int least = 2, most = 6;
  std::string text = fmt::format("{:.{}f}", en, least);
  for (int decimals = least + 1; decimals <= most && en != 1 && number_from(text) == 1.0; ++decimals)
    text = fmt::format("{:.{}f}", en, decimals);
  return text;
}

}  // namespace colorlib
