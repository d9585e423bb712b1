#pragma once
/// What a watch says of a series while it is being photographed.

#include <colorlib/records/series_record.hpp>
#include <iosfwd>
#include <string>

namespace tintfall {

/// One photo: a line for each spot, or why there is none.
void print_frame(const colorlib::SeriesRecord& series, const std::string& photo, std::ostream& out);

/// That times count from another moment than at the last look, if they do.
void print_moved_zero(const colorlib::SeriesRecord& before, const colorlib::SeriesRecord& now,
                      std::ostream& out);

/// The courses so far, and when the next photo would tell most.
void print_running_fit(const colorlib::SeriesRecord& series, std::ostream& out);

}  // namespace tintfall
