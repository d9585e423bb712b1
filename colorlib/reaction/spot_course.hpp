#pragma once
/// The path of one spot or bruise through a series: its colour at each moment, less what its controls did
/// meanwhile.

#include <colorlib/specimen/reading.hpp>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

/// The readings of one frame of a series.
struct TimedReadings {
  double seconds = 0;
  std::span<const Reading> readings;
};

struct CoursePoint {
  std::size_t frame = 0;  ///< into the frames given
  double seconds = 0;
  Lab lab;        ///< as read, D50
  Lab corrected;  ///< with the controls' change since before taken out
  /// Of `corrected` against other moments of the same series: what sheet, light and camera do to all frames
  /// alike is left out.
  Matrix3 covariance{};
  double change_de00 = 0;   ///< of `corrected` against the course's `before`
  double control_de00 = 0;  ///< of the controls against themselves before
};

struct SpotCourse {
  std::string id;
  RegionKind kind = RegionKind::spot;
  std::vector<std::string> controls;  ///< those that served
  bool water = false;                 ///< they are water drops; else untreated tissue, or none
  Lab before;                         ///< mean over the frames before zero, or the first frame
  std::size_t before_frames =
      0;  ///< how many these are; 0: the series has none before zero, and the first served
  std::vector<CoursePoint> points;   ///< by time
  std::vector<std::string> remarks;  ///< frames left out and why
};

/// How much of each part of a reading's budget differs from frame to frame of one series, as standard
/// deviations: found on simulated series (docs/explanation/reaction_series.md).
struct FrameRepeatability {
  double share = 0.12;      ///< of lack of fit, light, coefficients and reference
  double floor_lab = 0.08;  ///< of each coordinate: sampling, JPEG
};
Matrix3 frame_covariance(const Reading& reading, const FrameRepeatability& repeatability = {});

/// Courses of all spots and bruises of the frames, in the order of the regions. A spot's controls are the
/// regions it names, else every control and water region. For a spot the water drops among them serve when
/// there are any: they wet the tissue as the reagent does. For a bruise untreated tissue serves. The
/// controls' change is taken out as a factor of X, Y and Z: light and wetting act so. A frame in which the
/// spot or all its controls could not be read is left out, and said. `frames` by time.
std::vector<SpotCourse> spot_courses(std::span<const TimedReadings> frames);

}  // namespace colorlib
