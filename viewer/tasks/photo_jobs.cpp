#include <algorithm>
#include <colorlib/exports/photo_tiles.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <viewer/tasks/naming_tables.hpp>
#include <viewer/tasks/photo_jobs.hpp>
#include <viewer/tasks/request_from_setup.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int smallest_level_px = 700;

tl::unexpected<Error> stopped() {
  return fail(ErrorCode::cancelled, "The work was stopped before it was done.",
              "Start it again when you like.");
}

}  // namespace

OpenOutcome open_photo(const OpenParameters& parameters, Progress& progress) {
  progress.report(0, "decoding");
  DecodeLimits limits;
  limits.progress = &progress;
  auto photo = parameters.bytes.isEmpty()
                   ? decode_photo(std::filesystem::path(parameters.path.toStdString()), limits)
                   : decode_photo(std::string_view(parameters.bytes.constData(),
                                                   static_cast<std::size_t>(parameters.bytes.size())),
                                  parameters.path.toStdString(), limits);
  if (!photo) return fail(photo.error());
  if (progress.cancelled()) return stopped();
  auto pyramid =
      PhotoPyramid::build(std::make_shared<const Photo>(std::move(*photo)), smallest_level_px, progress);
  if (!pyramid) return fail(pyramid.error());
  auto opened = std::make_shared<OpenedPhoto>();
  opened->pyramid = std::move(*pyramid);
  opened->bright_end = bright_end_of(opened->pyramid);
  if (parameters.bytes.isEmpty())
    if (auto hash = sha256_of_file(parameters.path.toStdString())) opened->sha256 = std::move(*hash);
  return std::shared_ptr<const OpenedPhoto>(std::move(opened));
}

bool tells_its_light(const CalibratedPhoto& photo) {
  return photo && photo->calibration.summary().light_odds.by_white;
}

Result<SheetOutcome> find_sheet_in(const SheetParameters& parameters, Progress& progress) {
  SheetOutcome outcome;
  const auto request = request_from_setup(parameters.setup, outcome);
  if (!request) return fail(request.error());
  auto sheet = calibrate_photo(parameters.photo->pyramid.photo(), *request, progress);
  if (!sheet) return fail(sheet.error());
  outcome.sheet = std::make_shared<const PhotoReading>(std::move(*sheet));
  return outcome;
}

Result<ReadOutcome> read_regions_in(const ReadParameters& parameters, Progress& progress) {
  const auto& namer = naming_tables();
  if (!namer) return fail(namer.error());
  const Photo& photo = parameters.photo->pyramid.photo();
  auto readings = read_regions_of(photo, *parameters.sheet, parameters.regions, parameters.height_mm, *namer,
                                  progress, parameters.layers);
  if (!readings) return fail(readings.error());
  ReadOutcome outcome;
  for (const Reading& reading : *readings) outcome.readings.push_back(shown(reading, parameters.screen));
  outcome.checks = photo_checks(photo, *parameters.sheet, *readings, parameters.height_mm);
  return outcome;
}

Result<ShownReading> probe_color(const ProbeParameters& parameters, Progress& progress) {
  const auto& namer = naming_tables();
  if (!namer) return fail(namer.error());
  if (progress.cancelled()) return stopped();
  Region disc;
  disc.shape =
      EllipseShape{parameters.place.x, parameters.place.y, parameters.radius_px, parameters.radius_px};
  const RegionPixels found = gather_pixels(
      parameters.photo->pyramid.photo(), parameters.sheet->sheet.placement, disc, RegionFrame::photo_px, 400);
  if (found.pixels.empty())
    return fail(ErrorCode::untrustworthy, "The place lies outside the photo.", "Point inside the photo.");
  const CalibratedColor color = parameters.sheet->calibration.color_of(found.pixels);
  Reading reading;
  reading.lab = color.lab;
  reading.pixels = color.pixels;
  reading.budget = color.budget;
  reading.lab_covariance = color.covariance;
  reading.lab_expanded = expanded_uncertainty(color.covariance);
  reading.de00_expanded = expanded_de00(color.lab, color.covariance);
  reading.words = namer->describe(color.lab, color.covariance);
  return shown(reading, parameters.screen);
}

Result<Region> grow_region_in(const GrowParameters& parameters, Progress& progress) {
  GrowOptions options;
  options.tolerance_de00 = parameters.tolerance_de00;
  return grow_region(parameters.photo->pyramid.photo(), parameters.sheet->chart,
                     parameters.sheet->sheet.placement, parameters.sheet->calibration, parameters.start,
                     options, progress);
}

}  // namespace tintfall::viewer
