#pragma once
/// A reaction as a diagram: change and colour over time, with the fitted course and the colours seen.

#include <colorlib/base/result.hpp>
#include <colorlib/exports/picture_format.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <colorlib/records/series_record.hpp>
#include <string>
#include <vector>

namespace colorlib {

struct SeriesPlot {
  std::string title;     ///< "spot A: KOH 5 % on cap"
  std::string sentence;  ///< under the title; may be empty
  const Kinetics* kinetics = nullptr;
  std::vector<double> seconds;  ///< of `seen`
  std::vector<Lab> seen;        ///< as photographed, D50: the colour strip
  bool zero_is_application = true;
};

/// "QH-03, spot A: KOH 5 % on cap", as far as it was said.
std::string spot_title(const SpotRecord& spot, const SeriesRecord& series);

/// What is drawn of a spot that has a course. It refers to `spot`.
SeriesPlot series_plot_of(const SpotRecord& spot, const SeriesRecord& series);

/// The bytes of a picture of 640 x 560 points. Above: change in dE00 against the untreated colour with 95 %
/// bars and the fit, onset and half time marked with their intervals. Below: L*, a*, b* of the spot less what
/// its controls did, with 95 % bars and fit. Between: the colours as seen, along the time axis. Long series
/// have a square-root time axis, which says so. Errors: bad_call (no kinetics or no frame), cannot_write.
Result<std::string> draw_series_plot(const SeriesPlot& plot, PictureFormat format);

}  // namespace colorlib
