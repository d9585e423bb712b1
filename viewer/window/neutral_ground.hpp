#pragma once
/// The grey that surrounds every colour to be judged, the same in light and dark: L* 50, no hue.

#include <QColor>

namespace tintfall::viewer {

inline QColor neutral_ground() { return {119, 119, 119}; }

}  // namespace tintfall::viewer
