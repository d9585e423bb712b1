#include <algorithm>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/reaction/followed_regions.hpp>
#include <colorlib/reaction/spot_series.hpp>
#include <set>

namespace colorlib {
namespace {

constexpr double least_step_s = 1e-3;

const Reading* standing(const TimedReadings& frame, const std::string& id) {
  for (const Reading& reading : frame.readings)
    if (reading.id == id) return reading.refused ? nullptr : &reading;
  return nullptr;
}

/// Parts of the budget that all frames share at one colour, but not at colours far from it: those of the
/// sheet's own patches.
bool differs_along_path(const BudgetComponent& part) {
  return part.name == "lack-of-fit" || part.name == "reference" || part.name == "coefficients";
}

Xyz xyz_of(const Reading& reading) { return xyz_from_lab(reading.lab, white_d50); }

/// Mean XYZ of a region up to time zero, or in the first frame where it stands; never of frames left out.
std::optional<Xyz> before_of(std::span<const TimedReadings> frames, const std::string& id,
                             const std::set<std::size_t>& left_out) {
  Xyz sum{};
  double count = 0;
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const TimedReadings& frame = frames[i];
    if (left_out.contains(i)) continue;
    if (frame.seconds > 0 && count > 0) break;
    const Reading* reading = standing(frame, id);
    if (reading == nullptr) continue;
    const Xyz xyz = xyz_of(*reading);
    sum = {sum.x + xyz.x, sum.y + xyz.y, sum.z + xyz.z};
    ++count;
    if (frame.seconds > 0) break;
  }
  if (count == 0 || !(std::min({sum.x, sum.y, sum.z}) > 0)) return std::nullopt;
  return Xyz{sum.x / count, sum.y / count, sum.z / count};
}

/// What happened to a control since before, done to the spot. Light and wetting act as factors of X, Y and Z:
/// a drop that takes 4 L* off a pale tissue takes 2 off a dark stain. So the control is handed on as its
/// colour before plus the change that its factors make to the spot.
ColorState as_acting_on(const Reading& spot, const Reading& control, const Xyz& before) {
  const Xyz now = xyz_of(control), seen = xyz_of(spot);
  const Vector3 factor{now.x / before.x, now.y / before.y, now.z / before.z};
  const Lab without = lab_from_xyz({seen.x / factor[0], seen.y / factor[1], seen.z / factor[2]}, white_d50);
  const Vector3 start = vector_from(lab_from_xyz(before, white_d50)), with = vector_from(spot.lab),
                plain = vector_from(without);
  Vector3 moved;
  for (std::size_t k = 0; k < 3; ++k) moved[k] = start[k] + with[k] - plain[k];
  return {lab_from(moved), frame_covariance(control)};
}

/// `left_out`: indices into `frames`.
SpotSeries series_of(const Reading& spot, std::span<const TimedReadings> frames, bool zero_is_application,
                     const std::set<std::size_t>& left_out) {
  SpotSeries result;
  result.id = spot.id;
  result.kind = spot.kind;
  result.series.zero_is_application = zero_is_application;
  for (const Reading& reading : frames.front().readings)
    if (serves_as_control(reading.id, reading.kind, spot.id, spot.region.controls)) {
      result.controls.push_back(reading.id);
      result.series.controls.push_back({reading.id, reading.kind, {}});
    }
  std::vector<std::optional<Xyz>> before;
  for (const ControlPath& control : result.series.controls)
    before.push_back(before_of(frames, control.id, left_out));
  Matrix3 shared{}, bending{};
  for (std::size_t i = 0; i < frames.size(); ++i) {
    const Reading* reading = standing(frames[i], spot.id);
    if (reading == nullptr) continue;
    auto& times = result.series.seconds;
    times.push_back(times.empty() ? frames[i].seconds
                                  : std::max(frames[i].seconds, times.back() + least_step_s));
    result.series.spot.push_back({reading->lab, frame_covariance(*reading)});
    result.series.frame_names.push_back(frames[i].photo);
    result.frames.push_back(i);
    if (!left_out.empty()) result.series.left_out.push_back(left_out.contains(i));
    shared = shared + reading->lab_covariance;
    for (const BudgetComponent& part : reading->budget)
      if (differs_along_path(part)) bending = bending + part.covariance;
    for (std::size_t k = 0; k < before.size(); ++k) {
      const Reading* beside = before[k] ? standing(frames[i], result.series.controls[k].id) : nullptr;
      const bool sound = beside != nullptr && beside->lab.l > 0;
      result.series.controls[k].frames.push_back(
          sound ? std::optional(as_acting_on(*reading, *beside, *before[k])) : std::nullopt);
      result.series.controls[k].as_read.push_back(
          sound ? std::optional(ColorState{beside->lab, frame_covariance(*beside)}) : std::nullopt);
    }
  }
  if (!result.frames.empty()) {
    result.series.shared_covariance = (1.0 / static_cast<double>(result.frames.size())) * shared;
    result.series.bending_covariance = (1.0 / static_cast<double>(result.frames.size())) * bending;
  }
  return result;
}

}  // namespace

Matrix3 frame_covariance(const Reading& reading, const FrameRepeatability& repeatability) {
  const double floor = repeatability.floor_lab * repeatability.floor_lab;
  Matrix3 sum = Matrix3::diagonal(floor, floor, floor);
  for (const BudgetComponent& part : reading.budget) {
    if (part.name == "noise")
      sum = sum + part.covariance;
    else if (part.name != "off-plane" && part.name != "black-level")
      sum = sum + (repeatability.share * repeatability.share) * part.covariance;
  }
  return sum;
}

std::vector<SpotSeries> spot_series(std::span<const TimedReadings> frames, bool zero_is_application) {
  std::vector<SpotSeries> all;
  if (frames.empty()) return all;
  for (const Reading& reading : frames.front().readings)
    if (reading.kind == RegionKind::spot || reading.kind == RegionKind::bruise)
      all.push_back(series_of(reading, frames, zero_is_application, {}));
  return all;
}

SpotSeries without_frames(const SpotSeries& spot, const std::vector<std::size_t>& bad_frames,
                          std::span<const TimedReadings> frames) {
  std::set<std::size_t> left_out;
  for (const std::size_t bad : bad_frames) left_out.insert(spot.frames[bad]);
  for (const Reading& reading : frames.front().readings)
    if (reading.id == spot.id) return series_of(reading, frames, spot.series.zero_is_application, left_out);
  return spot;
}

}  // namespace colorlib
