#pragma once
/// Keeping labels over a picture apart.

#include <QRectF>
#include <vector>

namespace tintfall::viewer {

/// The boxes in their order, widget px, each moved down by as much as takes it clear of those before it.
std::vector<QRectF> kept_apart(std::vector<QRectF> boxes);

}  // namespace tintfall::viewer
