#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/specimen/another_print.hpp>
#include <colorlib/specimen/deposit_finder.hpp>
#include <colorlib/specimen/photo_checks.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/region_refusals_internal.hpp>

namespace colorlib {
namespace {

constexpr double few_patches_share = 0.7;
constexpr double bright_paper_b = -1;  // no plain white paper is bluer against its own patches
constexpr double local_tone_strength =
    0.07;  // ln gain for each ln of the neighbourhood; without it, within 0.05

tl::unexpected<Error> stopped() {
  return fail(ErrorCode::cancelled, "Reading was stopped before it was done.",
              "Start it again when you like.");
}

Result<LocatedSheet> located(const Photo& photo, const ReadRequest& request, Progress& progress) {
  if (request.candidates.empty())
    return fail(ErrorCode::bad_call, "No chart to look for was given.", "Name a chart with --chart.");
  if (!request.corners) return locate_sheet(photo, request.candidates, {}, progress);
  if (request.candidates.size() != 1)
    return fail(ErrorCode::bad_call, "Corners were given without saying of which chart.",
                "Name the chart with --chart.");
  return locate_sheet_by_corners(photo, request.candidates.front(), *request.corners, {}, progress);
}

/// How far beyond the edges of a sheet without openings a region in mm may reach, as a share of the sheet's
/// longer side. The light is continued there from the paper, and less is known of it the further it is: of
/// 270 simulated readings beside the strip (tuning scenes; 98 in 100 truths within the tolerance) the
/// tolerance's median was ΔE00 2 to 5 within 25 mm of its edge, 6 to 10 at 45 to 75 mm; beyond half a side it
/// says nothing.
constexpr double beside_share = 0.5;

double beside_mm(const ChartDefinition& chart) {
  return chart.windows.empty() ? beside_share * std::max(chart.width_mm, chart.height_mm) : 0;
}

/// A region must lie on the sheet, or beside one without openings, or in the photo, whichever it is drawn in.
Result<std::monostate> check_region(const Region& region, RegionFrame frame, const ChartDefinition& chart,
                                    const Photo& photo) {
  const auto [left, top, right, bottom] = region.bounds();
  const bool on_sheet = frame == RegionFrame::chart_mm;
  const double width = on_sheet ? chart.width_mm : photo.width_px() - 1;
  const double height = on_sheet ? chart.height_mm : photo.height_px() - 1;
  const double beside = on_sheet ? beside_mm(chart) : 0;
  const bool outside = left < -beside || top < -beside || right > width + beside || bottom > height + beside;
  if (outside && beside > 0)
    return fail(
        ErrorCode::unreadable_regions,
        fmt::format("Region '{}' reaches from ({:.1f}, {:.1f}) to ({:.1f}, {:.1f}) mm, further than "
                    "{:.0f} mm from the edges of the sheet of {:.0f} x {:.0f} mm.",
                    region.id, left, top, right, bottom, beside, width, height),
        "Lay the specimen nearer to the sheet, where the light on its paper tells how the specimen is "
        "lit; coordinates start at the sheet's top-left corner.");
  if (outside)
    return fail(
        ErrorCode::unreadable_regions,
        fmt::format(
            "Region '{}' reaches from ({:.1f}, {:.1f}) to ({:.1f}, {:.1f}) {}, outside the {} of {:.0f} x "
            "{:.0f} {}.",
            region.id, left, top, right, bottom, on_sheet ? "mm" : "px", on_sheet ? "sheet" : "photo", width,
            height, on_sheet ? "mm" : "px"),
        "Draw the region inside; coordinates start at the top-left corner.");
  return std::monostate{};
}

/// As `read_region` refuses one.
Reading refused_reading(const Region& region, RegionFrame frame, const Error& error) {
  Reading reading;
  reading.id = region.id;
  reading.kind = region.kind;
  reading.region = region;
  reading.frame = frame;
  reading.refused = Error{ErrorCode::untrustworthy, error.message, error.advice};
  return reading;
}

/// Of 360 simulated raw photos by daylight (tuning and broad pools) none reaches 0.8, of 240 under lamps 206
/// are above.
constexpr double surely_no_daylight = 0.9;

bool daylight_said_of_a_lamp(const CalibrationSummary& summary) {
  const LightOdds& odds = summary.light_odds;
  return summary.light == LightKind::daylight && odds.by_white && odds.mixed < 0.5 &&
         odds.unlike_daylight() > surely_no_daylight;
}

void flag_photo(const Photo& photo, PhotoReading& reading) {
  const auto when = [&](bool condition, std::string_view code) {
    if (condition) reading.flags.push_back(flag(code));
  };
  const auto& summary = reading.calibration.summary();
  // What the exposure took is not for want of cleaning; it has flags of its own.
  const auto patches = static_cast<double>(reading.samples.patches.size());
  const auto exposed_away =
      static_cast<double>(over_exposed_patches(reading.samples) + under_exposed_patches(reading.samples));
  when(reading.reference.kind == ReferenceKind::nominal, "nominal-reference");
  when(is_over_exposed(reading.samples), "clipped");
  when(is_under_exposed(reading.samples), "under-exposed");
  when(is_unevenly_lit(summary, reading.samples), "uneven-light");
  when(daylight_said_of_a_lamp(summary), "not-daylight");
  when(summary.paper_used > 0 && summary.paper.b < bright_paper_b, "bright-paper");
  when(std::abs(summary.local_tone) > local_tone_strength, "local-tone");
  const PointMm centre{reading.chart.width_mm / 2, reading.chart.height_mm / 2};
  when(reading.sheet.blur_px > PhotoCheckLimits{}.blur_mm * reading.sheet.placement.px_per_mm(centre),
       "soft-photo");
  when(reading.sheet.curled, "curled-sheet");
  when(summary.patches_used + exposed_away < few_patches_share * patches, "few-patches");
  when(photo.encoding().kind == EncodingKind::display_referred && photo.encoding().profile_assumed,
       "assumed-profile");
}

}  // namespace

Result<PhotoReading> calibrate_photo(const Photo& photo, const ReadRequest& request, Progress& progress) {
  PhotoReading reading;
  progress.report(0, "looking for the sheet");
  auto sheet = located(photo, request, progress);
  if (!sheet) return fail(sheet.error());
  reading.sheet = *sheet;
  reading.chart = request.candidates[sheet->chart];
  if (request.reference_values && request.candidates.size() == 1) {
    reading.reference = *request.reference_values;
  } else if (request.reference_file) {
    auto reference = read_reference(*request.reference_file, reading.chart);
    if (!reference) return fail(reference.error());
    reading.reference = std::move(*reference);
  } else {
    reading.reference = nominal_reference(reading.chart);
  }
  if (progress.cancelled()) return stopped();

  progress.report(0.4, "measuring patches and paper");
  reading.samples = sample_sheet(photo, reading.chart, reading.sheet.placement, {});
  if (progress.cancelled()) return stopped();
  progress.report(0.6, "calibrating");
  CalibrationOptions options;
  options.encoding = photo.encoding().kind;
  options.daylight_white = photo.encoding().daylight_white;
  options.light = request.light;
  auto calibration = calibrate(reading.chart, reading.reference, reading.samples, options);
  if (!calibration) return fail(calibration.error());
  reading.calibration = std::move(*calibration);
  if (progress.cancelled()) return stopped();
  flag_photo(photo, reading);
  if (of_another_print(reading.chart, reading.reference, reading.samples,
                       reading.calibration.summary().check_de00_mean, options))
    reading.flags.push_back(flag("other-print"));
  return reading;
}

namespace {

/// What one region that lies off the sheet does to the others.
enum class OffSheet { refuses_all, refuses_itself };

/// The regions, or what is found, without what their layers hide.
Result<std::vector<Reading>> colors_of(const Photo& photo, const PhotoReading& calibrated,
                                       const std::optional<Regions>& regions, std::optional<double> height_mm,
                                       const Namer& namer, OffSheet off_sheet, Progress& progress) {
  std::vector<Reading> readings;
  const auto read_one = [&](const Region& region, RegionFrame frame) {
    readings.push_back(read_region(photo, calibrated.sheet.placement, calibrated.calibration,
                                   calibrated.chart, region, frame, height_mm, calibrated.sheet.blur_px,
                                   namer));
  };
  if (regions) {
    for (const auto& region : regions->items)
      if (const auto sound = check_region(region, regions->frame, calibrated.chart, photo);
          !sound && off_sheet == OffSheet::refuses_all)
        return fail(sound.error());
    for (const auto& region : regions->items) {
      if (const auto sound = check_region(region, regions->frame, calibrated.chart, photo); !sound)
        readings.push_back(refused_reading(region, regions->frame, sound.error()));
      else
        read_one(region, regions->frame);
      if (progress.cancelled()) return stopped();
    }
    return readings;
  }
  const auto found =
      find_specimens(photo, calibrated.chart, calibrated.sheet.placement, calibrated.calibration, {});
  for (const auto& specimen : found) {
    if (progress.cancelled()) return stopped();
    if (specimen.across_grounds) {
      readings.push_back(
          refused_reading(specimen.region, RegionFrame::chart_mm, across_two_grounds(specimen.region.id)));
      continue;
    }
    read_one(specimen.region, RegionFrame::chart_mm);
    if (specimen.fills_opening) readings.back().flags.push_back(flag("fills-opening"));
    if (specimen.two_grounds && !readings.back().refused)
      readings.back().flags.push_back(flag("two-grounds"));
  }
  if (readings.empty() && calibrated.chart.windows.empty())
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Looking for the specimen: chart {} has no opening to look in.", calibrated.chart.name),
        fmt::format("Say where the specimen lies beside the sheet, in mm from its top-left corner: "
                    "--region deposit@{:.0f},{:.0f},5 is just below the sheet; places above or to the "
                    "left of it are negative.",
                    calibrated.chart.width_mm / 2, calibrated.chart.height_mm + 20));
  if (readings.empty())
    return fail(
        ErrorCode::untrustworthy,
        "Looking for the specimen: nothing in the opening stands out from its ground.",
        "Lay the specimen in the opening on a ground of another colour, or say where it lies with --region.");
  return readings;
}

}  // namespace

Result<std::vector<Reading>> read_regions_of(const Photo& photo, const PhotoReading& calibrated,
                                             const std::optional<Regions>& regions,
                                             std::optional<double> height_mm, const Namer& namer,
                                             Progress& progress, const LayerWish& layers) {
  auto readings = colors_of(photo, calibrated, regions, height_mm, namer, OffSheet::refuses_itself, progress);
  if (readings && (layers.single_grounds || !calibrated.chart.backings.empty())) {
    const PhotoFilms films = sample_films(photo, calibrated.chart, calibrated.sheet.placement,
                                          calibrated.calibration, *readings, layers.surface);
    add_layers(calibrated.chart, calibrated.sheet.placement, films, layers.single_grounds, namer, *readings);
  }
  return readings;
}

Result<PhotoReading> read_photo(const Photo& photo, const ReadRequest& request, const Namer& namer,
                                Progress& progress) {
  auto reading = calibrate_photo(photo, request, progress);
  if (!reading) return fail(reading.error());
  progress.report(0.8, "reading the specimen");
  auto readings =
      colors_of(photo, *reading, request.regions, request.height_mm, namer, OffSheet::refuses_all, progress);
  if (!readings) return fail(readings.error());
  reading->readings = std::move(*readings);
  if (request.masstone || request.keep_films || !reading->chart.backings.empty()) {
    progress.report(0.9, "looking through the layers");
    reading->films = sample_films(photo, reading->chart, reading->sheet.placement, reading->calibration,
                                  reading->readings, request.surface);
    add_layers(reading->chart, reading->sheet.placement, reading->films, request.masstone, namer,
               reading->readings);
  }
  progress.report(1, "done");

  const auto stands = [](const Reading& r) { return !r.refused; };
  if (std::none_of(reading->readings.begin(), reading->readings.end(), stands))
    return fail(*reading->readings.front().refused);
  return reading;
}

}  // namespace colorlib
