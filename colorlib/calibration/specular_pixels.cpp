#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/calibration/pixel_lattice_internal.hpp>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr std::size_t least_pixels = 20;

// What is expected of mirrored light before looking; standard deviations.
constexpr double added_sd = 0.2;         // of s, in units of a white
constexpr double missing_sd = 0.15;      // of a, s unknown
constexpr double gap_sd = 0.3;           // of a where s is `dimmest_mirror` times a
constexpr double dimmest_mirror = 0.45;  // foil in a gap returns at least this share of a white
constexpr double usual_likeness = 0.74;  // of s in neighbouring pixels: correlation
constexpr double likeness_weight = 20;   // pixels found that count as much as the usual

// When the first look finds a pixel.
constexpr double least_de00_linear = 1.1, least_de00_developed = 1.6;
constexpr double doubt = 1.5;         // standard deviations taken off the effect before it is compared
constexpr double standing_out = 2.5;  // standard deviations of s above 0
constexpr double least_added =
    1;  // the same with a free: without more light than that it is shadow, not foil
constexpr double usual_share = 0.01;  // of a region's pixels: shares found are told from it
constexpr double glare_rise = 0.25;  // above the body in X, Y and Z, over white: clipped glints have any tint

// The body's scatter.
constexpr int half_steps = 2, near_steps = 5;
constexpr double half_loss = 2.46;     // the nearer half of a normal scatter is this much too narrow
constexpr double near_at = 20;         // squared Mahalanobis distance that still is body
constexpr double near_loss = 1.01;     // a normal scatter cut there is this much too narrow
constexpr double patch_loss = 1.1;     // the same for neighbourhoods all of whose pixels are nearer
constexpr double least_noise = 0.003;  // of the body's brightness: no camera is quieter
constexpr std::size_t most_patches = 2000;
constexpr double invented_patches = 30;  // of a scatter supposed without looking, correlated by `usual_grain`
constexpr double usual_grain = 0.5;

constexpr int side = 9;  // pixels of a neighbourhood
constexpr int middle = 4;
using Patch = Eigen::Matrix<double, 3 * side, 1>;
using PatchMatrix = Eigen::Matrix<double, 3 * side, 3 * side>;
using Weights = Eigen::Matrix<double, 1, 3 * side>;
using Likeness = Eigen::Matrix<double, side, side>;

struct Body {
  Vector3d middle;
  Matrix3d scatter;
};

struct Region {
  std::vector<Vector3d> t;  ///< XYZ over white
  std::vector<Neighbourhood> beside;
};

Vector3d medians(const std::vector<Vector3d>& t) {
  Vector3d middle;
  std::vector<double> values(t.size());
  for (int c = 0; c < 3; ++c) {
    for (std::size_t i = 0; i < t.size(); ++i) values[i] = t[i][c];
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    middle[c] = *half;
  }
  return middle;
}

double noise_variance(const Vector3d& body) {
  const double noise = least_noise * body.mean() + 1e-4;
  return noise * noise;
}

/// From the half of the pixels that lies together most closely, then from all that are near by its measure:
/// up to a third of mirrored pixels do not widen it, and a thin film's long tail still counts as body.
Body body_of(const std::vector<Vector3d>& t) {
  Body body{medians(t), Matrix3d::Zero()};
  const Matrix3d noise = Matrix3d::Identity() * noise_variance(body.middle);
  std::vector<double> distances(t.size(), 0.0);
  const auto scatter_within = [&](double limit) {
    Matrix3d sum = Matrix3d::Zero();
    std::size_t count = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
      if (distances[i] > limit) continue;
      const Vector3d d = t[i] - body.middle;
      sum += d * d.transpose();
      ++count;
    }
    return Matrix3d(sum / static_cast<double>(std::max<std::size_t>(count, 1)));
  };
  const auto measure = [&] {
    const Matrix3d inverse = body.scatter.inverse();
    for (std::size_t i = 0; i < t.size(); ++i) {
      const Vector3d d = t[i] - body.middle;
      distances[i] = d.dot(inverse * d);
    }
  };
  body.scatter = scatter_within(INFINITY) + noise;
  for (int step = 0; step < half_steps; ++step) {
    measure();
    std::vector<double> sorted = distances;
    const auto half = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), half, sorted.end());
    body.scatter = half_loss * scatter_within(*half) + noise;
  }
  for (int step = 0; step < near_steps; ++step) {
    measure();
    body.scatter = near_loss * scatter_within(near_at) + noise;
  }
  return body;
}

/// Correlation between the pixels of a neighbourhood, `beside` for two that share a side, Gaussian in their
/// distance.
Likeness likeness_of(double beside) {
  Likeness r;
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j) {
      const int dx = i % 3 - j % 3, dy = i / 3 - j / 3;
      r(i, j) = std::pow(beside, dx * dx + dy * dy);
    }
  return r;
}

/// One value a pixel of the neighbourhood, `direction` in colour: 3 rows a pixel.
Eigen::Matrix<double, 3 * side, side> spread(const Vector3d& direction) {
  Eigen::Matrix<double, 3 * side, side> d;
  d.setZero();
  for (int k = 0; k < side; ++k) d.block<3, 1>(3 * k, k) = direction;
  return d;
}

/// Covariance of the body's departures from its middle over a neighbourhood, from neighbourhoods of body
/// alone.
PatchMatrix patch_scatter(const Region& region, const Body& body) {
  const Matrix3d inverse = body.scatter.inverse();
  std::vector<bool> odd(region.t.size());
  for (std::size_t i = 0; i < region.t.size(); ++i) {
    const Vector3d d = region.t[i] - body.middle;
    odd[i] = d.dot(inverse * d) > near_at;
  }
  std::vector<std::size_t> clean;
  for (std::size_t i = 0; i < region.t.size(); ++i)
    if (std::none_of(region.beside[i].begin(), region.beside[i].end(),
                     [&](std::uint32_t k) { return odd[k]; }))
      clean.push_back(i);

  const Likeness grain = likeness_of(usual_grain);
  PatchMatrix sum;
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j)
      sum.block<3, 3>(3 * i, 3 * j) = invented_patches * grain(i, j) * body.scatter;
  const std::size_t count = std::min(most_patches, clean.size());
  for (std::size_t n = 0; n < count; ++n) {
    Patch patch;
    const Neighbourhood& near = region.beside[clean[n * clean.size() / count]];
    for (int k = 0; k < side; ++k)
      patch.segment<3>(3 * k) = region.t[near[static_cast<std::size_t>(k)]] - body.middle;
    sum.noalias() += patch_loss * patch * patch.transpose();
  }
  sum /= static_cast<double>(count) + invented_patches;
  sum.diagonal().array() += noise_variance(body.middle);
  return sum;
}

/// How much light, and how much less body, the middle of a neighbourhood holds: linear in the departures from
/// the body.
struct Estimator {
  Weights added, missing;
  double added_sd = 0, missing_sd = 0;  ///< of what is left unknown
  Weights gap;                          ///< a where s is `dimmest_mirror` times a
  double gap_sd = 0;
};

Estimator estimator_of(const Body& body, const PatchMatrix& scatter, double beside) {
  const Likeness like = likeness_of(beside);
  const auto light = spread(Vector3d::Ones()), less = spread(-body.middle);
  const auto foil = spread(Vector3d::Constant(dimmest_mirror) - body.middle);
  const auto left = [](double sd, const Weights& weights, const Patch& shared) {
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

Lab lab_of_relative(const Vector3d& t) {
  return lab_from_xyz(
      {std::max(t[0], 1e-4) * white_d50.x, std::max(t[1], 1e-4), std::max(t[2], 1e-4) * white_d50.z},
      white_d50);
}

/// What the estimator says of one pixel; certainties in standard deviations above 0.
struct Fit {
  double added = 0, missing = 0, gap = 0;  ///< certainties of s and a, and of a where s is foil's share of it
  double certainty = 0;                    ///< of the fit that fits
  double effect = 0;   ///< dE00 by which that fit moves the body; 0 when it adds hardly any light
  double away = 0;     ///< squared Mahalanobis distance of the pixel itself from the body
  bool glare = false;  ///< so bright that its tint does not matter
};

Vector3d mixed(const Body& body, double missing, double added) {
  return (1 - missing) * body.middle + added * Vector3d::Ones();
}

/// The effect is worked out where s stands `least` standard deviations above 0.
std::vector<Fit> fits_of(const Estimator& estimator, const Region& region, const Body& body, double least) {
  const Lab plain = lab_of_relative(body.middle);
  const Matrix3d inverse = body.scatter.inverse();
  std::vector<Fit> fits(region.t.size());
  for (std::size_t i = 0; i < fits.size(); ++i) {
    Patch patch;
    for (int k = 0; k < side; ++k)
      patch.segment<3>(3 * k) = region.t[region.beside[i][static_cast<std::size_t>(k)]] - body.middle;
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

/// The 16 pixels round the eight, each by a step and another from there (places in a `Neighbourhood`).
constexpr std::array<std::array<std::size_t, 2>, 16> farther_steps{{{0, 0},
                                                                    {0, 1},
                                                                    {1, 1},
                                                                    {2, 1},
                                                                    {2, 2},
                                                                    {0, 3},
                                                                    {2, 5},
                                                                    {3, 3},
                                                                    {5, 5},
                                                                    {6, 3},
                                                                    {8, 5},
                                                                    {6, 6},
                                                                    {6, 7},
                                                                    {7, 7},
                                                                    {8, 7},
                                                                    {8, 8}}};

std::vector<EvidenceValues> evidence_of(const std::vector<Fit>& fits, const std::vector<bool>& found,
                                        const Region& region, const Body& body, const Estimator& estimator) {
  const std::size_t count = fits.size();
  const Lab plain = lab_of_relative(body.middle);
  const auto gentle = [](double value) { return static_cast<float>(std::asinh(value)); };
  const auto log_de00 = [&](double missing, double added) {
    return static_cast<float>(
        std::log(std::max(difference_ciede2000(plain, lab_of_relative(mixed(body, missing, added))), 1e-6)));
  };
  std::vector<float> effect(count), gap(count);
  for (std::size_t i = 0; i < count; ++i) effect[i] = gentle(fits[i].effect), gap[i] = gentle(fits[i].gap);
  const double share =
      static_cast<double>(std::count(found.begin(), found.end(), true)) / static_cast<double>(count);
  const float found_share = gentle(share / usual_share), light_unknown = log_de00(0, estimator.added_sd),
              gap_unknown = log_de00(estimator.gap_sd, dimmest_mirror * estimator.gap_sd),
              lightness = static_cast<float>(plain.l / 50 - 1);

  std::vector<EvidenceValues> all(count);
  for (std::size_t i = 0; i < count; ++i) {
    EvidenceValues& values = all[i];
    values.fill(0);
    const auto at = [&](Evidence e) -> float& { return values[static_cast<std::size_t>(e)]; };
    at(Evidence::added) = gentle(fits[i].added);
    if (!(fits[i].added > 0)) continue;
    at(Evidence::missing) = gentle(fits[i].missing);
    at(Evidence::certainty) = gentle(fits[i].certainty);
    at(Evidence::effect) = effect[i];
    at(Evidence::away) = static_cast<float>(0.5 * std::log1p(fits[i].away));
    const Lab own = lab_of_relative(region.t[i]);
    at(Evidence::lighter) = gentle(own.l - plain.l);
    at(Evidence::difference) = gentle(difference_ciede2000(plain, own));
    const Neighbourhood& beside = region.beside[i];
    for (std::size_t k = 0; k < side; ++k) {
      if (k == middle) continue;
      at(Evidence::most_effect_beside) = std::max(at(Evidence::most_effect_beside), effect[beside[k]]);
      at(Evidence::effect_beside) += effect[beside[k]] / 8;
      at(Evidence::found_beside) += found[beside[k]] ? 0.125f : 0.f;
    }
    for (const auto& [first, second] : farther_steps) {
      const std::size_t there = region.beside[beside[first]][second];
      at(Evidence::most_effect_farther) = std::max(at(Evidence::most_effect_farther), effect[there]);
      at(Evidence::effect_farther) += effect[there] / 16;
      at(Evidence::gap_farther) += gap[there] / 16;
    }
    at(Evidence::found_share) = found_share;
    at(Evidence::light_unknown) = light_unknown;
    at(Evidence::gap_unknown) = gap_unknown;
    at(Evidence::lightness) = lightness;
  }
  return all;
}

}  // namespace

SpecularEvidence specular_evidence(const std::vector<Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                   bool developed) {
  SpecularEvidence result;
  result.verdicts.assign(xyz.size(), Verdict::body);
  result.values.resize(xyz.size());
  if (xyz.size() < least_pixels) return result;
  Region region;
  for (const auto& c : xyz) region.t.emplace_back(c[0] / white_d50.x, c[1] / white_d50.y, c[2] / white_d50.z);
  region.beside = lattice_neighbours(pixels);
  // Body and scatter are not taken again without what was found: that would peel a thin film's pale places
  // off layer by layer.
  const Body body = body_of(region.t);
  const PatchMatrix scatter = patch_scatter(region, body);
  Estimator estimator;
  std::vector<Fit> fits;
  std::vector<bool> found(xyz.size(), false);
  for (const double least : {least_added, 0.0}) {
    estimator = estimator_of(body, scatter, likeness_among(found, region));
    fits = fits_of(estimator, region, body, least);
    found = plainly_mirrored(fits, developed ? least_de00_developed : least_de00_linear);
  }
  result.values = evidence_of(fits, found, region, body, estimator);
  for (std::size_t i = 0; i < fits.size(); ++i)
    result.verdicts[i] = fits[i].glare       ? Verdict::glare
                         : fits[i].added > 0 ? Verdict::by_evidence
                                             : Verdict::body;
  return result;
}

std::vector<bool> specular_pixels(const std::vector<Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                  bool developed) {
  const SpecularEvidence evidence = specular_evidence(xyz, pixels, developed);
  const double threshold = specular_threshold(developed);
  std::vector<bool> found(xyz.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    found[i] = evidence.verdicts[i] == Verdict::glare ||
               (evidence.verdicts[i] == Verdict::by_evidence &&
                specular_log_odds(evidence.values[i], developed) > threshold);
  return found;
}

}  // namespace colorlib
