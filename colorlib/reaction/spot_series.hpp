#pragma once
/// From the readings of a series' frames to what the kinetics of each spot are fitted to.

#include <colorlib/reaction/kinetics.hpp>
#include <colorlib/specimen/reading.hpp>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

/// The readings of one frame of a series.
struct TimedReadings {
  double seconds = 0;
  std::string photo;  ///< for messages
  std::span<const Reading> readings;
};

/// How much of each part of a reading's budget differs from frame to frame of one series, as standard
/// deviations.
struct FrameRepeatability {
  double share = 0.12;      ///< of lack of fit, light, coefficients and reference
  double floor_lab = 0.08;  ///< of each coordinate: sampling, JPEG
};
/// Of a reading against the same region in other frames: what sheet, light and camera do to all frames alike
/// is left out.
Matrix3 frame_covariance(const Reading& reading, const FrameRepeatability& repeatability = {});

struct SpotSeries {
  std::string id;
  RegionKind kind = RegionKind::spot;
  std::vector<std::string> controls;  ///< the regions that serve as its controls
  ReactionSeries series;
  std::vector<std::size_t> frames;  ///< of the series' times: indices into the frames given
};

/// All spots and bruises of the frames, in the order of the regions. A spot's controls are the regions it
/// names, else every control and water region. Frames in which the spot has no reading are left out of its
/// series. Two frames of one moment are put 1 ms apart. `frames` by time.
std::vector<SpotSeries> spot_series(std::span<const TimedReadings> frames, bool zero_is_application);

/// The same spot with frames marked as left out (`bad_frames`: places in its series, as the fit names them):
/// what its controls were like before is found without them. `frames` as given to `spot_series`.
SpotSeries without_frames(const SpotSeries& spot, const std::vector<std::size_t>& bad_frames,
                          std::span<const TimedReadings> frames);

}  // namespace colorlib
