#pragma once
/// The moment at which the drop or the wound first shows.

#include <colorlib/reaction/spot_series.hpp>
#include <cstddef>
#include <optional>
#include <span>

namespace colorlib {

/// What counts as the drop's appearance; the project's own choices.
struct ApplicationFinderOptions {
  double least_change_de00 = 2.0;   ///< of a spot, bruise or water region from the frames before
  double least_spreads = 5;         ///< and in standard deviations of the frames before
  double least_glint_share = 0.04;  ///< a wet drop shines: more glints than before by this much
};

/// The first frame, by time, in which a spot, bruise or water drop differs from all frames before it while
/// untreated regions do not: index into `frames`. None when no frame does, or the first one may show the drop
/// already.
std::optional<std::size_t> find_application(std::span<const TimedReadings> frames,
                                            const ApplicationFinderOptions& options = {});

}  // namespace colorlib
