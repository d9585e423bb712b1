#include <cmath>

#include "tests/scenes/pigments_internal.hpp"

namespace colorlib::scenes {
namespace {

/// Whatever else is in it: a slow fall towards the red and a flat share.
struct Rest {
  double fall_nm, fall, flat;
  double operator()(double nm) const { return fall * std::exp(-(nm - 450) / fall_nm) + flat; }
};
Rest rest(Random& r) {
  const double fall_nm = r.uniform(40, 200), fall = r.chance(0.5) ? r.uniform(0, 0.4) : 0,
               flat = r.uniform(0.02, 0.15);
  return {fall_nm, fall, flat};
}

/// Everything below an edge, anywhere in the visible, steep or soft; half of them with a band beyond it.
Spectrum edge(Random& r) {
  const double at = r.uniform(425, 620), width = std::exp(r.uniform(std::log(13.0), std::log(32.0)));
  const double band = r.chance(0.5) ? r.uniform(0, 0.5) : 0, band_nm = r.uniform(at, 690),
               band_width = r.uniform(24, 60);
  const Rest more = rest(r);
  return spectrum_of(
      [=](double nm) { return step_up(-nm, -at, width) + band * bell(nm, band_nm, band_width) + more(nm); });
}
/// One band anywhere.
Spectrum band(Random& r) {
  const double at = r.uniform(410, 670), below = std::exp(r.uniform(std::log(28.0), std::log(80.0))),
               above = below * r.uniform(0.6, 1.5), violet = r.uniform(0, 1);
  const Rest more = rest(r);
  return spectrum_of(
      [=](double nm) { return bell(nm, at, below, above) + violet * std::exp(-(nm - 390) / 40) + more(nm); });
}
/// Two or three narrow bands at one distance: vibrational structure.
Spectrum bands(Random& r) {
  const double at = r.uniform(430, 660), gap = r.uniform(26, 52), width = r.uniform(16, 26),
               second = r.uniform(0.4, 1), third = r.chance(0.5) ? r.uniform(0.2, 0.9) : 0,
               violet = r.uniform(0, 0.8);
  const Rest more = rest(r);
  return spectrum_of([=](double nm) {
    return bell(nm, at, width) + second * bell(nm, at - gap, width) + third * bell(nm, at - 2 * gap, width) +
           violet * std::exp(-(nm - 390) / 35) + more(nm);
  });
}
/// Two bands that have nothing to do with one another.
Spectrum two_bands(Random& r) {
  const double first = r.uniform(405, 520), first_width = r.uniform(24, 60), second = r.uniform(540, 680),
               second_width = r.uniform(24, 60), share = r.uniform(0.1, 1);
  const Rest more = rest(r);
  return spectrum_of([=](double nm) {
    return bell(nm, first, first_width) + share * bell(nm, second, second_width) + more(nm);
  });
}
/// A slow fall or rise with a wave on it: dull browns, greys and blacks.
Spectrum ramp(Random& r) {
  const double fall = 1 / r.uniform(-0.001, 0.014), wave = r.uniform(0, 0.1), length = r.uniform(25, 60),
               phase = r.uniform(0, 6.28);
  return spectrum_of(
      [=](double nm) { return std::exp(-(nm - 550) / fall) + wave * std::sin(nm / length + phase) + wave; });
}

}  // namespace

std::vector<PigmentFamily> broad_pigments() {
  return {{"edge", edge, 30, 93, true},
          {"band", band, 30, 90, true},
          {"bands", bands, 30, 88, true},
          {"two bands", two_bands, 30, 88, true},
          {"ramp", ramp, 10, 80, true}};
}

}  // namespace colorlib::scenes
