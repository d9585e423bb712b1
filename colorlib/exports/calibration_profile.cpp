#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/icc.hpp>
#include <colorlib/colorimetry/icc_input_profile.hpp>
#include <colorlib/exports/calibration_profile.hpp>
#include <colorlib/specimen/region_pixels.hpp>

namespace colorlib {
namespace {

constexpr double linear_gamma = 2.4;  // equal steps of L* are near equal steps of the cube root

/// Value of the file -> what the calibration takes.
double encoded_from_file(const std::vector<float>& curve, double value) {
  if (curve.size() < 2) return value;
  const double place = std::clamp(value, 0.0, 1.0) * static_cast<double>(curve.size() - 1);
  const auto node = std::min(static_cast<std::size_t>(place), curve.size() - 2);
  return curve[node] + (place - static_cast<double>(node)) * (curve[node + 1] - curve[node]);
}

/// The inverse, by bisection: curves of profiles rise.
double file_from_encoded(const std::vector<float>& curve, double encoded) {
  if (curve.size() < 2) return encoded;
  double low = 0, high = 1;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    (encoded_from_file(curve, middle) < encoded ? low : high) = middle;
  }
  return (low + high) / 2;
}

RectangleMm opening_of(const ChartDefinition& chart) {
  return chart.windows.empty() ? RectangleMm{0, 0, chart.width_mm, chart.height_mm}
                               : chart.windows.front().place;
}

/// The largest difference that a light grey's value in the middle shows when taken for one elsewhere in the
/// opening.
double light_over(const PhotoReading& reading, const RectangleMm& opening, const PointMm& middle,
                  const Vector3& value) {
  const auto lab_at = [&](const PointMm& place) {
    return lab_from_xyz(reading.calibration.xyz_from_pixel({place, value}), white_d50);
  };
  const Lab there = lab_at(middle);
  double worst = 0;
  constexpr int steps = 6;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j)
      worst = std::max(worst, difference_ciede2000(there, lab_at({opening.x + opening.width * i / steps,
                                                                  opening.y + opening.height * j / steps})));
  return worst;
}

}  // namespace

Result<CalibrationProfile> calibration_profile(const Photo& photo, const PhotoReading& reading) {
  const PhotoEncoding& encoding = photo.encoding();
  if (encoding.native_to_srgb == IccToWideRgb::wide_to_srgb())
    return fail(ErrorCode::untrustworthy,
                fmt::format("Making a colour profile of '{}': the photo has a lookup-table profile of its "
                            "own, and another cannot "
                            "stand beside it.",
                            photo.name()),
                "Export the photo as sRGB, read it again, and make the profile of that.");
  CalibrationProfile profile;
  const RectangleMm opening = opening_of(reading.chart);
  profile.place = opening.centre();
  const auto lab_of = [&](const Vector3& file) {
    SheetPixel pixel{profile.place, file};
    for (std::size_t k = 0; k < 3; ++k)
      pixel.encoded[k] = encoded_from_file(encoding.to_srgb_curve[k], file[k]);
    return reading.calibration.color_of({&pixel, 1}).lab;
  };
  const bool linear = encoding.kind == EncodingKind::linear_sensor;
  auto bytes = icc_input_profile(lab_of, linear ? linear_gamma : 1.0,
                                 {fmt::format("Tintfall: {} by {}", photo.name(), reading.chart.name),
                                  "No copyright: measured from one photograph"});
  if (!bytes) return fail(bytes.error());
  profile.bytes = std::move(*bytes);
  if (!reading.samples.paper.empty())
    profile.light_de00 = light_over(reading, opening, profile.place, reading.samples.paper.front().encoded);
  return profile;
}

Result<Lab> lab_through_profile(const std::string& profile_bytes, const Photo& photo,
                                const Placement& placement, const Reading& reading) {
  const auto transform = IccToLab::create(profile_bytes);
  if (!transform) return fail(transform.error());
  const RegionPixels found =
      gather_pixels(photo, placement, reading.region, reading.frame, 4000, reading.clear.get());
  if (found.pixels.empty())
    return fail(ErrorCode::unreadable_regions,
                fmt::format("Region '{}' holds no pixel of the photo.", reading.id),
                "Draw it inside the photo.");
  Vector3 sum{};
  double count = 0;
  for (const SheetPixel& pixel : found.pixels) {
    Vector3 file;
    for (std::size_t k = 0; k < 3; ++k)
      file[k] = file_from_encoded(photo.encoding().to_srgb_curve[k], pixel.encoded[k]);
    const Lab lab = transform->lab(file);
    if (reading.own_colors && reading.own_colors->foreign(lab)) continue;
    const Xyz xyz = xyz_from_lab(lab, white_d50);
    ++count;
    sum = {sum[0] + xyz.x, sum[1] + xyz.y, sum[2] + xyz.z};
  }
  if (count == 0) return reading.lab;
  return lab_from_xyz({sum[0] / count, sum[1] / count, sum[2] / count}, white_d50);
}

}  // namespace colorlib
