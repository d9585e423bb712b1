#pragma once
/// What `tintfall watch --applied` says, of photos of which some are still to come.

#include <colorlib/reaction/series_times.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace tintfall {

struct WatchedMoment {
  colorlib::AppliedMoment applied;
  std::string awaited;  ///< the photo it names, while that has not come
};

/// A name that photos have and none of `there` has is that of one to come. Errors: bad_call: any other text
/// that is no moment; 0; a clock time beside an interval.
colorlib::Result<WatchedMoment> watched_moment(const std::string& text,
                                               const std::vector<std::filesystem::path>& there,
                                               const std::optional<double>& interval_s);

}  // namespace tintfall
