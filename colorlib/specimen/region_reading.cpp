#include <algorithm>
#include <cmath>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/bare_ground.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/coverage.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/region_refusals_internal.hpp>
#include <colorlib/specimen/region_surface_internal.hpp>
#include <colorlib/specimen/thickest_tenth.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double small_region_pixels = 400;
constexpr double clipped_flag_share = 0.005;
constexpr double dark_flag_share = 0.005;
constexpr double uneven_flag_de00 = 6;
constexpr double dark_l = 20;
constexpr double far_lab = 25;
constexpr double foreign_flag_share = 0.005;
constexpr double foreign_rest = 0.25;  // of what foreign matter would do to the mean: its blurred rims
constexpr double most_on_sheet =
    0.02;  // of a region beside the sheet: paper or print moves its mean from there
// Only whether the ground is matt, and about which colour it has.
constexpr GroundOptions quick_ground{.ring_mm = 8, .most_cells = 1000};

/// Tissue is moist and rarely flat even when laid flat: its readings scatter more than a dry deposit's.
/// Factors on standard deviations from simulated scenes (docs/explanation/uncertainty.md).
double tissue_factor(RegionKind kind) {
  if (kind == RegionKind::bruise) return 1.25;
  if (kind == RegionKind::spot || kind == RegionKind::water) return 1.1;
  return 1;
}

/// Whether the region lies in none of the openings or, where the sheet has none, on the sheet.
bool outside_openings(const ChartDefinition& chart, const Placement& placement, const Region& region,
                      RegionFrame frame, const std::vector<SheetPixel>& pixels) {
  if (chart.windows.empty()) {
    const RectangleMm sheet{0, 0, chart.width_mm, chart.height_mm};
    const auto on_sheet = std::count_if(pixels.begin(), pixels.end(),
                                        [&](const SheetPixel& pixel) { return sheet.contains(pixel.place); });
    return static_cast<double>(on_sheet) > most_on_sheet * static_cast<double>(pixels.size());
  }
  const auto [left, top, right, bottom] = region.bounds();
  const double x = (left + right) / 2, y = (top + bottom) / 2;
  const PointMm middle = frame == RegionFrame::chart_mm ? PointMm{x, y} : placement.mm_from_px({x, y});
  return std::none_of(chart.windows.begin(), chart.windows.end(),
                      [&](const auto& window) { return window.place.contains(middle); });
}

/// L* of the darkest grey that the photo tells from black.
double bottom_l(const Calibration& calibration, const PointMm& place) {
  const double level = SampleOptions{}.dark_level;
  return lab_from_xyz(calibration.xyz_from_pixel({place, {level, level, level}}), white_d50).l;
}

/// What to know of the pixels and the colour.
void add_flags(const RegionPixels& found, const CalibratedColor& color, const Calibration& calibration,
               const ChartDefinition& chart, Reading& reading) {
  const auto when = [&](bool condition, std::string_view code) {
    if (condition) reading.flags.push_back(flag(code));
  };
  double nearest = std::numeric_limits<double>::max();
  for (const auto& residual : calibration.residuals())
    nearest = std::min(nearest, difference_cie76(chart.patches[residual.patch].nominal_lab, color.lab));
  when(found.clipped_share > clipped_flag_share, "clipped");
  when(found.dark_share > dark_flag_share, "under-exposed");
  when(color.glint_share > specular_flag_share, "specular");
  when(color.lab.l < dark_l, "very-dark");
  when(reading.foreign_share.value_or(0) > foreign_flag_share, "foreign-matter");
  when(color.unevenness_de00 > uneven_flag_de00, "uneven-colour");
  when(found.photo_pixels < small_region_pixels, "small-region");
  when(nearest > far_lab, "far-from-patches");
}

}  // namespace

TermKind trade_terms_for(RegionKind kind) {
  if (kind == RegionKind::bruise) return TermKind::bruise;
  return kind == RegionKind::spot ? TermKind::reaction : TermKind::deposit;
}

double OffPlane::light_share(RegionKind kind, std::optional<double> height_mm, double spread_de00) {
  if (height_mm) return 2 * std::abs(*height_mm) / lamp_distance_mm;
  const bool flat = kind == RegionKind::deposit || kind == RegionKind::substrate;
  const double slanting =
      std::clamp((spread_de00 - even_spread_de00) / (slanting_spread_de00 - even_spread_de00), 0.0, 1.0);
  return flat ? 0 : std::lerp(even_light_share, slanting_light_share, slanting);
}

Reading read_region(const Photo& photo, const Placement& placement, const Calibration& calibration,
                    const ChartDefinition& chart, const Region& region, RegionFrame frame,
                    std::optional<double> height_mm, double blur_px, const Namer& namer) {
  Reading reading;
  reading.id = region.id;
  reading.kind = region.kind;
  reading.region = region;
  reading.frame = frame;
  const auto refused = [&](Error why) {
    reading.refused = std::move(why);
    return reading;
  };
  const auto ground = region.kind == RegionKind::deposit
                          ? bare_ground(photo, chart, placement, calibration, region, frame, {}, quick_ground)
                          : Result<BareGround>(fail(ErrorCode::untrustworthy, "", ""));
  const auto ground_xyz = ground ? std::optional(ground->color.xyz) : std::nullopt;
  if (region.found)
    reading.clear = std::make_shared<ClearPlaces>(
        clear_places(photo, placement, calibration, region, frame, blur_px, ground_xyz));
  RegionPixels found = gather_pixels(photo, placement, region, frame, 4000, reading.clear.get());
  reading.area_mm2 = found.area_mm2;
  if (auto why = unreadable(found, region)) return refused(std::move(*why));
  if (auto why = under_exposed(found, bottom_l(calibration, found.pixels.front().place), region.id))
    return refused(std::move(*why));
  if (ground_xyz)
    reading.coverage_share = coverage_share(
        calibration, reading.clear ? gather_pixels(photo, placement, region, frame).pixels : found.pixels,
        *ground_xyz);
  CalibratedColor color = calibration.color_of(found.pixels);
  if (color.glint_share > 0 && ground_xyz)
    color = calibration.color_of(found.pixels, Surface::grown, ground_xyz);
  // Of the kinds that are one colour as a whole: a spot or a bruise may cover a part of its region.
  const bool one_color = region.kind == RegionKind::deposit || region.kind == RegionKind::substrate;
  const auto colors =
      one_color ? matt_colors(calibration, found.pixels, color.glint_share > 0) : std::vector<Lab>();
  if (one_color)
    if (const auto two = separate_colors(calibration, found.pixels, colors, color.glint_share))
      return refused(two_separate_colors(*two, region.id, !chart.backings.empty(), namer));
  if (auto why = untrustworthy(color, region.id)) return refused(std::move(*why));
  if (ground_xyz) {
    reading.own_colors = OwnColors::beside_foreign(colors, *ground_xyz);
    reading.foreign_share = 0;
  }
  Vector3 by_foreign{};  // what it would do to the mean
  if (reading.own_colors) {
    reading.foreign_share = take_out_foreign(calibration, *reading.own_colors, found.pixels);
    const Lab with = color.lab;
    color =
        calibration.color_of(found.pixels, Surface::grown, color.glint_share > 0 ? ground_xyz : std::nullopt);
    by_foreign = {with.l - color.lab.l, with.a - color.lab.a, with.b - color.lab.b};
  }

  reading.lab = color.lab;
  reading.pixels = static_cast<std::size_t>(found.photo_pixels * (1 - reading.foreign_share.value_or(0)) *
                                            (1 - color.glint_share));
  reading.glint_share = color.glint_share;
  reading.budget = color.budget;
  const double factor = tissue_factor(region.kind) * tissue_factor(region.kind);
  for (auto& part : reading.budget) part.covariance = factor * part.covariance;
  if (reading.own_colors)
    reading.budget.push_back({"foreign-matter", foreign_rest * foreign_rest * outer(by_foreign)});
  if (reading.clear) reading.budget.push_back({"edge", reading.clear->lab_covariance});
  const double light_share =
      OffPlane::light_share(region.kind, height_mm, calibration.summary().lighting_spread_de00);
  if (light_share > 0) {
    reading.budget.push_back(
        {"off-plane", light_share * light_share * outer(proportional_light_direction(color.lab))});
    if (auto why = height_says_nothing(reading.budget.back(), color.lab, height_mm, region.id))
      return refused(std::move(*why));
    reading.flags.push_back(flag("off-plane"));
  }
  for (const auto& part : reading.budget) reading.lab_covariance = reading.lab_covariance + part.covariance;
  reading.lab_expanded = expanded_uncertainty(reading.lab_covariance);
  if (auto why = lighter_than_white(reading)) return refused(std::move(*why));
  reading.de00_expanded = expanded_de00(reading.lab, reading.lab_covariance);
  reading.words =
      namer.describe(reading.lab, reading.lab_covariance, {NameLevel::full, trade_terms_for(region.kind)});

  if (ground)
    reading.tenth = thickest_tenth(matt_cells(photo, placement, calibration, reading, color.glint_share > 0),
                                   *ground, reading.lab, reading.lab_covariance, namer);
  add_flags(found, color, calibration, chart, reading);
  if (outside_openings(chart, placement, region, frame, found.pixels))
    reading.flags.push_back(flag("outside-opening"));
  return reading;
}

}  // namespace colorlib
