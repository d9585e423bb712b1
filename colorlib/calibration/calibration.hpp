#pragma once
/// From encoded camera values at a place on the sheet to XYZ, with the uncertainty of doing so: tone
/// response, lighting field and colour correction fitted together over patches and bare paper. Method,
/// constants and limits: docs/explanation/calibration.md.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/calibration/light_kind.hpp>
#include <colorlib/calibration/light_odds.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

/// One pixel of a region, or a mean of several: encoded value and where on the sheet.
struct SheetPixel {
  PointMm place;
  Vector3 encoded{};
};

/// How one patch fared.
struct PatchResidual {
  std::size_t patch = 0;  ///< index into the definition
  Lab fitted;             ///< with the patch taking part
  Lab predicted;          ///< had it not taken part (leave-one-out)
  double leave_one_out_de00 = 0;
  double robust_weight = 1;  ///< below 0.5: the fit did not believe this patch
};

struct CalibrationSummary {
  std::string model;  ///< in words
  int patches_used = 0, paper_used = 0;
  /// Leave-one-out over the patches; the median is what soil and dropped light on a few of them leave alone.
  double check_de00_mean = 0, check_de00_median = 0, check_de00_p95 = 0;
  /// dE00 between bare paper as it would read under the brightest and under the dimmest light on the sheet,
  /// uncorrected.
  double lighting_spread_de00 = 0;
  /// How far the light's colour changes over the sheet: root sum of squares of the ranges of ln(red/green)
  /// and ln(blue/green) in the fitted light field. Two unlike lights from two sides make it large.
  double lighting_tint = 0;
  /// Bare paper as the patches' reference values would have it; meaningless when no paper was used.
  Lab paper;
  /// How far dark neighbourhoods were lifted: ln gain for each ln that the neighbourhood is darker. Near 0
  /// without local tone mapping.
  double local_tone = 0;
  /// Of red, green and blue in X, Y and Z round white: the shape of the colour correction.
  std::array<Vector3, 3> channel_shares{};
  /// The white under the light at the sheet's centre against the camera's own white in daylight: ln of
  /// red/green and of blue/green. Nothing when the file does not tell the latter.
  std::optional<std::array<double, 2>> white_from_daylight;
  LightOdds light_odds;                   ///< by the fit (docs/explanation/uncertainty.md)
  LightKind light = LightKind::unstated;  ///< as the user said
  int iterations = 0;
  bool converged = false;
};

/// The colour of a region through the calibration.
struct CalibratedColor {
  Xyz xyz;             ///< D50, Y = 1 white
  Lab lab;             ///< D50
  Matrix3 covariance;  ///< of Lab: the sum of the budget
  std::vector<BudgetComponent> budget;
  double glint_share = 0;      ///< of the pixels, left out as specular
  double unevenness_de00 = 0;  ///< rms of the used pixels about the mean
  double light_rest = 0;       ///< rms of what the light field leaves on the paper round the region, ln light
  std::size_t pixels = 0;      ///< used
};

/// Beyond this rest (`CalibratedColor::light_rest`) a shadow's edge lies near: of simulated readings without
/// one 99 in 100 stay below 0.02, on soiled sheets below 0.05.
inline constexpr double most_light_rest = 0.04;
/// What a user does about it.
inline constexpr const char* even_light_advice =
    "Move the sheet, or what throws the shadow, so that one light falls on all of it; print a soiled sheet "
    "anew. Then take the photo again.";

/// Where more than this share of the paper is clipped, the exposure keeps it from being used, not soil.
inline constexpr double mostly_clipped_paper = 0.5;
inline constexpr const char* expose_less_advice =
    "Take the photo again with less exposure (about -0.7 EV), so that bare paper is bright but not white.";
inline constexpr const char* expose_more_advice =
    "Take the photo again with more light or a longer exposure, and use it as the camera wrote it: darkening "
    "or "
    "more contrast afterwards loses what the dark colours were.";

struct CalibrationOptions;

/// What is read through a calibration on printed patches: a specimen, or print of the patches' own kind
/// (another sheet).
enum class Surface { grown, printed };

class Calibration {
 public:
  Calibration();
  ~Calibration();
  Calibration(Calibration&&) noexcept;
  Calibration& operator=(Calibration&&) noexcept;

  const CalibrationSummary& summary() const;
  const std::vector<PatchResidual>& residuals() const;

  /// One pixel to XYZ (D50), as the patches have it and without uncertainty: for maps and pictures.
  Xyz xyz_from_pixel(const SheetPixel& pixel) const;
  /// Which of a region's pixels hold mirrored light and are left out of its mean.
  std::vector<bool> specular(std::span<const SheetPixel> pixels) const;
  /// The glint-free mean of a region, corrected for the kind of surface, with covariance. `pixels` must not
  /// be empty. `matt_ground`: what a deposit is known to lie on when that does not mirror; its thin places
  /// then count.
  CalibratedColor color_of(std::span<const SheetPixel> pixels, Surface surface = Surface::grown,
                           const std::optional<Xyz>& matt_ground = {}) const;

 private:
  friend Result<Calibration> calibrate(const ChartDefinition&, const ReferenceValues&, const SheetSamples&,
                                       const CalibrationOptions&);
  struct State;
  std::unique_ptr<State> state_;
};

struct CalibrationOptions {
  EncodingKind encoding = EncodingKind::display_referred;
  LightKind light = LightKind::unstated;  ///< changes the uncertainty, never the colour
  std::optional<Vector3> daylight_white;  ///< as in `PhotoEncoding`
  /// Of the lighting field, 1 to 9: 2 misses lamps and shadow edges, 4 wobbles inside the opening.
  int field_order = 3;
};

/// Errors: bad_call (an order of the lighting field that there is not), untrustworthy (too few usable
/// patches, a photo without colour, patches that do not show what the reference says), with the reason in
/// words.
Result<Calibration> calibrate(const ChartDefinition& chart, const ReferenceValues& reference,
                              const SheetSamples& samples, const CalibrationOptions& options);

}  // namespace colorlib
