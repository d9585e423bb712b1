#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/layer_thickness.hpp>
#include <colorlib/specimen/masstone_fit_internal.hpp>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

namespace colorlib {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Where the Bradford responses are most sensitive, nm.
constexpr Vector3 channel_nm{600, 540, 450};
/// Logits of what deposits' masstones are about, and how the channels tend to differ: warm colours.
constexpr double middle_logit = -1.0, warm_step = 0.5, warm_step_sd = 1.2;
constexpr double cube_root_units = 116;  // of L*

/// Parameters: logit of the masstone (3), exponent, then for each film: ln S X, ln spread, grain, quantile of
/// each share.
struct Layout {
  std::size_t films = 1, shares = 9;
  int masstone(int channel) const { return channel; }
  int exponent() const { return 3; }
  int film(std::size_t f) const { return 4 + static_cast<int>(f * (3 + shares)); }
  int power(std::size_t f) const { return film(f); }
  int spread(std::size_t f) const { return film(f) + 1; }
  int grain(std::size_t f) const { return film(f) + 2; }
  int quantile(std::size_t f, std::size_t share) const { return film(f) + 3 + static_cast<int>(share); }
  int size() const { return film(films); }
};

double from_logit(double x) { return 1 / (1 + std::exp(-std::clamp(x, -7.0, 7.0))); }

double share_quantile(std::size_t share, std::size_t shares) {
  static const boost::math::normal_distribution<double> unit;
  return boost::math::quantile(unit, (static_cast<double>(share) + 0.5) / static_cast<double>(shares));
}

double channel_power(const VectorXd& p, const Layout& at, std::size_t film, double quantile, int channel) {
  const double log_550 = p[at.power(film)] + std::exp(std::min(p[at.spread(film)], 1.0)) * quantile;
  return std::exp(
      std::clamp(log_550 - p[at.exponent()] * std::log(channel_nm[static_cast<std::size_t>(channel)] / 550),
                 -12.0, 6.0));
}

/// Residuals of the shares, then of the priors.
struct Residuals {
  using Scalar = double;
  using InputType = VectorXd;
  using ValueType = VectorXd;
  using JacobianType = MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  const FilmData& data;
  const MasstoneConstants& k;
  Layout at;

  int inputs() const { return at.size(); }
  int share_values() const { return static_cast<int>(3 * at.films * at.shares); }
  int values() const { return share_values() + at.size() + 2 + (at.films == 2 ? 2 : 0); }

  int operator()(const VectorXd& p, VectorXd& r) const {
    r.resize(values());
    int row = 0;
    for (std::size_t f = 0; f < at.films; ++f)
      for (std::size_t s = 0; s < at.shares; ++s) {
        const double z = share_quantile(s, at.shares);
        for (int c = 0; c < 3; ++c) {
          const auto channel = static_cast<std::size_t>(c);
          const LayerOptics layer{from_logit(p[at.masstone(c)]),
                                  channel_power(p, at, f, p[at.quantile(f, s)], c)};
          const double predicted =
              layer_reflectance(layer, data.ground[f][channel]) * (1 + p[at.grain(f)] * z);
          const double noise = cube_root_units * data.noise[f][channel] * std::abs(z) * 0.5;
          const double sd = std::sqrt(k.share_sd * k.share_sd + noise * noise);
          r[row++] = cube_root_units *
                     (std::cbrt(predicted) - std::cbrt(std::max(data.shares[f][s][channel], 1e-5))) / sd;
        }
      }
    // Warm rather than cold colours, and none is impossible.
    r[row++] = (p[at.masstone(0)] - p[at.masstone(1)] - warm_step) / warm_step_sd;
    r[row++] = (p[at.masstone(1)] - p[at.masstone(2)] - warm_step) / warm_step_sd;
    for (int c = 0; c < 3; ++c) r[row++] = (p[at.masstone(c)] - middle_logit) / k.masstone_sd;
    r[row++] = (p[at.exponent()] - k.exponent_mean) / k.exponent_sd;
    for (std::size_t f = 0; f < at.films; ++f) {
      r[row++] = p[at.power(f)] / k.log_power_sd;
      r[row++] = (p[at.spread(f)] - k.log_spread_mean) / k.log_spread_sd;
      r[row++] = p[at.grain(f)] / k.grain_sd;
      for (std::size_t s = 0; s < at.shares; ++s)
        r[row++] = (p[at.quantile(f, s)] - share_quantile(s, at.shares)) / k.quantile_sd;
    }
    if (at.films == 2) {
      r[row++] = (p[at.power(1)] - p[at.power(0)]) / k.unlike_halves_sd;
      r[row++] = (p[at.spread(1)] - p[at.spread(0)]) / 0.3;
    }
    return 0;
  }
};

Layout layout_of(const FilmData& data) { return {data.shares.size(), data.shares.front().size()}; }

/// From the means over two grounds where there are two, else half way from what is seen to black.
VectorXd first_guess(const FilmData& data, const MasstoneConstants& k, const Layout& at) {
  VectorXd p = VectorXd::Zero(at.size());
  p[at.exponent()] = k.exponent_mean;
  double power = 0;
  int powers = 0;
  for (int c = 0; c < 3; ++c) {
    const auto channel = static_cast<std::size_t>(c);
    const auto mean = [&](std::size_t f) {
      double sum = 0;
      for (const Vector3& share : data.shares[f]) sum += share[channel] / static_cast<double>(at.shares);
      return sum;
    };
    double masstone = 0.85 * data.shares[0].back()[channel];
    if (at.films == 2)
      if (const auto layer =
              layer_from_two_grounds(mean(0), data.ground[0][channel], mean(1), data.ground[1][channel])) {
        masstone = layer->masstone;
        if (std::isfinite(layer->scattering_power)) power += std::log(layer->scattering_power), ++powers;
      }
    masstone = std::clamp(masstone, 0.01, 0.95);
    p[at.masstone(c)] = std::log(masstone / (1 - masstone));
  }
  for (std::size_t f = 0; f < at.films; ++f) {
    p[at.power(f)] = powers > 0 ? std::clamp(power / powers, -2.5, 2.0) : 0;
    p[at.spread(f)] = k.log_spread_mean;
    for (std::size_t s = 0; s < at.shares; ++s) p[at.quantile(f, s)] = share_quantile(s, at.shares);
  }
  return p;
}

}  // namespace

FilmFit fit_films(const FilmData& data, const MasstoneConstants& constants, const VectorXd* start) {
  const Layout at = layout_of(data);
  const Residuals residuals{data, constants, at};
  Eigen::NumericalDiff<Residuals> function(residuals);
  FilmFit fit;
  double best = INFINITY;
  // A single ground leaves the answer's side open at first: start thin and thick.
  const std::vector<double> shifts =
      start != nullptr || at.films == 2 ? std::vector<double>{0} : std::vector<double>{-0.8, 0, 0.8};
  for (const double shift : shifts) {
    VectorXd p = start != nullptr ? *start : first_guess(data, constants, at);
    for (std::size_t f = 0; f < at.films; ++f) p[at.power(f)] += shift;
    Eigen::LevenbergMarquardt<Eigen::NumericalDiff<Residuals>> solver(function);
    solver.parameters.maxfev = 60 * at.size();
    solver.parameters.ftol = solver.parameters.xtol = 1e-9;
    solver.minimize(p);
    VectorXd r;
    residuals(p, r);
    if (!(r.squaredNorm() < best)) continue;
    best = r.squaredNorm();
    fit.parameters = p;
    fit.misfit = std::sqrt(r.head(residuals.share_values()).squaredNorm() / residuals.share_values());
    fit.converged = true;
  }
  if (!fit.converged) return fit;
  MatrixXd jacobian(residuals.values(), at.size());
  function.df(fit.parameters, jacobian);
  fit.covariance = (jacobian.transpose() * jacobian).ldlt().solve(MatrixXd::Identity(at.size(), at.size()));
  fit.converged = fit.covariance.allFinite();
  return fit;
}

FilmAnswer answer_of(const VectorXd& p, std::size_t films) {
  const Layout at{films, (static_cast<std::size_t>(p.size()) - 4) / films - 3};
  Vector3 masstone{};
  for (int c = 0; c < 3; ++c) masstone[static_cast<std::size_t>(c)] = from_logit(p[at.masstone(c)]);
  const Lab lab = lab_from_xyz(xyz_from_narrow(masstone), white_d50);
  double black = 0, white = 0;
  for (std::size_t f = 0; f < films; ++f)
    for (std::size_t s = 0; s < at.shares; ++s) {
      Vector3 over_black{}, over_white{};
      for (int c = 0; c < 3; ++c) {
        const LayerOptics layer{masstone[static_cast<std::size_t>(c)],
                                channel_power(p, at, f, p[at.quantile(f, s)], c)};
        over_black[static_cast<std::size_t>(c)] = layer_reflectance(layer, contrast_black);
        over_white[static_cast<std::size_t>(c)] = layer_reflectance(layer, contrast_white);
      }
      black += xyz_from_narrow(over_black).y;
      white += xyz_from_narrow(over_white).y;
    }
  double log_power = 0;
  for (std::size_t f = 0; f < films; ++f) log_power += p[at.power(f)] / static_cast<double>(films);
  return (FilmAnswer() << lab.l, lab.a, lab.b, black / white, log_power).finished();
}

MatrixXd answer_slopes(const VectorXd& p, std::size_t films) {
  constexpr double step = 1e-4;
  MatrixXd slopes(5, p.size());
  for (int i = 0; i < p.size(); ++i) {
    VectorXd more = p, less = p;
    more[i] += step, less[i] -= step;
    slopes.col(i) = (answer_of(more, films) - answer_of(less, films)) / (2 * step);
  }
  return slopes;
}

}  // namespace colorlib
