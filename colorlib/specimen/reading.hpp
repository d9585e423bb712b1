#pragma once
/// One calibrated colour, as it is reported.

#include <colorlib/base/result.hpp>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/namer.hpp>
#include <colorlib/specimen/flags.hpp>
#include <colorlib/specimen/regions.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// A region's colour, or why it has none.
struct Reading {
  std::string id;
  RegionKind kind = RegionKind::other;
  Region region;                    ///< as used, in the frame of the request
  RegionFrame frame = RegionFrame::chart_mm;  ///< of `region`
  std::optional<Error> refused;     ///< then nothing below is meaningful
  std::size_t pixels = 0;
  Lab lab;                          ///< D50, 2 degree
  Matrix3 lab_covariance{};
  Vector3 lab_expanded{};           ///< k = 2
  double de00_expanded = 0;         ///< 95 % quantile of dE00(truth, reading)
  double glint_share = 0;
  double area_mm2 = 0;              ///< 0 when not placed on a sheet
  double coverage_share = 1;        ///< of the region that is specimen
  ColorDescription words;
  std::vector<BudgetComponent> budget;
  std::vector<Flag> flags;
};

}  // namespace colorlib
