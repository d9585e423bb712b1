#include <algorithm>
#include <cmath>
#include <colorlib/calibration/specular_fit_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib::specular {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

// What is expected of mirrored light before looking; standard deviations.
constexpr double added_sd = 0.2;         // of s, in units of a white
constexpr double missing_sd = 0.15;      // of a, s unknown
constexpr double gap_sd = 0.3;           // of a where s is `dimmest_mirror` times a
constexpr double usual_likeness = 0.74;  // of s in neighbouring pixels: correlation
constexpr double likeness_weight = 20;   // pixels found that count as much as the usual

// When the first look finds a pixel.
constexpr double least_de00_linear = 1.1, least_de00_developed = 1.6;
constexpr double doubt = 1.5;         // standard deviations taken off the effect before it is compared
constexpr double standing_out = 2.5;  // standard deviations of s above 0
constexpr double least_added =
    1;  // the same with a free: without more light than that it is shadow, not foil
constexpr double glare_rise = 0.25;  // above the body in X, Y and Z, over white: clipped glints have any tint

/// One value a pixel of the neighbourhood, `direction` in colour: 3 rows a pixel.
Eigen::Matrix<double, 3 * side, side> spread(const Vector3d& direction) {
  Eigen::Matrix<double, 3 * side, side> d;
  d.setZero();
  for (int k = 0; k < side; ++k) d.block<3, 1>(3 * k, k) = direction;
  return d;
}

/// The first look: pixels whose neighbourhood alone leaves little doubt.
std::vector<bool> plainly_mirrored(const std::vector<Fit>& fits, double least_de00) {
  std::vector<bool> found(fits.size());
  for (std::size_t i = 0; i < fits.size(); ++i) {
    const Fit& fit = fits[i];
    found[i] = fit.glare || (fit.added > least_added && fit.certainty > standing_out &&
                             fit.effect * (1 - doubt / fit.certainty) > least_de00);
  }
  return found;
}

/// Of the neighbours of found pixels, the share found too: glints and gaps several pixels wide, or specks.
double likeness_among(const std::vector<bool>& found, const Region& region) {
  double pairs = 4 * likeness_weight * usual_likeness, all = 4 * likeness_weight;
  for (std::size_t i = 0; i < found.size(); ++i) {
    if (!found[i]) continue;
    for (const std::size_t k : {1u, 3u, 5u, 7u}) pairs += found[region.beside[i][k]];
    all += 4;
  }
  return std::clamp(pairs / all, 0.05, 0.8);
}

/// `beside`: correlation of s between pixels that share a side.
Estimator estimator_of(const Body& body, const PatchMatrix& scatter, double beside) {
  const Likeness like = likeness_of(beside);
  const auto light = spread(Vector3d::Ones()), less = spread(-body.middle);
  const auto foil = spread(Vector3d::Constant(dimmest_mirror) - body.middle);
  const auto left = [](double sd, const Estimator::Weights& weights, const Patch& shared) {
    return std::sqrt(std::max(sd * sd - (weights * shared).value(), 1e-12));
  };
  Estimator e;
  const Patch of_light = added_sd * added_sd * light * like.col(middle),
              of_less = missing_sd * missing_sd * less * like.col(middle);
  const PatchMatrix both = scatter + added_sd * added_sd * light * like * light.transpose() +
                           missing_sd * missing_sd * less * like * less.transpose();
  const Eigen::LDLT<PatchMatrix> solve_both(both);
  e.added = solve_both.solve(of_light).transpose();
  e.missing = solve_both.solve(of_less).transpose();
  e.added_sd = left(added_sd, e.added, of_light);
  e.missing_sd = left(missing_sd, e.missing, of_less);
  const Patch of_gap = gap_sd * gap_sd * foil * like.col(middle);
  const PatchMatrix gaps = scatter + gap_sd * gap_sd * foil * like * foil.transpose();
  e.gap = gaps.ldlt().solve(of_gap).transpose();
  e.gap_sd = left(gap_sd, e.gap, of_gap);
  return e;
}

/// The effect is worked out where s stands `least` standard deviations above 0.
std::vector<Fit> fits_of(const Estimator& estimator, const Region& region, const Body& body, double least) {
  const Lab plain = lab_of_relative(body.middle);
  const Matrix3d inverse = body.scatter.inverse();
  std::vector<Fit> fits(region.t.size());
  for (std::size_t i = 0; i < fits.size(); ++i) {
    const Patch patch = departures(region, body, i);
    const Vector3d own = patch.segment<3>(3 * middle);
    Fit& fit = fits[i];
    fit.away = own.dot(inverse * own);
    fit.glare = own.minCoeff() > glare_rise && fit.away > near_at;
    double added = estimator.added * patch, missing = estimator.missing * patch;
    const double gap = estimator.gap * patch;
    fit.added = added / estimator.added_sd;
    fit.missing = missing / estimator.missing_sd;
    fit.gap = gap / estimator.gap_sd;
    fit.certainty = fit.added;
    if (added < dimmest_mirror * missing) {
      missing = gap;
      added = dimmest_mirror * gap;
      fit.certainty = fit.gap;
    }
    if (fit.added > least)
      fit.effect = difference_ciede2000(plain, lab_of_relative(mixed(body, missing, added)));
  }
  return fits;
}

}  // namespace

Lab lab_of_relative(const Vector3d& t) {
  return lab_from_xyz(
      {std::max(t[0], 1e-4) * white_d50.x, std::max(t[1], 1e-4), std::max(t[2], 1e-4) * white_d50.z},
      white_d50);
}

Vector3d mixed(const Body& body, double missing, double added) {
  return (1 - missing) * body.middle + added * Vector3d::Ones();
}

FirstLook first_look(const Region& region, const Body& body, const PatchMatrix& scatter, bool developed) {
  FirstLook look;
  look.found.assign(region.t.size(), false);
  for (const double least : {least_added, 0.0}) {
    look.estimator = estimator_of(body, scatter, likeness_among(look.found, region));
    look.fits = fits_of(look.estimator, region, body, least);
    look.found = plainly_mirrored(look.fits, developed ? least_de00_developed : least_de00_linear);
  }
  return look;
}

}  // namespace colorlib::specular
