#pragma once
/// The main job as one call: photo -> sheet -> calibration -> readings. Command line, window and tests all go
/// this way.

#include <array>
#include <colorlib/base/progress.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/chart_locator.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/layer_reading.hpp>
#include <colorlib/specimen/reading.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// What the caller knows. Everything optional has the default a user would expect.
struct ReadRequest {
  std::vector<ChartDefinition> candidates;  ///< one when --chart was given, all shipped ones otherwise
  std::optional<std::filesystem::path> reference_file;  ///< read against the chart that was found
  std::optional<ReferenceValues> reference_values;      ///< already read; only with a single candidate
  std::optional<Regions> regions;                       ///< none: the specimen in each opening is found
  std::optional<std::array<PointPx, 4>> corners;        ///< places the only candidate by hand
  std::optional<double> height_mm;        ///< of the specimen above the sheet; none: by region kind
  bool masstone = false;                  ///< of deposits over one ground, too, from their uneven thickness
  bool keep_films = false;                ///< fill `films`, for a second photo over another ground
  LightKind light = LightKind::unstated;  ///< what the user said the light was
  std::string surface;  ///< what the user said it lies on; "foil" is no ground for a masstone
};

/// Everything that was found, for records, overlays and the window.
struct PhotoReading {
  ChartDefinition chart;
  ReferenceValues reference;
  LocatedSheet sheet;
  SheetSamples samples;
  Calibration calibration;
  std::vector<Reading> readings;
  PhotoFilms films;         ///< of the deposits, for a second photo of the same film
  std::vector<Flag> flags;  ///< of the photo as a whole
};

/// The first half: sheet, samples, calibration and the photo's flags; `readings` stays empty. What has been
/// calibrated can be read as often as regions change. Errors: chart_not_found, unreadable_reference,
/// untrustworthy, bad_call, cancelled.
Result<PhotoReading> calibrate_photo(const Photo& photo, const ReadRequest& request, Progress& progress);

/// What is asked about the layers of deposits beyond pairs over the backings of the sheet.
struct LayerWish {
  bool single_grounds = false;  ///< masstones over one ground, too, from their uneven thickness
  std::string surface;          ///< as in ReadRequest
};

/// The second half: `regions`, or the specimen found in each opening, read through what `calibrate_photo`
/// gave (its chart, sheet and calibration; its readings do not matter). Refused regions stand among the
/// readings, those off the sheet or the photo too. Errors: untrustworthy (no specimen found), cancelled.
Result<std::vector<Reading>> read_regions_of(const Photo& photo, const PhotoReading& calibrated,
                                             const std::optional<Regions>& regions,
                                             std::optional<double> height_mm, const Namer& namer,
                                             Progress& progress, const LayerWish& layers = {});

/// Both halves. Errors: chart_not_found, unreadable_reference, unreadable_regions (one lies off the sheet or
/// the photo), untrustworthy, bad_call, cancelled. A refused region is not an error: it stands in `readings`.
/// When every region is refused the error is untrustworthy.
Result<PhotoReading> read_photo(const Photo& photo, const ReadRequest& request, const Namer& namer,
                                Progress& progress);

}  // namespace colorlib
