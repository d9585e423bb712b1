#pragma once
/// One calibrated colour, as it is reported.

#include <colorlib/base/result.hpp>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/namer.hpp>
#include <colorlib/specimen/flags.hpp>
#include <colorlib/specimen/foreign_matter.hpp>
#include <colorlib/specimen/regions.hpp>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

struct ClearPlaces;

/// What the layer hides, and the colour it would show if it were endlessly thick: the masstone.
struct LayerReading {
  std::string method;                      ///< masstone_method_name; empty when none could be tried
  std::string with;                        ///< the other region, or the other photo, that shows the same film
  std::optional<Error> refused;            ///< then there is no masstone
  std::optional<double> contrast_ratio;    ///< share, 1 = hides its ground wholly; none: could not be told
  double contrast_ratio_expanded = 0;      ///< k = 2
  std::optional<double> scattering_power;  ///< S X at 550 nm
  Lab lab;                                 ///< of the masstone, D50, 2 degree
  Matrix3 lab_covariance{};
  Vector3 lab_expanded{};    ///< k = 2
  double de00_expanded = 0;  ///< 95 % quantile of dE00(true masstone, this)
  ColorDescription words;
};

/// The tenth of a deposit that looks least like its bare ground, as seen, beside the colour of the whole.
struct ThickestTenth {
  Lab lab;  ///< D50, 2 degree
  Matrix3 lab_covariance{};
  Vector3 lab_expanded{};     ///< k = 2
  double de00_expanded = 0;   ///< 95 % quantile of dE00(truth, this)
  double de00_from_mean = 0;  ///< from the reading's own colour
  ColorDescription words;
};

/// How several photos of the same region agreed.
struct PhotoAgreement {
  std::size_t photos = 0;              ///< in which the region was read
  std::vector<std::size_t> outliers;   ///< indices of photos that were left out
  Vector3 repeatability{};             ///< standard deviation of L*, a*, b* between the photos used
  double repeatability_de00 = 0;       ///< rms dE00 of the photos used about the mean
  std::vector<double> de00_from_mean;  ///< of every photo; NaN where it was refused
};

/// A coverage_share from here on is that of a region covered as good as wholly: the rest is within its error.
inline constexpr double full_coverage = 0.98;

/// A tenth so far from the mean is worth a line: less can hardly be seen.
inline constexpr double visible_tenth_de00 = 1;

/// A region's colour, or why it has none.
struct Reading {
  std::string id;
  RegionKind kind = RegionKind::other;
  Region region;                              ///< as used, in the frame of the request
  RegionFrame frame = RegionFrame::chart_mm;  ///< of `region`
  /// Of a region that was found: the part of it that was read, clear of its edges. None: all of it.
  std::shared_ptr<const ClearPlaces> clear;
  std::optional<Error> refused;  ///< then nothing below is meaningful
  std::size_t pixels = 0;
  Lab lab;  ///< D50, 2 degree
  Matrix3 lab_covariance{};
  Vector3 lab_expanded{};    ///< k = 2
  double de00_expanded = 0;  ///< 95 % quantile of dE00(truth, reading)
  double glint_share = 0;
  double area_mm2 = 0;  ///< 0 when not placed on a sheet
  /// Of the region that is not bare ground; none: no deposit, or no matt ground beside it that it stands out
  /// from.
  std::optional<double> coverage_share;
  /// Of the region's pixels that look like neither deposit nor ground and were left out: soil, a smear of
  /// another deposit. None: no deposit, or no matt ground known.
  std::optional<double> foreign_share;
  std::optional<OwnColors> own_colors;  ///< beside foreign matter, of a photo just read; none: no such matter
  ColorDescription words;
  std::optional<ThickestTenth> tenth;       ///< of deposits; none: as for coverage_share, or too small
  std::optional<LayerReading> layer;        ///< of deposits; none: nothing to say
  std::optional<PhotoAgreement> agreement;  ///< of several photos read together
  std::vector<BudgetComponent> budget;
  std::vector<Flag> flags;
};

}  // namespace colorlib
