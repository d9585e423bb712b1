#include "tests/scenes/sheet_colors.hpp"

#include <fmt/format.h>

#include <cmath>

#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes {
namespace {

Spectrum unit_luminance(const Spectrum& power) {
  return 1 / inner_product(power, observer_1931()[1]) * power;
}

Lab true_lab(const Spectrum& reflectance, const Paper& paper) {
  const LightColor d50{"D50", illuminant("D50"), 1.0};
  const Spectrum leaving = leaving_light(reflectance, paper, d50);
  const auto& observer = observer_1931();
  return lab_of({inner_product(leaving, observer[0]), inner_product(leaving, observer[1]),
                 inner_product(leaving, observer[2])},
                white_d50);
}

}  // namespace

Spectrum leaving_light(const Spectrum& reflectance, const Paper& paper, const LightColor& light) {
  const Spectrum power = unit_luminance(light.power);
  Spectrum leaving = reflectance * power;
  if (paper.brightener <= 0 || light.ultraviolet <= 0) return leaving;
  // Ink over the paper holds back the ultraviolet on its way in and the emission on its way out.
  static const Spectrum d50 = unit_luminance(illuminant("D50"));
  constexpr int violet = 2, peak = 11;  // 390 nm, 435 nm
  const double in = std::sqrt(reflectance[violet] / paper.reflectance[violet]);
  for (int i = 0; i < wave_count; ++i)
    leaving[i] += paper.brightener * light.ultraviolet * d50[peak] * brightener_emission()[i] * in *
                  std::sqrt(reflectance[i] / paper.reflectance[i]);
  return leaving;
}

SheetColors print_sheet(const SheetSettings& sheet, const ChartDefinition& chart, std::uint64_t seed,
                        double reference_sd) {
  Random random(seed, 11);
  const Press press(sheet.inks, sheet.paper);
  SheetColors colors;
  colors.paper = sheet.paper.reflectance;
  colors.marker_ink = press.print({0, 0, 0, 1});
  colors.true_paper = true_lab(colors.paper, sheet.paper);
  const Vector3 cast{random.normal(0, sheet.print_cast_sd), random.normal(0, sheet.print_cast_sd),
                     random.normal(0, sheet.print_cast_sd)};
  for (const Patch& patch : chart.patches) {
    const Lab& nominal = patch.nominal_lab;
    const Lab wanted{nominal.l + cast[0] + random.normal(0, sheet.print_random_sd),
                     nominal.a + cast[1] + random.normal(0, sheet.print_random_sd),
                     nominal.b + cast[2] + random.normal(0, sheet.print_random_sd)};
    colors.patches.push_back(press.print(press.amounts_for(wanted)));
    colors.true_patches.push_back(true_lab(colors.patches.back(), sheet.paper));
  }
  for (const Backing& backing : chart.backings)
    // The white ground of a sheet is its bare paper.
    colors.backings.push_back(
        backing.nominal_lab.l > 90 ? colors.paper : press.print(press.amounts_for(backing.nominal_lab)));

  colors.reference.kind = ReferenceKind::measured;
  colors.reference.source = "simulated instrument";
  for (std::size_t i = 0; i < chart.patches.size(); ++i) {
    const Lab& t = colors.true_patches[i];
    PatchReference r;
    r.id = chart.patches[i].id;
    r.lab = {t.l + random.normal(0, reference_sd), t.a + random.normal(0, reference_sd),
             t.b + random.normal(0, reference_sd)};
    r.standard_uncertainty = {reference_sd, reference_sd, reference_sd};
    colors.reference.patches.push_back(r);
  }
  return colors;
}

SheetColors print_sheet(const SceneSettings& settings, const ChartDefinition& chart) {
  SheetColors colors = print_sheet(settings.sheet, chart, settings.seed, settings.reference_sd);
  if (settings.nominal_reference) {
    colors.reference.kind = ReferenceKind::nominal;
    colors.reference.source = "nominal";
    for (std::size_t i = 0; i < chart.patches.size(); ++i) {
      colors.reference.patches[i].lab = chart.patches[i].nominal_lab;
      colors.reference.patches[i].standard_uncertainty = {
          nominal_reference_uncertainty, nominal_reference_uncertainty, nominal_reference_uncertainty};
    }
  }
  return colors;
}

}  // namespace colorlib::scenes
