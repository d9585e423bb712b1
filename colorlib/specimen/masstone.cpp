#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/layer_thickness.hpp>
#include <colorlib/specimen/masstone_fit_internal.hpp>

namespace colorlib {
namespace {

using Eigen::MatrixXd;

/// Above this many times its expected scatter the layer model does not describe what is seen.
constexpr double worst_misfit = 6;
/// Two grounds nearer to one another than this are one.
constexpr double least_ground_difference = 20;

Vector3 moved(const Vector3& responses, const Vector3& by_lab) {
  const Lab lab = lab_from_xyz(xyz_from_narrow(responses), white_d50);
  return narrow_responses(xyz_from_lab({lab.l + by_lab[0], lab.a + by_lab[1], lab.b + by_lab[2]}, white_d50));
}

FilmData data_of(std::span<const FilmSample> films) {
  FilmData data;
  for (const FilmSample& film : films) {
    data.shares.push_back(film.shares);
    data.ground.push_back(narrow_responses(xyz_from_lab(film.ground, white_d50)));
    data.noise.push_back(film.noise);
  }
  return data;
}

/// d(answer)/d(Lab) when everything that `move` moves is read differently; by refitting (JCGM 100, 5.1.3).
template <class Move>
Eigen::Matrix<double, 5, 3> sensitivity(const FilmData& data, const FilmFit& fit, const FilmAnswer& answer,
                                        const MasstoneConstants& k, Move move) {
  constexpr double step = 0.3;
  Eigen::Matrix<double, 5, 3> by_lab;
  for (int axis = 0; axis < 3; ++axis) {
    Vector3 shift{};
    shift[static_cast<std::size_t>(axis)] = step;
    FilmData other = data;
    move(other, shift);
    const FilmFit refit = fit_films(other, k, &fit.parameters);
    by_lab.col(axis) = (answer_of(refit.parameters, data.shares.size()) - answer) / step;
  }
  return by_lab;
}

/// Relative standard uncertainty of the ratio of the films' Y, less what their errors share. No contrast
/// ratio is known better; the fit, straight at its answer, finds none where the layer hides all.
double ratio_of_y_relative(std::span<const FilmSample> films, double shared) {
  double squares = 0;
  for (const FilmSample& film : films) {
    const double y = xyz_from_lab(film.seen, white_d50).y;
    const double slope = (xyz_from_lab({film.seen.l + 1, 0, 0}, white_d50).y - y) / y;
    squares += (1 - shared) * slope * slope * film.seen_covariance(0, 0);
  }
  return std::sqrt(squares);
}

}  // namespace

std::string_view masstone_method_name(MasstoneMethod method) {
  switch (method) {
    case MasstoneMethod::two_grounds:
      return "two-grounds";
    case MasstoneMethod::two_photos:
      return "two-photos";
    case MasstoneMethod::uneven_thickness:
      return "uneven-thickness";
  }
  return "";
}

Result<Masstone> masstone_of(std::span<const FilmSample> films, MasstoneMethod method,
                             const MasstoneConstants& k, std::optional<Masstone>* contrast) {
  if (films.size() == 2 && difference_cie76(films[0].ground, films[1].ground) < least_ground_difference)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Computing the masstone: both grounds look alike (Lab distance {:.0f}, at least "
                            "{:.0f} is needed).",
                            difference_cie76(films[0].ground, films[1].ground), least_ground_difference),
                "Lay the deposit over black and over white.");
  const FilmData data = data_of(films);
  const FilmFit fit = fit_films(data, k);
  if (!fit.converged || fit.misfit > worst_misfit)
    return fail(ErrorCode::untrustworthy,
                "Computing the masstone: what is seen is not one pigment in a layer of uneven thickness over "
                "its ground.",
                "Choose a region of one colour, without dirt, gaps or a shadow, on the deposit alone.");
  const FilmAnswer answer = answer_of(fit.parameters, films.size());
  const MatrixXd slopes = answer_slopes(fit.parameters, films.size());
  const double factor = films.size() == 1 ? k.single_ground_factor : 1;
  MatrixXd covariance = factor * factor * slopes * fit.covariance * slopes.transpose();
  // What was read of films and grounds. Films in one photo share most of its error, in two what the sheet,
  // the camera and the pigment make of it; grounds of other colours have their own.
  const double shared = method == MasstoneMethod::two_grounds  ? k.shared_error
                        : method == MasstoneMethod::two_photos ? k.shared_error_photos
                                                               : 0;
  Eigen::Matrix<double, 5, 3> together = Eigen::Matrix<double, 5, 3>::Zero();
  for (std::size_t f = 0; f < films.size(); ++f) {
    const auto by_film = sensitivity(data, fit, answer, k, [&](FilmData& d, const Vector3& shift) {
      for (Vector3& share : d.shares[f]) share = moved(share, shift);
    });
    const auto by_ground = sensitivity(data, fit, answer, k, [&](FilmData& d, const Vector3& shift) {
      d.ground[f] = moved(d.ground[f], shift);
    });
    together += by_film;
    covariance +=
        (1 - shared) * by_film * converted<Eigen::Matrix3d>(films[f].seen_covariance) * by_film.transpose();
    covariance += by_ground * converted<Eigen::Matrix3d>(films[f].ground_covariance) * by_ground.transpose();
  }
  if (shared > 0) {
    const Matrix3 mean = 0.5 * (films.front().seen_covariance + films.back().seen_covariance);
    covariance += shared * together * converted<Eigen::Matrix3d>(mean) * together.transpose();
  }

  Masstone result;
  result.lab = {answer[0], answer[1], answer[2]};
  result.contrast_ratio = std::clamp(answer[3], 0.0, 1.0);
  double by_fit = std::sqrt(std::max(covariance(3, 3), 0.0));
  if (films.size() == 2)
    by_fit = std::max(by_fit, result.contrast_ratio * ratio_of_y_relative(films, shared));
  else
    by_fit = std::max(by_fit, k.single_ground_contrast);
  result.contrast_ratio_standard =
      std::hypot(by_fit, k.contrast_model * std::sqrt(result.contrast_ratio * (1 - result.contrast_ratio)));
  result.scattering_power = std::exp(answer[4]);
  const Vector3 weight = ciede2000_axis_weights(result.lab);
  const double channels = k.channel_error_de00 * (1 - result.contrast_ratio) / std::sqrt(3.0);
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) {
      result.lab_covariance(r, c) = covariance(r, c);
      if (r == c) result.lab_covariance(r, c) += std::pow(channels * weight[static_cast<std::size_t>(r)], 2);
    }
  if (contrast != nullptr) *contrast = result;
  const double surely = result.contrast_ratio - 2 * by_fit;
  const double surely_above = k.least_contrast_ratio - (films.size() == 1 ? 0 : k.sure_margin);
  if (result.contrast_ratio < k.least_contrast_ratio || surely < surely_above) {
    const bool one_ground = films.size() == 1;
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Computing the masstone: {}the layer hides {:.0f} \u00b1 {:.0f} % of the contrast of its "
                    "ground (k = 2), at least {:.0f} % must be sure.",
                    one_ground ? "taking its unevenness for thickness, " : "", 100 * result.contrast_ratio,
                    200 * result.contrast_ratio_standard, 100 * k.least_contrast_ratio),
        one_ground ? "A deposit that hides its ground and varies in colour looks the same: then the colour "
                     "as seen is its own. Else use the "
                     "sheet with a black and a white ground, or scrape the spores together into a heap."
                   : "Let the deposit fall longer, or scrape the spores together into a thicker heap.");
  }
  return result;
}

}  // namespace colorlib
