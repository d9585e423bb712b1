#include <algorithm>
#include <array>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/median_color.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/region_surface_internal.hpp>

namespace colorlib {
namespace {

constexpr double many_glints = 0.1;  // of the pixels
constexpr double most_even_de00 =
    1.5;  // median dE00 from their middle: glints on simulated foil have 2.9 or more, matt card 0.5
constexpr double structure_cell_mm = 0.4, most_structure_cells = 2000;

Lab color_of(const Calibration& calibration, const SheetPixel& pixel) {
  return lab_from_xyz(calibration.xyz_from_pixel(pixel), white_d50);
}

std::optional<TwoColors> matt_glints(const Calibration& calibration, const std::vector<SheetPixel>& pixels) {
  const std::vector<bool> shines = calibration.specular(pixels);
  std::array<std::vector<Lab>, 2> groups;
  for (std::size_t i = 0; i < pixels.size(); ++i)
    groups[shines[i]].push_back(color_of(calibration, pixels[i]));
  const auto& [rest, glints] = groups;
  if (rest.empty() || glints.empty()) return std::nullopt;
  const Lab middle = median_color(glints);
  std::vector<double> away;
  for (const Lab& lab : glints) away.push_back(difference_ciede2000(lab, middle));
  if (median(std::move(away)) > most_even_de00) return std::nullopt;
  const double share = static_cast<double>(rest.size()) / static_cast<double>(pixels.size());
  return TwoColors{median_color(rest), middle, share, difference_ciede2000(middle, median_color(rest))};
}

}  // namespace

std::vector<Lab> matt_colors(const Calibration& calibration, const std::vector<SheetPixel>& pixels,
                             bool glints) {
  const std::vector<bool> left_out = glints ? calibration.specular(pixels) : std::vector<bool>(pixels.size());
  std::vector<Lab> colors;
  for (std::size_t i = 0; i < pixels.size(); ++i)
    if (!left_out[i]) colors.push_back(color_of(calibration, pixels[i]));
  return colors;
}

std::optional<TwoColors> separate_colors(const Calibration& calibration,
                                         const std::vector<SheetPixel>& pixels, const std::vector<Lab>& matt,
                                         double glint_share) {
  const auto two = two_colors(matt);
  return two || glint_share <= many_glints ? two : matt_glints(calibration, pixels);
}

double take_out_foreign(const Calibration& calibration, const OwnColors& own,
                        std::vector<SheetPixel>& pixels) {
  const auto all = static_cast<double>(pixels.size());
  std::erase_if(pixels, [&](const SheetPixel& pixel) { return own.foreign(color_of(calibration, pixel)); });
  return 1 - static_cast<double>(pixels.size()) / all;
}

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
        return reading.own_colors->foreign(color_of(calibration, pixel));
      });
    });
  return cells;
}

}  // namespace colorlib
