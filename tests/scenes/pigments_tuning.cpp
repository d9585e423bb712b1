#include <cmath>

#include "tests/scenes/pigments_internal.hpp"

namespace colorlib::scenes {
namespace {

/// Smooth decay towards long waves: dark polymer pigments.
Spectrum melanin(Random& r) {
  const double fall = r.uniform(75, 135), curve = r.uniform(0, 0.3);
  return spectrum_of([=](double nm) { return std::exp(-(nm - 550) / fall) + curve * bell(nm, 450, 70); });
}
/// Three overlapping bands in the blue: cream, yellow and orange.
Spectrum carotenoid(Random& r) {
  const double shift = r.uniform(-8, 14), width = r.uniform(15, 23), tail = r.uniform(0.01, 0.05);
  return spectrum_of([=](double nm) {
    return 0.7 * bell(nm, 424 + shift, width + 4, width) + bell(nm, 449 + shift, width) +
           0.85 * bell(nm, 478 + shift, width, width + 2) + tail * std::exp(-(nm - 450) / 60);
  });
}
/// A broad band in the green and a rise to the violet: flesh, salmon, pink.
Spectrum pink(Random& r) {
  const double at = r.uniform(495, 535), width = r.uniform(38, 58), violet = r.uniform(0.5, 1.6);
  return spectrum_of(
      [=](double nm) { return bell(nm, at, width, 0.9 * width) + violet * std::exp(-(nm - 400) / 52); });
}
/// Absorption in the blue and in the red: olive and dull green.
Spectrum olive(Random& r) {
  const double red = r.uniform(0.08, 0.35), edge = r.uniform(478, 505), at = r.uniform(640, 680);
  return spectrum_of([=](double nm) {
    return step_up(-nm, -edge, 24) + red * bell(nm, at, 50, 40) + 0.16 * std::exp(-(nm - 500) / 90);
  });
}
/// A broad band in the orange: blueing tissue.
Spectrum blueing(Random& r) {
  const double at = r.uniform(590, 635), width = r.uniform(42, 60), violet = r.uniform(0.1, 0.6);
  return spectrum_of([=](double nm) {
    return bell(nm, at, width, 0.85 * width) + violet * std::exp(-(nm - 400) / 30) + 0.1;
  });
}
/// Nearly equal absorption everywhere: black and fuscous.
Spectrum black(Random& r) {
  const double fall = r.uniform(220, 520);
  return spectrum_of([=](double nm) { return std::exp(-(nm - 550) / fall); });
}
/// Hardly any pigment: white and pale cream.
Spectrum pale(Random& r) {
  const double fall = r.uniform(60, 120), flat = r.uniform(0.0, 0.06);
  return spectrum_of([=](double nm) { return std::exp(-(nm - 380) / fall) + flat; });
}
/// A steep edge in the yellow to orange: rusty and ochre.
Spectrum rusty(Random& r) {
  const double edge = r.uniform(515, 572), width = r.uniform(15, 26), tail = r.uniform(0.04, 0.14);
  return spectrum_of(
      [=](double nm) { return step_up(-nm, -edge, width) + tail * std::exp(-(nm - 580) / 90); });
}
/// Two bands in the green over a dark ramp: purple-brown and chocolate.
Spectrum purple_brown(Random& r) {
  const double at = r.uniform(540, 568), band = r.uniform(0.25, 0.7), fall = r.uniform(110, 190);
  return spectrum_of([=](double nm) {
    return std::exp(-(nm - 550) / fall) + band * (bell(nm, at, 24) + 0.7 * bell(nm, at - 38, 22));
  });
}

}  // namespace

std::vector<PigmentFamily> tuning_pigments() {
  return {{"melanin-like", melanin, 22, 80, true},
          {"carotenoid-like", carotenoid, 76, 90, true},
          {"pink", pink, 50, 84, true},
          {"olive", olive, 30, 72, true},
          {"blueing", blueing, 32, 72, true, false},
          {"near-black", black, 10, 32, false},
          {"pale", pale, 84, 95, true},
          {"rusty", rusty, 34, 70, false},
          {"purple-brown", purple_brown, 16, 42, false}};
}

}  // namespace colorlib::scenes
