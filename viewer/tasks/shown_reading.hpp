#pragma once
/// A reading with everything worked out that a window shows of it.

#include <QString>
#include <QStringList>
#include <array>
#include <colorlib/calibration/uncertainty_ellipse.hpp>
#include <colorlib/specimen/reading.hpp>
#include <optional>
#include <vector>
#include <viewer/tasks/screen.hpp>

namespace tintfall::viewer {

/// One part of the error budget as a length.
struct BudgetBar {
  QString part;     ///< colorlib's name of it: "lack-of-fit", ...
  double de00 = 0;  ///< 95 % quantile of dE00 had the reading only this uncertainty
};

/// What a thin layer would show if it were thick enough to hide its ground, or why that cannot be told.
struct ShownLayer {
  bool refused = false;
  ScreenSwatch swatch;
  QString name, munsell;
  std::array<QString, 3> lab, expanded;
  QString de00;
  QString contrast;  ///< "87 ± 4"; empty: could not be told
  QString method, with;
  QString problem, advice;  ///< of a refused one
};

/// Where a deposit is thickest, when that can be seen beside its mean.
struct ShownTenth {
  QString name;  ///< with its probability
  std::array<QString, 3> lab, expanded;
  QString de00, from_mean;
};

struct ShownReading {
  colorlib::Reading reading;
  ScreenSwatch swatch;
  QString name, probability, munsell, trade;
  QStringList alternatives;              ///< "moderate brown (12 %, ΔE00 1.1)"
  std::array<QString, 3> lab, expanded;  ///< with the digits of the command line
  QString de00;
  std::vector<BudgetBar> budget;  ///< largest first
  std::optional<ShownTenth> tenth;
  std::optional<ShownLayer> layer;  ///< of thin deposits
  colorlib::UncertaintyEllipse ellipse;
};

/// For jobs. A refused reading comes back with its refusal alone.
ShownReading shown(const colorlib::Reading& reading, const Screen& screen);

}  // namespace tintfall::viewer
