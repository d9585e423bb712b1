#pragma once
/// A reading with everything worked out that a window shows of it.

#include <QString>
#include <QStringList>
#include <array>
#include <colorlib/calibration/uncertainty_ellipse.hpp>
#include <colorlib/specimen/reading.hpp>
#include <vector>
#include <viewer/tasks/screen.hpp>

namespace tintfall::viewer {

/// One part of the error budget as a length.
struct BudgetBar {
  QString part;           ///< colorlib's name of it: "lack-of-fit", ...
  double de00 = 0;        ///< 95 % quantile of dE00 had the reading only this uncertainty
};

struct ShownReading {
  colorlib::Reading reading;
  ScreenSwatch swatch;
  QString name, probability, munsell, trade;
  QStringList alternatives;                 ///< "moderate brown (12 %, ΔE00 1.1)"
  std::array<QString, 3> lab, expanded;     ///< with the digits of the command line
  QString de00;
  std::vector<BudgetBar> budget;            ///< largest first
  colorlib::UncertaintyEllipse ellipse;
};

/// For jobs. A refused reading comes back with its refusal alone.
ShownReading shown(const colorlib::Reading& reading, const Screen& screen);

}  // namespace tintfall::viewer
