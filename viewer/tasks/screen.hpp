#pragma once
/// The screen that colours are shown on.

#include <QColor>
#include <QString>
#include <colorlib/colorimetry/display_transform.hpp>
#include <memory>

namespace tintfall::viewer {

/// A colour as this screen shows it.
struct ScreenSwatch {
  QColor color = QColor(119, 119, 119);
  bool clipped = false;  ///< the screen shows a duller one than was measured
};

/// Shared by all jobs that make pictures.
using Screen = std::shared_ptr<const colorlib::DisplayTransform>;

/// For jobs: the profile in `file`, or sRGB when the name is empty.
colorlib::Result<Screen> screen_from(const QString& file);
ScreenSwatch swatch_of(const colorlib::Lab& lab, const Screen& screen);

}  // namespace tintfall::viewer
