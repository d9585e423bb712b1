#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/median_color.hpp>
#include <colorlib/specimen/bare_ground.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/coverage.hpp>
#include <colorlib/specimen/foreign_matter.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/region_reading.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>
#include <colorlib/specimen/thickest_tenth.hpp>
#include <colorlib/specimen/two_colors.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double least_pixels = 40, small_region_pixels = 400;
constexpr double most_outside_share = 0.1;  // of a region: beyond the photo
constexpr double clipped_flag_share = 0.005, clipped_refusal_share = 0.15;
constexpr double specular_refusal_share = 0.4, many_glints = 0.1;
constexpr double most_even_de00 = 1.5;  // median dE00 of an even colour's pixels from their middle
constexpr double uneven_flag_de00 = 6;
constexpr double dark_l = 20, white_l = 100;
constexpr double far_lab = 25;
constexpr double foreign_flag_share = 0.005;
constexpr double foreign_rest = 0.25;  // of what foreign matter would do to the mean: its blurred rims
constexpr double structure_cell_mm = 0.4, most_structure_cells = 2000;
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

/// The pixels' colours without those left out as glints.
std::vector<Lab> matt_colors(const Calibration& calibration, const std::vector<SheetPixel>& pixels,
                             bool glints) {
  const std::vector<bool> left_out = glints ? calibration.specular(pixels) : std::vector<bool>(pixels.size());
  std::vector<Lab> colors;
  for (std::size_t i = 0; i < pixels.size(); ++i)
    if (!left_out[i]) colors.push_back(lab_from_xyz(calibration.xyz_from_pixel(pixels[i]), white_d50));
  return colors;
}

/// The pixels taken for glints and the rest as two colours, when the former are one even colour: a white card
/// beside a black one looks mirrored as a whole, but no mirror is even.
std::optional<TwoColors> matt_glints(const Calibration& calibration, const std::vector<SheetPixel>& pixels) {
  const std::vector<bool> shines = calibration.specular(pixels);
  std::array<std::vector<Lab>, 2> groups;
  for (std::size_t i = 0; i < pixels.size(); ++i)
    groups[shines[i]].push_back(lab_from_xyz(calibration.xyz_from_pixel(pixels[i]), white_d50));
  const auto& [rest, glints] = groups;
  if (rest.empty() || glints.empty()) return std::nullopt;
  const Lab middle = median_color(glints);
  std::vector<double> away;
  for (const Lab& lab : glints) away.push_back(difference_ciede2000(lab, middle));
  if (median(std::move(away)) > most_even_de00) return std::nullopt;
  const double share = static_cast<double>(rest.size()) / static_cast<double>(pixels.size());
  return TwoColors{median_color(rest), middle, share, difference_ciede2000(middle, median_color(rest))};
}

/// Takes what is neither deposit nor ground out of the pixels; the share taken.
double take_out_foreign(const Calibration& calibration, const OwnColors& own,
                        std::vector<SheetPixel>& pixels) {
  const auto all = static_cast<double>(pixels.size());
  std::erase_if(pixels, [&](const SheetPixel& pixel) {
    return own.foreign(lab_from_xyz(calibration.xyz_from_pixel(pixel), white_d50));
  });
  return 1 - static_cast<double>(pixels.size()) / all;
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

/// Places of the deposit that was read, small enough to tell thick from thin, without those where it mirrors
/// or lies under something else.
std::vector<Cell> matt_cells(const Photo& photo, const Placement& placement, const Calibration& calibration,
                             const Reading& reading, bool glints) {
  const Cells all(photo, placement, calibration, reading.region, reading.frame, structure_cell_mm);
  std::vector<Cell> cells = all.within(reading.region, reading.clear.get(), most_structure_cells);
  if (glints)
    std::erase_if(cells, [&](const Cell& cell) {
      const auto shines = calibration.specular(cell.pixels);
      return std::find(shines.begin(), shines.end(), true) != shines.end();
    });
  if (reading.own_colors)
    std::erase_if(cells, [&](const Cell& cell) {
      return std::any_of(cell.pixels.begin(), cell.pixels.end(), [&](const SheetPixel& pixel) {
        return reading.own_colors->foreign(lab_from_xyz(calibration.xyz_from_pixel(pixel), white_d50));
      });
    });
  return cells;
}

Error refusal(std::string message, std::string advice) {
  return {ErrorCode::untrustworthy, std::move(message), std::move(advice)};
}

/// Why nothing can be read from these pixels: too few, beyond the photo, over-exposed.
std::optional<Error> unreadable(const RegionPixels& found, const std::string& id) {
  if (found.pixels.empty() && found.outside_share <= most_outside_share)
    return refusal(
        fmt::format(
            "Reading region '{}': its outline encloses no area, at least {:.0f} pixels of the photo are "
            "needed.",
            id, least_pixels),
        "Draw it round the place that is meant: its points may not lie on one line.");
  if (found.outside_share > most_outside_share)
    return refusal(fmt::format("Reading region '{}': {:.0f} % of it lies outside the photo.", id,
                               100 * found.outside_share),
                   "Take the photo again with the whole opening in view.");
  if (found.photo_pixels < least_pixels)
    return refusal(
        fmt::format("Reading region '{}': it covers {:.0f} pixels of the photo, at least {:.0f} are needed.",
                    id, found.photo_pixels, least_pixels),
        "Draw a larger region or move the camera closer.");
  if (found.clipped_share > clipped_refusal_share)
    return refusal(fmt::format("Reading region '{}': {:.0f} % of its pixels are over-exposed.", id,
                               100 * found.clipped_share),
                   "Take the photo again with less exposure or without the glare.");
  return std::nullopt;
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
  const auto refuse = [&](std::string message, std::string advice) {
    return refused(refusal(std::move(message), std::move(advice)));
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
  if (reading.clear && found.area_mm2 > 0 && found.outside_share <= most_outside_share &&
      found.photo_pixels < least_pixels)
    return refuse(fmt::format("Reading region '{}': only {:.0f} pixels of it lie clear of its edges, into "
                              "which the ground's colour is blurred; at least {:.0f} are needed.",
                              region.id, found.photo_pixels, least_pixels),
                  "Move the camera closer and tap on the sheet to focus.");
  if (auto why = unreadable(found, region.id)) return refused(std::move(*why));
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
  auto two = two_colors(colors);
  if (one_color && !two && color.glint_share > many_glints) two = matt_glints(calibration, found.pixels);
  if (two) {
    const auto named = [&](const Lab& lab) {
      return fmt::format("{} (L* {:.0f}, a* {:.0f}, b* {:.0f})",
                         namer.describe(lab, Matrix3::diagonal(1, 1, 1)).name.name, lab.l, lab.a, lab.b);
    };
    return refuse(
        fmt::format("Reading region '{}': it holds two separate colours, {} on {:.0f} % of it and {} on the "
                    "rest, and their mean would be the colour of neither.",
                    region.id, named(two->first), 100 * two->first_share, named(two->second)),
        "Draw the region on one of them with --region; of a film that lies over black and over white read "
        "each in a photo of its own with --two-backings, or use the sheet with two grounds.");
  }
  if (color.glint_share > specular_refusal_share)
    return refuse(fmt::format("Reading region '{}': {:.0f} % of its pixels are glints.", region.id,
                              100 * color.glint_share),
                  "Light it softly from both sides, or move the deposit to matt card.");
  if (color.light_rest > most_light_rest)
    return refuse(fmt::format("Reading region '{}': the light on the paper round it departs by {:.1f} % from "
                              "a smooth one (at most {:.0f} %), as at a shadow's "
                              "edge or under heavy soil, and does not tell how the specimen is lit.",
                              region.id, 100 * color.light_rest, 100 * most_light_rest),
                  even_light_advice);
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
    const double by_height = expanded_de00(color.lab, reading.budget.back().covariance);
    if (height_mm && by_height > says_nothing_de00)
      return refuse(
          fmt::format(
              "Reading region '{}': at the stated {:.0f} mm off the sheet its light is known so little "
              "that the colour would be stated within ΔE00 {:.0f} (95 %); more than {:.0f} says "
              "nothing.",
              region.id, *height_mm, by_height, says_nothing_de00),
          "Raise the sheet to the specimen's level, take the photo again and state the height that is left; "
          "--height is in mm.");
    reading.flags.push_back(flag("off-plane"));
  }
  for (const auto& part : reading.budget) reading.lab_covariance = reading.lab_covariance + part.covariance;
  reading.lab_expanded = expanded_uncertainty(reading.lab_covariance);
  if (reading.lab.l - reading.lab_expanded[0] > white_l)
    return refuse(fmt::format("Reading region '{}': L* {:.1f} ± {:.1f} is lighter than a perfect white "
                              "(100), so what is seen there "
                              "is a lamp or a window mirrored, not the specimen's colour.",
                              region.id, reading.lab.l, reading.lab_expanded[0]),
                  "Light it softly from both sides, or draw the region where nothing shines.");
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
