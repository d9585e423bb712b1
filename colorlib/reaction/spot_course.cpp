#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/reaction/spot_course.hpp>
#include <optional>

namespace colorlib {
namespace {

const Reading* reading_of(const TimedReadings& frame, const std::string& id) {
  for (const Reading& reading : frame.readings)
    if (reading.id == id) return reading.refused ? nullptr : &reading;
  return nullptr;
}

std::vector<std::string> controls_of(const Region& spot, RegionKind kind, const TimedReadings& frame,
                                     bool& water) {
  std::vector<std::string> wet, dry;
  for (const Reading& reading : frame.readings) {
    const bool named =
        std::find(spot.controls.begin(), spot.controls.end(), reading.id) != spot.controls.end();
    if (!spot.controls.empty() && !named) continue;
    if (reading.kind == RegionKind::water)
      wet.push_back(reading.id);
    else if (reading.kind == RegionKind::control || named)
      dry.push_back(reading.id);
  }
  water = kind == RegionKind::spot && !wet.empty();
  return water ? wet : dry;
}

/// Mean XYZ of the controls that stand in a frame, relative to their own before; none when no control stands.
struct Controls {
  std::vector<std::string> ids;
  std::vector<Xyz> before;

  std::optional<Vector3> factor(const TimedReadings& frame, Matrix3& covariance) const {
    Vector3 sum{};
    int count = 0;
    Matrix3 noise{};
    for (std::size_t i = 0; i < ids.size(); ++i) {
      const Reading* reading = reading_of(frame, ids[i]);
      if (reading == nullptr) continue;
      const Xyz now = xyz_from_lab(reading->lab, white_d50);
      const double shares[] = {now.x / before[i].x, now.y / before[i].y, now.z / before[i].z};
      for (std::size_t k = 0; k < 3; ++k) sum[k] += shares[k];
      noise = noise + frame_covariance(*reading);
      ++count;
    }
    if (count == 0) return std::nullopt;
    for (double& v : sum) v /= count;
    covariance = (1.0 / (count * count)) * noise;
    return sum;
  }
};

/// Mean XYZ of a region over the frames before zero, or in the first frame where it stands.
std::optional<Xyz> before_of(std::span<const TimedReadings> frames, const std::string& id,
                             std::size_t& used) {
  Xyz sum{};
  used = 0;
  for (const TimedReadings& frame : frames)
    if (frame.seconds < 0)
      if (const Reading* reading = reading_of(frame, id)) {
        const Xyz xyz = xyz_from_lab(reading->lab, white_d50);
        sum = {sum.x + xyz.x, sum.y + xyz.y, sum.z + xyz.z};
        ++used;
      }
  if (used > 0) {
    const double n = static_cast<double>(used);
    return Xyz{sum.x / n, sum.y / n, sum.z / n};
  }
  for (const TimedReadings& frame : frames)
    if (const Reading* reading = reading_of(frame, id)) return xyz_from_lab(reading->lab, white_d50);
  return std::nullopt;
}

SpotCourse course_of(const Reading& first, std::span<const TimedReadings> frames) {
  SpotCourse course;
  course.id = first.id;
  course.kind = first.kind;
  course.controls = controls_of(first.region, first.kind, frames.front(), course.water);
  const auto before = before_of(frames, first.id, course.before_frames);
  if (!before) {
    course.remarks.push_back("It could not be read in any frame.");
    return course;
  }
  course.before = lab_from_xyz(*before, white_d50);
  Controls controls;
  std::size_t ignored = 0;
  for (const std::string& id : course.controls)
    if (const auto xyz = before_of(frames, id, ignored); xyz && std::min({xyz->x, xyz->y, xyz->z}) > 0) {
      controls.ids.push_back(id);
      controls.before.push_back(*xyz);
    }
  course.controls = controls.ids;
  std::size_t unread = 0, uncontrolled = 0;
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const Reading* reading = reading_of(frames[i], first.id);
    if (reading == nullptr) {
      ++unread;
      continue;
    }
    CoursePoint point;
    point.frame = i;
    point.seconds = frames[i].seconds;
    point.lab = point.corrected = reading->lab;
    point.covariance = frame_covariance(*reading);
    if (!controls.ids.empty()) {
      Matrix3 noise;
      const auto factor = controls.factor(frames[i], noise);
      if (!factor) {
        ++uncontrolled;
        continue;
      }
      const Xyz xyz = xyz_from_lab(reading->lab, white_d50);
      point.corrected =
          lab_from_xyz({xyz.x / (*factor)[0], xyz.y / (*factor)[1], xyz.z / (*factor)[2]}, white_d50);
      point.covariance = point.covariance + noise;
      const Xyz& start = controls.before.front();
      point.control_de00 = difference_ciede2000(
          lab_from_xyz(start, white_d50),
          lab_from_xyz({start.x * (*factor)[0], start.y * (*factor)[1], start.z * (*factor)[2]}, white_d50));
    }
    point.change_de00 = difference_ciede2000(course.before, point.corrected);
    course.points.push_back(point);
  }
  if (unread > 0)
    course.remarks.push_back(fmt::format("It could not be read in {} of {} frames.", unread, frames.size()));
  if (uncontrolled > 0)
    course.remarks.push_back(
        fmt::format("In {} frames none of its controls could be read; they were left out.", uncontrolled));
  return course;
}

}  // namespace

Matrix3 frame_covariance(const Reading& reading, const FrameRepeatability& repeatability) {
  const double floor = repeatability.floor_lab * repeatability.floor_lab;
  Matrix3 sum = Matrix3::diagonal(floor, floor, floor);
  for (const BudgetComponent& part : reading.budget) {
    if (part.name == "noise") {
      sum = sum + part.covariance;
    } else if (part.name != "off-plane" && part.name != "black-level") {
      sum = sum + (repeatability.share * repeatability.share) * part.covariance;
    }
  }
  return sum;
}

std::vector<SpotCourse> spot_courses(std::span<const TimedReadings> frames) {
  std::vector<SpotCourse> courses;
  if (frames.empty()) return courses;
  for (const Reading& reading : frames.front().readings)
    if (reading.kind == RegionKind::spot || reading.kind == RegionKind::bruise)
      courses.push_back(course_of(reading, frames));
  return courses;
}

}  // namespace colorlib
