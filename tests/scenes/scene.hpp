#pragma once
/// The simulated photograph: what is set, what comes out, and the truth beside it.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "tests/scenes/cameras.hpp"
#include "tests/scenes/development.hpp"
#include "tests/scenes/jpeg_codec.hpp"
#include "tests/scenes/light_field.hpp"
#include "tests/scenes/pigments.hpp"
#include "tests/scenes/printed_sheet.hpp"
#include "tests/scenes/view.hpp"

namespace colorlib::scenes {

enum class Condition {
  daylight_linear,
  daylight_phone,
  lamp_linear,
  lamp_phone,
  fluorescent_phone,
  two_lights_linear,
  two_lights_phone,
  foil_linear,
  foil_phone,
  grid_unmarked,      ///< phone, daylight; meant for grid_chart()
  raised,             ///< phone; pieces of caps and stems, above the sheet and sloped
  curled,             ///< phone
  local_tone,         ///< phone with local tone mapping
  brightened_paper,   ///< phone, daylight
  thin_two_backings,  ///< phone; thin films across a black and a white half
  thin_paper,         ///< phone; thin films of uneven thickness on white card
  shadow_edge,        ///< phone; a shadow across the window: to be refused or widened
  soiled_paper,       ///< phone; smudges on paper and patches since they were measured
  nominal_sheet,      ///< phone; a printed sheet that nobody measured
};
std::string condition_name(Condition condition);
/// By name; empty when there is none such.
std::optional<Condition> condition_from(const std::string& name);
std::vector<Condition> all_conditions();

/// What lies in the chart's windows under the specimens.
enum class Substrate { card_white, card_grey, card_black, foil, half_black_half_white };

struct SpecimenSettings {
  std::string id = "A";
  RegionKind kind = RegionKind::deposit;
  std::optional<EllipseShape> place_mm;  ///< none: placed at random in a window
  double radius_mm = 7;                  ///< mean radius when placed at random
  Pigment pigment;
  /// Scattering power S X of the layer (at 550 nm); 0: endlessly thick.
  double thickness = 0;
  double thickness_spread = 0.25;    ///< relative sd of thickness from place to place
  double scattering_exponent = 0.4;  ///< S falls with wavelength to this power
  double gill_pitch_mm = 0,
         gill_depth = 0;  ///< lines that modulate thickness (thin) or strength (thick): relative amplitude
  double strength_spread = 0.08;  ///< relative sd of pigment strength from place to place (thick)
  double grain = 0.02;            ///< relative sd of small shadows between grains
  bool print_pattern =
      false;                 ///< gills radiate from a bare spot where the stem was, as in a whole cap's print
  double gap_share = 0;      ///< of the area where the substrate lies bare
  double soil_share = 0;     ///< of the area under specks of dark soil, about 0.5 mm
  double smear_mm = 0;       ///< width of a streak of another deposit across it; 0: none
  Pigment smear;             ///< of that streak
  double gloss = 0;          ///< share of the area with wet highlights
  double gloss_level = 0.6;  ///< their strength, in units of a white's radiance
  double height_mm = 0, slope_deg = 0, slope_direction_deg = 0;  ///< above and against the sheet
};

struct SheetSettings {
  InkSet inks;
  Paper paper;
  double print_cast_sd = 0.8;    ///< of the common error of all patches, per Lab coordinate
  double print_random_sd = 1.8;  ///< of each patch's own
  CurlSettings curl;
  double soil_share = 0;  ///< of the paper and patches under faint smudges
};

struct SensorSettings {
  double paper_level = 0.78;  ///< of the brightest paper, share of full scale
  double full_well = 12000;   ///< electrons at full scale: shot noise
  double read_noise = 6;      ///< electrons
  double black_offset = 0;    ///< share of full scale
  /// What a white in daylight reads more by than the raw file says, a channel: bodies of a model differ.
  Vector3 unlike_its_matrix{1, 1, 1};
  double flare = 0;         ///< share of the picture's mean light that the lens spreads everywhere
  double blur_px = 0.8;     ///< standard deviation of the lens's blur
  double vignetting = 0.1;  ///< loss at the frame's corner
};

/// A second sheet on the same table, beside the first: for carrying reference values from one to the other.
struct SecondSheet {
  ChartDefinition chart;
  SheetSettings sheet;
  std::uint64_t seed = 2;       ///< of its print errors
  double x_mm = 0, y_mm = 160;  ///< its top-left corner in the first sheet's coordinates
  double rotation_deg = 0;      ///< about that corner
};

/// Everything that decides a scene. Fields may be changed after random_scene().
struct SceneSettings {
  std::string name;
  std::uint64_t seed = 1;        ///< of what lies there: print errors, places, textures
  std::uint64_t photo_seed = 1;  ///< of the photograph: noise
  Pool pool = Pool::tuning;
  bool linear = false;  ///< sensor values instead of a phone's JPEG
  ViewSettings view;
  std::vector<LightSettings> lights;  ///< one or two
  Camera camera;
  SensorSettings sensor;
  DevelopmentSettings development;
  SheetSettings sheet;
  Substrate substrate = Substrate::card_white;
  bool nominal_reference = false;
  double reference_sd = 0.2;  ///< error of each reference coordinate, and its stated STDEV
  std::vector<SpecimenSettings> specimens;
  std::optional<SecondSheet> second;
  double table_lightness = 1;  ///< of the table around the sheet, factor
  std::optional<ExifNote> exif;
  bool glint_truth = false;  ///< true: `glint_mask`, which takes longer than all the rest
};

/// A scene of a kind, with everything else drawn at random. Same arguments, same scene, on every platform.
/// Only the accuracy tests may ask for Pool::held_out and Pool::measured.
SceneSettings random_scene(Condition condition, std::uint64_t seed, Pool pool = Pool::tuning);

struct SpecimenTruth {
  std::string id;
  RegionKind kind = RegionKind::deposit;
  Region region;     ///< mm on the sheet, inside the specimen
  Lab as_seen;       ///< D50: mean XYZ of the region's true reflectance, gloss excluded
  Lab covered_mean;  ///< the same over the covered part alone, without bare gaps
  /// Mean XYZ of the tenth of its 0.4 mm cells where the layer is thickest (endlessly thick: where the colour
  /// is farthest from the ground's).
  Lab thickest_tenth;
  std::optional<Lab> masstone;  ///< of thin layers
  double contrast_ratio = 1;    ///< mean Y over black (0.04) / mean Y over white (0.85); 1 for opaque
  double coverage_share = 1;    ///< of the region that is not bare gap
  double foreign_share = 0;     ///< of the region under soil or smear
  double height_mm = 0, slope_deg = 0;
  std::string pigment_family;
};

struct Scene {
  Photo photo;
  std::string jpeg_bytes;         ///< the file, when developed by a phone; what `photo` was decoded from
  ReferenceValues reference;      ///< as measured with its error, or nominal
  std::vector<Lab> true_patches;  ///< D50, in the chart's order
  std::vector<Lab> second_true_patches;  ///< of the second sheet, in its chart's order
  std::array<PointPx, 4> second_corners_px{};
  Lab true_paper;
  std::vector<SpecimenTruth> specimens;
  View view;                       ///< the true mm <-> px
  std::vector<LightField> fields;  ///< one a light
  ImageF paper_light;  ///< what bare paper would read everywhere in the sheet's plane: camera RGB, linear,
                       ///< before noise; every 8th pixel
  ImageF paper_shown;  ///< the same as the file would hold it: developed for a phone, else equal to
                       ///< `paper_light`; every 8th pixel, without local tone mapping
  Image8
      glint_mask;  ///< 1 channel, 255 where specular light moves the pixel by more than 2 dE00; empty: none
  std::array<PointPx, 4> corners_px{};  ///< of the sheet: top-left, top-right, bottom-right, bottom-left
};

/// Renders. A chart without windows gets its specimens on a card beside the sheet (their regions then lie off
/// the sheet). Throws std::runtime_error when the specimens do not fit the chart's windows or colord-data is
/// missing.
Scene render(const SceneSettings& settings, const ChartDefinition& chart);

/// A place of the second sheet in the first one's coordinates.
PointMm first_from_second(const SecondSheet& second, const PointMm& p);
/// The regions of the truth, as `--regions` takes them.
Regions true_regions(const Scene& scene);
/// The reference as CGATS.17 text with STDEV columns.
std::string reference_text(const Scene& scene, const ChartDefinition& chart);
/// The truth as JSON text.
std::string truth_text(const SceneSettings& settings, const Scene& scene, const ChartDefinition& chart);

}  // namespace colorlib::scenes
