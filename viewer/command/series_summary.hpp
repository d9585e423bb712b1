#pragma once
/// A series for people, as text.

#include <colorlib/naming/wording.hpp>
#include <colorlib/records/series_record.hpp>
#include <ostream>

namespace tintfall {

struct SeriesSummaryOptions {
  colorlib::Wording wording;
  bool verbose = false;  ///< every frame, not a choice of them
};

void print_series(const colorlib::SeriesRecord& series, const SeriesSummaryOptions& options,
                  std::ostream& out);

}  // namespace tintfall
