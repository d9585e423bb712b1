#include "tests/scenes/printed_sheet.hpp"

#include <algorithm>
#include <cmath>

namespace colorlib::scenes {
namespace {

// All densities are invented, in the shape of process inks: one main band an ink and side absorptions.

InkSet offset_inks() {
  return {"offset-like",
          {spectrum_of([](double nm) {
             return 0.03 + 1.35 * bell(nm, 630, 54, 80) + 0.22 * bell(nm, 400, 40) + 0.12 * bell(nm, 545, 35);
           }),
           spectrum_of([](double nm) {
             return 0.02 + 1.25 * bell(nm, 552, 38, 28) + 0.40 * bell(nm, 515, 32) + 0.30 * bell(nm, 420, 60);
           }),
           spectrum_of([](double nm) { return 0.015 + 1.18 * step_up(-nm, -496, 17); }),
           spectrum_of([](double nm) { return 1.85 + 0.0006 * (550 - nm); })},
          2.0,
          0.004,
          70};
}

InkSet inkjet_inks() {
  return {"inkjet-like",
          {spectrum_of([](double nm) {
             return 0.02 + 1.20 * bell(nm, 664, 40, 45) + 0.95 * bell(nm, 608, 40) + 0.20 * bell(nm, 390, 30);
           }),
           spectrum_of([](double nm) {
             return 0.02 + 1.05 * bell(nm, 567, 20, 20) + 0.95 * bell(nm, 528, 30) + 0.25 * bell(nm, 410, 45);
           }),
           spectrum_of(
               [](double nm) { return 0.01 + 1.20 * bell(nm, 436, 60, 50) + 0.08 * step_up(-nm, -530, 20); }),
           spectrum_of([](double nm) { return 2.0 - 0.35 * step_up(nm, 700, 18); })},
          1.7,
          0.003,
          48};
}

InkSet toner_inks() {
  return {
      "toner-like",
      {spectrum_of([](double nm) {
         return 0.04 + 1.20 * bell(nm, 622, 42, 36) + 0.80 * bell(nm, 690, 34, 60) + 0.25 * bell(nm, 395, 35);
       }),
       spectrum_of([](double nm) { return 0.04 + 1.30 * bell(nm, 540, 40, 26) + 0.30 * bell(nm, 445, 50); }),
       spectrum_of([](double nm) { return 0.03 + 1.22 * step_up(-nm, -500, 16); }),
       spectrum_of([](double nm) { return 1.70 + 0.15 * bell(nm, 450, 60); })},
      2.4,
      0.007,
      75};
}

namespace held_out {

InkSet pigment_photo_inks() {
  return {
      "pigment photo inks",
      {spectrum_of([](double nm) {
         return 0.02 + 1.45 * bell(nm, 640, 40, 90) + 0.15 * bell(nm, 560, 30) + 0.30 * bell(nm, 385, 30);
       }),
       spectrum_of([](double nm) {
         return 0.02 + 1.15 * bell(nm, 560, 24, 23) + 0.80 * bell(nm, 522, 27) + 0.25 * bell(nm, 488, 26) +
                0.12 * bell(nm, 410, 45);
       }),
       spectrum_of([](double nm) { return 0.01 + 1.25 * bell(nm, 446, 66, 36) + 0.2 * bell(nm, 494, 18); }),
       spectrum_of([](double nm) { return 2.1 - 0.1 * bell(nm, 640, 80); })},
      2.0,
      0.003,
      55};
}

InkSet wide_offset_inks() {
  return {
      "wide offset inks",
      {spectrum_of([](double nm) {
         return 0.03 + 1.30 * bell(nm, 612, 44, 55) + 0.55 * bell(nm, 675, 30, 60) + 0.20 * bell(nm, 405, 50);
       }),
       spectrum_of([](double nm) { return 0.03 + 1.30 * bell(nm, 548, 48, 30) + 0.42 * bell(nm, 438, 50); }),
       spectrum_of([](double nm) { return 0.02 + 1.18 * step_up(-nm, -490, 17) + 0.03 * bell(nm, 540, 40); }),
       spectrum_of([](double nm) { return 1.75 + 0.0011 * (600 - nm); })},
      1.85,
      0.005,
      74};
}

}  // namespace held_out

/// L* -> area of black. Quadratic from the start downwards, so that light greys are free of it.
double black_area(double l, double start_l) {
  const double t = std::clamp((start_l - l) / start_l, 0.0, 1.0);
  return std::min(1.0, 1.25 * t * t + 0.1 * t);
}

}  // namespace

int ink_set_count(Pool pool) { return held_out_materials(pool) ? 2 : 3; }

InkSet ink_set(Pool pool, int which) {
  if (held_out_materials(pool))
    return which % 2 == 0 ? held_out::pigment_photo_inks() : held_out::wide_offset_inks();
  switch (which % 3) {
    case 0:
      return offset_inks();
    case 1:
      return inkjet_inks();
    default:
      return toner_inks();
  }
}

InkSet random_inks(Random& random, Pool pool) {
  InkSet inks = ink_set(pool, random.below(ink_set_count(pool)));
  if (pool != Pool::broad) return inks;
  // Dyes of other makers: bands and edges elsewhere, wider or narrower.
  for (std::size_t ink = 0; ink < 3; ++ink) {
    const double shift_nm = random.normal(0, 3), stretch = std::exp(random.normal(0, 0.06)),
                 centre = random.uniform(450, 600);
    const Spectrum before = inks.density[ink];
    inks.density[ink] = spectrum_of(
        [&](double nm) { return at_wavelength(before, centre + (nm - centre - shift_nm) / stretch); });
  }
  return inks;
}

const Spectrum& brightener_emission() {
  static const Spectrum emission = spectrum_of([](double nm) { return bell(nm, 437, 13, 27); });
  return emission;
}

Paper random_paper(Random& random, Pool pool, bool brightened) {
  Paper paper;
  const double level = random.uniform(0.80, 0.90);
  const double yellow = random.uniform(0.0, 0.05);   // lignin or age: less blue
  const double slope = random.uniform(-0.02, 0.03);  // towards the red
  if (!held_out_materials(pool)) {
    paper.name = "coated or uncoated white";
    paper.reflectance = spectrum_of([&](double nm) {
      return level * (1 + slope * (nm - 560) / 220 - yellow * step_up(-nm, -455, 22)) *
             (1 - 0.10 * step_up(-nm, -402, 6));
    });
  } else {
    // Held out: recycled stock with a dull blue tint dye, or cream.
    const double dye = random.uniform(0, 0.03), cream = random.uniform(0.0, 0.06);
    paper.name = "recycled or cream white";
    paper.reflectance = spectrum_of([&](double nm) {
      return 0.97 * level *
             (1 + slope * (nm - 560) / 220 - cream * step_up(-nm, -470, 30) - dye * bell(nm, 585, 45)) *
             (1 - 0.12 * step_up(-nm, -405, 8));
    });
  }
  if (brightened) {
    paper.brightener = random.uniform(0.06, 0.24);
    paper.name += ", brightened";
    // Brighteners absorb at the violet end.
    for (int i = 0; i < wave_count; ++i)
      paper.reflectance[i] *= 1 - 2.2 * paper.brightener * step_up(-wave_nm(i), -400, 7);
  }
  return paper;
}

Press::Press(InkSet inks, const Paper& paper) : inks_(std::move(inks)) {
  for (unsigned mask = 0; mask < 16; ++mask) {
    double layers = 0;
    Spectrum density;
    for (unsigned ink = 0; ink < 4; ++ink)
      if (mask >> ink & 1u) {
        density = density + inks_.density[ink];
        layers += 1;
      }
    // Overprinted layers trap a little less than their sum.
    const double trap = layers > 1 ? 1 - 0.04 * (layers - 1) : 1;
    for (int i = 0; i < wave_count; ++i) {
      const double bare = paper.reflectance[i] * std::pow(10.0, -trap * density[i]);
      const double surface = layers > 0 ? inks_.surface : 0;
      root_primary_[mask][i] = std::pow(surface + (1 - surface) * bare, 1 / inks_.yule_nielsen);
    }
  }
}

Spectrum Press::print(const InkAmounts& amounts) const {
  Spectrum sum;
  for (unsigned mask = 0; mask < 16; ++mask) {
    double weight = 1;
    for (unsigned ink = 0; ink < 4; ++ink) weight *= mask >> ink & 1u ? amounts[ink] : 1 - amounts[ink];
    if (weight > 0) sum = sum + weight * root_primary_[mask];
  }
  if (inks_.yule_nielsen == 2.0) return sum * sum;
  for (double& v : sum.at) v = std::pow(v, inks_.yule_nielsen);
  return sum;
}

InkAmounts Press::amounts_for(const Lab& wanted) const {
  InkAmounts best{};
  best[3] = black_area(wanted.l, inks_.black_start_l) *
            std::clamp(1 - std::hypot(wanted.a, wanted.b) / 70, 0.0, 1.0);
  for (int ink = 0; ink < 3; ++ink)
    best[static_cast<std::size_t>(ink)] = std::clamp(0.9 - wanted.l / 110, 0.05, 0.9);
  const auto miss = [&](const InkAmounts& a) {
    const Lab made = lab_d50(print(a));
    return Vector3{made.l - wanted.l, made.a - wanted.a, made.b - wanted.b};
  };
  const auto size = [](const Vector3& v) { return v[0] * v[0] + v[1] * v[1] + v[2] * v[2]; };
  Vector3 error = miss(best);
  double damping = 1;
  for (int round = 0; round < 40 && size(error) > 1e-4; ++round) {
    Matrix3 jacobian;
    for (int ink = 0; ink < 3; ++ink) {
      InkAmounts moved = best;
      const double step = best[static_cast<std::size_t>(ink)] > 0.5 ? -0.01 : 0.01;
      moved[static_cast<std::size_t>(ink)] += step;
      const Vector3 e = miss(moved);
      for (int k = 0; k < 3; ++k)
        jacobian(k, ink) = (e[static_cast<std::size_t>(k)] - error[static_cast<std::size_t>(k)]) / step;
    }
    Matrix3 normal = transpose(jacobian) * jacobian;
    for (int k = 0; k < 3; ++k) normal(k, k) += damping;
    const Vector3 move = inverse(normal) * (transpose(jacobian) * error);
    InkAmounts next = best;
    for (std::size_t ink = 0; ink < 3; ++ink) next[ink] = std::clamp(best[ink] - move[ink], 0.0, 1.0);
    // When the colour stays too light without it, black helps.
    const Vector3 e = miss(next);
    if (size(e) < size(error)) {
      best = next;
      error = e;
      damping = std::max(1e-3, damping / 4);
    } else {
      damping *= 6;
      if (damping > 1e7) break;
    }
    if (round == 12 && error[0] > 1.5)
      best[3] = std::min(1.0, best[3] + 0.3), error = miss(best), damping = 1;
    if (round == 12 && error[0] < -1.5) best[3] *= 0.5, error = miss(best), damping = 1;
  }
  return best;
}

}  // namespace colorlib::scenes
