#pragma once
/// The jobs of one photo: parameters in, outcome out. Each runs in a TaskLane, never on the window's thread.

#include <QByteArray>
#include <QString>
#include <array>
#include <colorlib/image/photo_pyramid.hpp>
#include <colorlib/records/record.hpp>
#include <colorlib/specimen/grown_region.hpp>
#include <colorlib/specimen/photo_checks.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <memory>
#include <optional>
#include <vector>
#include <viewer/tasks/shown_reading.hpp>

namespace tintfall::viewer {

/// What the user said about a photo, beside the regions.
struct PhotoSetup {
  QString chart;      ///< a shipped chart's name or a definition file; empty: the markers tell
  QString reference;  ///< file of measured values; empty: nominal
  QString sheet;      ///< label of a printed sheet in the list of sheets; goes before the two above
  std::optional<std::array<colorlib::PointPx, 4>> corners;  ///< placed by hand
  std::optional<double> height_mm;
  bool masstone = false;  ///< of deposits over one ground, too
  colorlib::Subject subject;
};

struct OpenedPhoto {
  colorlib::PhotoPyramid pyramid;
  double bright_end = 1;
  std::string sha256;  ///< of the file; empty for a pasted picture
};
struct OpenParameters {
  QString path;
  QByteArray bytes;  ///< of a pasted picture; then `path` is only its name
};
using OpenOutcome = colorlib::Result<std::shared_ptr<const OpenedPhoto>>;
OpenOutcome open_photo(const OpenParameters& parameters, colorlib::Progress& progress);

/// A photo with its sheet found and calibrated.
using CalibratedPhoto = std::shared_ptr<const colorlib::PhotoReading>;
/// A raw file that tells the kind of light.
bool tells_its_light(const CalibratedPhoto& photo);

struct SheetParameters {
  std::shared_ptr<const OpenedPhoto> photo;
  PhotoSetup setup;
};
struct SheetOutcome {
  CalibratedPhoto sheet;
  QString label, printed;  ///< of the printed sheet that was named
};
colorlib::Result<SheetOutcome> find_sheet_in(const SheetParameters& parameters, colorlib::Progress& progress);

struct ReadParameters {
  std::shared_ptr<const OpenedPhoto> photo;
  CalibratedPhoto sheet;
  std::optional<colorlib::Regions> regions;  ///< none: the specimen in each opening is looked for
  std::optional<double> height_mm;
  colorlib::LayerWish layers;
  Screen screen;
};
struct ReadOutcome {
  std::vector<ShownReading> readings;
  std::vector<colorlib::PhotoCheck> checks;
};
colorlib::Result<ReadOutcome> read_regions_in(const ReadParameters& parameters, colorlib::Progress& progress);

struct ProbeParameters {
  std::shared_ptr<const OpenedPhoto> photo;
  CalibratedPhoto sheet;
  colorlib::PointPx place;
  double radius_px = 3;
  Screen screen;
};
/// The colour round one place of the photo. Errors: untrustworthy when the place is outside the photo.
colorlib::Result<ShownReading> probe_color(const ProbeParameters& parameters, colorlib::Progress& progress);

struct GrowParameters {
  std::shared_ptr<const OpenedPhoto> photo;
  CalibratedPhoto sheet;
  colorlib::PointMm start;
  double tolerance_de00 = 5;
};
colorlib::Result<colorlib::Region> grow_region_in(const GrowParameters& parameters,
                                                  colorlib::Progress& progress);

}  // namespace tintfall::viewer
