#pragma once
/// A series for people, as text.

#include <colorlib/naming/wording.hpp>
#include <colorlib/records/series_record.hpp>
#include <ostream>
#include <string>

namespace tintfall {

struct SeriesSummaryOptions {
  colorlib::Wording wording;
  bool verbose = false;  ///< every frame, not a choice of them
};

/// "counted from ...": what the times of a series count from.
std::string zero_text(colorlib::SeriesZero zero);

void print_series(const colorlib::SeriesRecord& series, const SeriesSummaryOptions& options,
                  std::ostream& out);

}  // namespace tintfall
