#pragma once
/// What a careful person would look at before trusting a photo, each with the figure measured and what to do.

#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <string>
#include <vector>

namespace colorlib {

enum class CheckState {
  fine,
  attend,   ///< worth doing something about before the next photo
  unknown,  ///< one photo cannot tell
};

struct PhotoCheck {
  std::string code;  ///< "sharpness", "exposure", "glare", "even-light", "light", "sheet-size", "tilt",
                     ///< "flatness", "height", "reference"
  CheckState state = CheckState::fine;
  std::string measured;  ///< one clause with figure and unit
  std::string advice;    ///< what to do; empty when fine
};

/// Limits are the project's own choice.
struct PhotoCheckLimits {
  double blur_mm = 0.35;     ///< standard deviation of a border's spread on the sheet
  double dark_paper = 0.45;  ///< encoded value of the brightest paper; linear photos: 0.12
  double dark_paper_linear = 0.12;
  double clipped_patches_share = colorlib::clipped_patches_share;
  double glare_outlier_share = 0.10;  ///< of a patch's pixels unlike the others
  double lighting_spread_de00 = uneven_light_de00;
  double glint_share = specular_flag_share;  ///< of a region's pixels
  double px_per_mm = 6;                      ///< a patch of 10 mm then has 60 px
  double scale_ratio = 1.3;                  ///< between the sheet's nearest and farthest corner
};

/// `sheet` as calibrate_photo gives it, `readings` taken through it. Always the same checks in the same
/// order, for a list that stays put while photos change.
std::vector<PhotoCheck> photo_checks(const Photo& photo, const PhotoReading& sheet,
                                     const std::vector<Reading>& readings, std::optional<double> height_mm,
                                     const PhotoCheckLimits& limits = {});

}  // namespace colorlib
