#include <fmt/format.h>

#include <algorithm>
#include <colorlib/specimen/photo_checks.hpp>

namespace colorlib {
namespace {

PhotoCheck check(std::string code, bool attend, std::string measured, std::string_view advice) {
  return {std::move(code), attend ? CheckState::attend : CheckState::fine, std::move(measured),
          attend ? std::string(advice) : std::string()};
}

double brightest_paper(const PhotoReading& reading) {
  double brightest = 0;
  for (const auto& paper : reading.samples.paper)
    brightest = std::max(brightest, (paper.encoded[0] + paper.encoded[1] + paper.encoded[2]) / 3);
  return brightest;
}

PhotoCheck exposure(const Photo& photo, const PhotoReading& reading, const PhotoCheckLimits& limits) {
  const bool linear = photo.encoding().kind == EncodingKind::linear_sensor;
  const double brightest = brightest_paper(reading);
  const std::string measured =
      fmt::format("brightest paper at {:.0f} % of full scale, {} of {} patches over-exposed", 100 * brightest,
                  over_exposed_patches(reading.samples), reading.samples.patches.size());
  if (is_over_exposed(reading.samples, limits.clipped_patches_share))
    return check("exposure", true, measured,
                 "Expose less (about -0.7 EV), so that bare paper is bright but not white.");
  const bool dark = brightest < (linear ? limits.dark_paper_linear : limits.dark_paper);
  return check("exposure", dark, measured,
               "Use more light or a longer exposure; brightening afterwards does not help.");
}

PhotoCheck glare(const PhotoReading& reading, const std::vector<Reading>& readings,
                 const PhotoCheckLimits& limits) {
  const auto glaring = std::count_if(
      reading.samples.patches.begin(), reading.samples.patches.end(),
      [&](const PatchSample& sample) { return sample.outlier_share > limits.glare_outlier_share; });
  double glints = 0;
  for (const auto& item : readings) glints = std::max(glints, item.glint_share);
  const bool attend =
      20 * static_cast<std::size_t>(glaring) > reading.samples.patches.size() || glints > limits.glint_share;
  return check("glare", attend,
               fmt::format("{} patches with glare or dust, at most {:.1f} % glints in a region", glaring,
                           100 * glints),
               "Light from the sides at about 45 degrees, print on matt paper, blot wet tissue.");
}

PhotoCheck size_and_tilt(const PhotoReading& reading, const PhotoCheckLimits& limits, bool tilt) {
  const Placement& placement = reading.sheet.placement;
  const double width = reading.chart.width_mm, height = reading.chart.height_mm;
  double least = placement.px_per_mm({0, 0}), most = least;
  for (const PointMm& corner : {PointMm{width, 0}, PointMm{width, height}, PointMm{0, height}}) {
    least = std::min(least, placement.px_per_mm(corner));
    most = std::max(most, placement.px_per_mm(corner));
  }
  if (!tilt)
    return check("sheet-size", least < limits.px_per_mm,
                 fmt::format("{:.1f} to {:.1f} pixels a millimetre", least, most),
                 "Move closer or use the full resolution of the camera.");
  return check("tilt", most > limits.scale_ratio * least,
               fmt::format("nearest corner shown {:.2f} times as large as the farthest", most / least),
               "Hold the camera parallel to the sheet and step back a little.");
}

PhotoCheck light(const CalibrationSummary& summary) {
  const double unlike = summary.light_odds.unlike_daylight();
  if (summary.light != LightKind::unstated)
    return check("light", false, fmt::format("you said {}", light_kind_name(summary.light)), "");
  if (!summary.light_odds.by_white)
    return {
        "light", CheckState::unknown, "kind not said",
        "One photo does not tell every lamp from daylight: say what the light was, and the tolerance fits "
        "it."};
  const std::string measured =
      fmt::format("by the raw file's own daylight white {:.0f} % likely a lamp or a tube", 100 * unlike);
  if (unlike > 0.5) return check("light", false, measured, "");
  return {"light", CheckState::unknown, measured,
          "A lamp as cool as daylight passes for it: if it was one, say so, and the tolerance fits it."};
}

}  // namespace

std::vector<PhotoCheck> photo_checks(const Photo& photo, const PhotoReading& reading,
                                     const std::vector<Reading>& readings, std::optional<double> height_mm,
                                     const PhotoCheckLimits& limits) {
  const CalibrationSummary& summary = reading.calibration.summary();
  const double scale =
      reading.sheet.placement.px_per_mm({reading.chart.width_mm / 2, reading.chart.height_mm / 2});
  std::vector<PhotoCheck> checks;
  checks.push_back(check("sharpness", reading.sheet.blur_px > limits.blur_mm * scale,
                         fmt::format("borders spread over {:.1f} px ({:.2f} mm)", reading.sheet.blur_px,
                                     reading.sheet.blur_px / scale),
                         "Rest the camera on something and tap on the sheet to focus."));
  checks.push_back(exposure(photo, reading, limits));
  checks.push_back(glare(reading, readings, limits));
  checks.push_back(
      check("even-light", is_unevenly_lit(summary, reading.samples, limits.lighting_spread_de00),
            fmt::format("light differs by ΔE00 {:.1f} across the sheet", summary.lighting_spread_de00),
            "Move the lamp further away or use two sides, and keep shadow edges off the sheet."));
  checks.push_back(light(summary));
  checks.push_back(size_and_tilt(reading, limits, false));
  checks.push_back(size_and_tilt(reading, limits, true));
  checks.push_back(
      check("flatness", reading.sheet.curled,
            fmt::format("patch edges lie within {:.2f} mm of a flat sheet", reading.sheet.flatness_mm),
            "Fix the sheet to a stiff board."));
  const bool in_plane = std::all_of(readings.begin(), readings.end(), [](const Reading& item) {
    return item.kind == RegionKind::deposit || item.kind == RegionKind::substrate;
  });
  if (height_mm)
    checks.push_back(
        check("height", false, fmt::format("you said {:.0f} mm above the sheet", *height_mm), ""));
  else
    checks.push_back(
        {"height", CheckState::unknown,
         in_plane ? "taken to lie in the sheet's plane" : "not known; the uncertainty of L* allows for it",
         "One photo cannot show how high the specimen stands: level it with the paper, or say the height."});
  checks.push_back(
      check("reference", reading.reference.kind == ReferenceKind::nominal,
            fmt::format("values of the patches: {}", reference_kind_name(reading.reference.kind)),
            "Have the sheet measured, or carry values over from a measured one: this is the largest gain."));
  return checks;
}

}  // namespace colorlib
