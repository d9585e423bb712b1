#pragma once
/// What diagrams and scales are drawn from.

#include <QColor>
#include <QList>
#include <colorlib/base/progress.hpp>
#include <colorlib/naming/name_map.hpp>

namespace tintfall::viewer {

/// The names round a colour, `nodes` across; empty when the tables cannot be read.
colorlib::NameMap names_round(const colorlib::Lab& centre, double half_width, int nodes);
/// The shades of the difference picture from 0 to its full value.
QList<QRgb> difference_shades(int count);

}  // namespace tintfall::viewer
