#pragma once
/// Figures as the window's language writes them: a comma before the decimals in German, a point in English.
/// What leaves the window as data is written as the command writes it instead.

#include <QString>

namespace tintfall::viewer {

/// With this many decimals; digits are not grouped.
QString figure(double value, int decimals);
/// With as many digits as it needs, at most `digits`.
QString short_figure(double value, int digits = 6);
/// A number of things, grouped where the language does.
QString count_figure(qint64 count);
/// The decimal points of figures in a sentence that was put together elsewhere; what merely has points, as a
/// date, an address or a version, stays.
QString with_figures(QString sentence);

}  // namespace tintfall::viewer
