#include <cmath>

#include "tests/scenes/pigments_internal.hpp"

namespace colorlib::scenes::held_out {
namespace {

/// One steep edge in the blue-green with a shoulder: pale to deep yellow.
Spectrum edged_yellow(Random& r) {
  const double edge = r.uniform(462, 500), width = r.uniform(11, 18), shoulder = r.uniform(0.02, 0.10);
  return spectrum_of(
      [=](double nm) { return step_up(-nm, -edge, width) + shoulder * bell(nm, edge + 45, 30); });
}
/// A band with vibrational structure in the yellow: lilac and slate.
Spectrum structured_lilac(Random& r) {
  const double at = r.uniform(565, 600), width = r.uniform(13, 20), violet = r.uniform(0.1, 0.4);
  return spectrum_of([=](double nm) {
    return bell(nm, at, width) + 0.7 * bell(nm, at - 40, width) + 0.35 * bell(nm, at - 78, width) +
           violet * bell(nm, 390, 30) + 0.15;
  });
}
/// One very broad band in the blue-green: tawny and red-brown.
Spectrum broad_tawny(Random& r) {
  const double at = r.uniform(470, 505), width = r.uniform(52, 78), floor = r.uniform(0.03, 0.12);
  return spectrum_of([=](double nm) { return bell(nm, at, 90, width) + floor; });
}
/// Two narrow bands, violet and red: dull green.
Spectrum narrow_green(Random& r) {
  const double violet = r.uniform(425, 445), red = r.uniform(655, 675), share = r.uniform(0.25, 0.55);
  return spectrum_of([=](double nm) {
    return bell(nm, violet, 40, 30) + share * bell(nm, red, 26, 16) + 0.12 * bell(nm, 610, 24) +
           0.12 * std::exp(-(nm - 480) / 110);
  });
}
/// Grey-brown with a wavy absorption: smoke and fuscous.
Spectrum smoke(Random& r) {
  const double slope = r.uniform(0.0008, 0.0028), wave = r.uniform(0.03, 0.12), at = r.uniform(0, 6.28);
  return spectrum_of([=](double nm) { return 1 - slope * (nm - 550) + wave * std::sin(nm / 38 + at); });
}
/// A twin band in the green on a pale ground: vinaceous.
Spectrum vinaceous(Random& r) {
  const double at = r.uniform(508, 525), gap = r.uniform(34, 46), second = r.uniform(0.5, 1.0),
               violet = r.uniform(0.4, 1.3);
  return spectrum_of([=](double nm) {
    return bell(nm, at, 17) + second * bell(nm, at + gap, 15) + violet * step_up(-nm, -425, 14) + 0.12;
  });
}
/// Pale cream with absorption that ends early and a faint dip in the red.
Spectrum pale_edge(Random& r) {
  const double edge = r.uniform(412, 450), dip = r.uniform(0.01, 0.07);
  return spectrum_of([=](double nm) { return step_up(-nm, -edge, 26) + dip * bell(nm, 640, 40) + 0.02; });
}
/// Reddish black: absorption that drops only beyond 660 nm.
Spectrum red_black(Random& r) {
  const double edge = r.uniform(655, 700), width = r.uniform(16, 30), left = r.uniform(0.25, 0.7);
  return spectrum_of([=](double nm) { return left + (1 - left) * step_up(-nm, -edge, width); });
}
/// Blue-green stain: one lopsided band in the red.
Spectrum blue_green(Random& r) {
  const double at = r.uniform(625, 660), below = r.uniform(50, 75);
  return spectrum_of([=](double nm) { return bell(nm, at, below, 34) + 0.35 * bell(nm, 400, 28) + 0.08; });
}

}  // namespace

std::vector<PigmentFamily> pigments() {
  return {{"edged yellow", edged_yellow, 72, 90, true},
          {"structured lilac", structured_lilac, 34, 72, true},
          {"broad tawny", broad_tawny, 30, 72, true},
          {"narrow green", narrow_green, 34, 76, true},
          {"smoke", smoke, 14, 60, true},
          {"vinaceous", vinaceous, 46, 82, true},
          {"pale edge", pale_edge, 84, 95, true},
          {"red-black", red_black, 10, 30, false},
          {"blue-green", blue_green, 32, 70, true, false}};
}

}  // namespace colorlib::scenes::held_out
