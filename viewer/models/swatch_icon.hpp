#pragma once
/// A colour as a list shows it.

#include <QColor>
#include <QIcon>

namespace tintfall::viewer {

/// The same colour whether its row is chosen or not: Qt would tint the picture of a chosen row.
QIcon swatch_icon(const QColor& color);

}  // namespace tintfall::viewer
