#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <colorlib/naming/renotation_grid.hpp>

namespace colorlib {
namespace {

// No surface has a CIELAB chroma beyond this; larger input is held, so that the search stays bounded.
constexpr double chroma_limit = 300;
constexpr double smallest_chroma = 1e-9;

}  // namespace

struct MunsellRenotation::Grid {
  RenotationGrid cells;
  Matrix3 to_c = adaptation_matrix(white_d50, white_c, AdaptationMethod::bradford);
  Matrix3 from_c = adaptation_matrix(white_c, white_d50, AdaptationMethod::bradford);
};

Result<MunsellRenotation> MunsellRenotation::load(const std::filesystem::path& file) {
  auto cells = RenotationGrid::load(file);
  if (!cells) return fail(cells.error());
  auto grid = std::make_shared<Grid>();
  grid->cells = std::move(*cells);
  MunsellRenotation renotation;
  renotation.grid_ = std::move(grid);
  return renotation;
}

MunsellMatch MunsellRenotation::munsell_from_lab(const Lab& lab) const {
  if (!std::isfinite(lab.l) || !std::isfinite(lab.a) || !std::isfinite(lab.b)) return {{}, true};
  const Xyz under_c = xyz_from(grid_->to_c * vector_from(xyz_from_lab(lab, white_d50)));
  const Lab lab_c = lab_from_xyz(under_c, white_c);
  const double chroma_ab = std::min(std::sqrt(lab_c.a * lab_c.a + lab_c.b * lab_c.b), chroma_limit);

  MunsellMatch match;
  match.munsell.value = munsell_value_from_luminance(under_c.y);
  constexpr double rounding = 1e-9;
  match.outside = under_c.y < -rounding || under_c.y > 1 + rounding;
  if (chroma_ab < smallest_chroma) return match;

  const auto plane = grid_->cells.plane_at(match.munsell.value);
  const PolarPlace place = grid_->cells.place_of({chroma_ab, std::atan2(lab_c.b, lab_c.a)}, plane);
  match.munsell.hue_step = place.hue_step;
  match.munsell.chroma = place.chroma;
  const double edge = grid_->cells.greatest_chroma(place.hue_step, match.munsell.value);
  if (place.chroma > edge + rounding) {
    match.outside = true;
    match.munsell.chroma = edge;
  }
  return match;
}

Lab MunsellRenotation::lab_from_munsell(const Munsell& munsell) const {
  const double value = std::clamp(munsell.value, 0.0, 10.0);
  const double y = luminance_from_munsell_value(value);
  Lab lab_c = lab_from_xyz({white_c.x * y, y, white_c.z * y}, white_c);
  if (munsell.chroma > 0) {
    const PolarColor polar = grid_->cells.color_at({wrapped_hue_step(munsell.hue_step), munsell.chroma},
                                                   grid_->cells.plane_at(value));
    lab_c.a = polar.chroma_ab * std::cos(polar.hue_angle_rad);
    lab_c.b = polar.chroma_ab * std::sin(polar.hue_angle_rad);
  }
  const Xyz under_d50 = xyz_from(grid_->from_c * vector_from(xyz_from_lab(lab_c, white_c)));
  return lab_from_xyz(under_d50, white_d50);
}

double MunsellRenotation::greatest_chroma(double hue_step, double value) const {
  return grid_->cells.greatest_chroma(wrapped_hue_step(hue_step), value);
}

}  // namespace colorlib
