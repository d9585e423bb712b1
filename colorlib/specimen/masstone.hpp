#pragma once
/// The colour a thin deposit would show if it were endlessly thick, from films over known grounds. Model,
/// assumptions and limits: docs/explanation/thin_deposits.md.

#include <colorlib/specimen/film_sample.hpp>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// What the masstone was computed from.
enum class MasstoneMethod {
  two_grounds,       ///< one film across two grounds of one sheet
  two_photos,        ///< the same film photographed over two grounds
  uneven_thickness,  ///< one film of uneven thickness over one ground
};
std::string_view masstone_method_name(
    MasstoneMethod method);  // "two-grounds" | "two-photos" | "uneven-thickness"

struct Masstone {
  Lab lab;  ///< D50, 2 degree
  Matrix3 lab_covariance{};
  double contrast_ratio =
      0;  ///< mean Y over black of 0.04 by mean Y over white of 0.85, for the film as it lies
  double contrast_ratio_standard = 0;  ///< its standard uncertainty
  double scattering_power = 0;         ///< S X at 550 nm, median over the film
};

/// Constants of the fit and of its uncertainty; priors are the project's own, chosen wide.
struct MasstoneConstants {
  double least_contrast_ratio = 0.50;  ///< thinner layers are refused
  double sure_margin =
      0.05;  ///< refused, too, when it may well lie this far below it; over one ground: below it at all
  double shared_error = 0.8,
         shared_error_photos = 0.6;  ///< correlation of the readings' errors in one photo, in two
  double share_sd = 0.12;            ///< L*-like units a share's responses are off by, apart from noise
  double exponent_mean = 0.4, exponent_sd = 0.4;       ///< scattering falls as (lambda / 550 nm)^-exponent
  double log_power_sd = 1.5;                           ///< of ln S X about 0
  double log_spread_mean = -1.5, log_spread_sd = 0.7;  ///< ln of the standard deviation of ln thickness
  double grain_sd = 0.015;         ///< shadows between grains: relative spread of reflectance
  double quantile_sd = 0.25;       ///< thickness is only nearly log-normal
  double unlike_halves_sd = 0.05;  ///< ln thickness of one half against the other
  double masstone_sd = 2.0;        ///< of the logit of the masstone, about the colours deposits have
  double channel_error_de00 =
      1.8;  ///< dE00 per (1 - contrast ratio): what three channels cannot know of a spectrum
  double single_ground_contrast = 0.03;  ///< standard uncertainty of the contrast ratio at least, likewise
  double contrast_model =
      0.05;  ///< and, times sqrt(c (1 - c)), for what two fluxes in three channels miss of it
  double single_ground_factor =
      1.35;  ///< on the fit's own standard uncertainty over one ground: thickness is not log-normal
};

/// One film over one ground, or the same film over two. Errors (untrustworthy): the contrast ratio is below
/// the limit, or not surely above it; the model does not describe what is seen. `method` says whether the
/// films were read through one calibration, whose errors they share. `contrast` receives the contrast ratio
/// and its standard uncertainty even then, when it could be told.
Result<Masstone> masstone_of(std::span<const FilmSample> films, MasstoneMethod method,
                             const MasstoneConstants& constants, std::optional<Masstone>* contrast = nullptr);

}  // namespace colorlib
