#include "tests/scenes/pigments.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tests/scenes/layers.hpp"
#include "tests/scenes/pigments_internal.hpp"

namespace colorlib::scenes {
namespace {

/// What every biological powder or tissue adds: a little absorption at the violet end, and scattering that is
/// not perfect.
Spectrum ground_absorption(Random& random) {
  const double flat = random.uniform(0.0004, 0.0022), violet = random.uniform(0.002, 0.02),
               fall = random.uniform(45, 80);
  return spectrum_of([=](double nm) { return flat + violet * std::exp(-(nm - 380) / fall); });
}

Pigment finished(std::string family, const Spectrum& ratio) {
  Pigment p;
  p.family = std::move(family);
  p.ratio = ratio;
  for (int i = 0; i < wave_count; ++i) p.masstone[i] = masstone_of_ratio(ratio[i]);
  p.masstone_lab = lab_d50(p.masstone);
  return p;
}

/// The strength of `shape` on `ground` at which the masstone has lightness `l`.
double strength_for(const Spectrum& shape, const Spectrum& ground, double l) {
  double low = 1e-7, high = 1e5;
  for (int i = 0; i < 60; ++i) {
    const double middle = std::sqrt(low * high);
    (finished("", ground + middle * shape).masstone_lab.l > l ? low : high) = middle;
  }
  return std::sqrt(low * high);
}

}  // namespace

const std::vector<PigmentFamily>& pigment_families(Pool pool) {
  static const std::vector<PigmentFamily> tuning = tuning_pigments(), broad = broad_pigments(),
                                          held = held_out::pigments();
  return held_out_materials(pool) ? held : pool == Pool::broad ? broad : tuning;
}

Pigment pigment_of(const PigmentFamily& family, double l, Random& random) {
  Spectrum shape = family.absorption(random);
  // A neutral share dulls the colour, as dirt and dark walls do.
  double dull = random.uniform(0, 0.06) * *std::max_element(shape.at.begin(), shape.at.end());
  const Spectrum ground = ground_absorption(random);
  const double liveliness = random.uniform(0.3, 1);
  for (;;) {
    Spectrum dulled = shape;
    for (double& v : dulled.at) v += dull;
    Pigment made = finished(family.name, ground + strength_for(dulled, ground, l) * dulled);
    const Lab& c = made.masstone_lab;
    const double hue = std::atan2(c.b, c.a) * 57.29577951308232;
    // Warm hues, from salmon to greenish yellow, may be twice as vivid as the rest.
    const double warm = step_up(hue, 40, 5) * step_up(-hue, -105, 5);
    if (std::hypot(c.a, c.b) <= liveliness * (30 + 20 * warm)) return made;
    dull = 1.3 * dull + 0.02;
  }
}

Pigment random_pigment(Random& random, Pool pool, bool tissue) {
  const auto& families = pigment_families(pool);
  for (;;) {
    const PigmentFamily& family =
        families[static_cast<std::size_t>(random.below(static_cast<int>(families.size())))];
    if (tissue ? !family.tissue : !family.deposit) continue;
    Pigment pigment = pigment_of(family, random.uniform(family.lowest_l, family.highest_l), random);
    // Curves of no particular kind make any hue; fungi are mostly warm.
    const Lab& c = pigment.masstone_lab;
    const double hue = std::atan2(c.b, c.a) * 57.29577951308232;
    const bool usual = std::hypot(c.a, c.b) < 8 || (hue > 15 && hue < 105);
    if (pool == Pool::broad && !usual && !random.chance(0.15)) continue;
    return pigment;
  }
}

Pigment diluted(const Pigment& pigment, double factor) {
  return finished(pigment.family, factor * pigment.ratio);
}

Pigment pigment_matching(const Lab& wanted, Pool pool) {
  std::vector<Spectrum> shapes;
  std::vector<std::string> names;
  Random random(7);
  for (const auto& family : pigment_families(pool)) {
    shapes.push_back(family.absorption(random));
    names.push_back(family.name);
  }
  const Spectrum ground = 0.3 * ground_absorption(random);
  const auto error_of = [&](const Spectrum& ratio) {
    const Lab made = finished("", ratio).masstone_lab;
    return Vector3{made.l - wanted.l, made.a - wanted.a, made.b - wanted.b};
  };
  Pigment best;
  double best_roughness = 1e300;
  const std::size_t n = shapes.size();
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j)
      for (std::size_t k = j + 1; k < n; ++k) {
        // Amounts as logarithms, so that they stay positive; damped Gauss-Newton.
        const std::array<const Spectrum*, 3> part{&shapes[i], &shapes[j], &shapes[k]};
        Vector3 amount;
        for (std::size_t t = 0; t < 3; ++t)
          amount[t] = std::log(strength_for(*part[t], ground, wanted.l) / 3);
        const auto ratio_of = [&](const Vector3& a) {
          return ground + std::exp(a[0]) * *part[0] + std::exp(a[1]) * *part[1] + std::exp(a[2]) * *part[2];
        };
        Vector3 error = error_of(ratio_of(amount));
        const auto size = [](const Vector3& v) { return v[0] * v[0] + v[1] * v[1] + v[2] * v[2]; };
        double damping = 1;
        for (int round = 0; round < 60 && size(error) > 1e-4; ++round) {
          Matrix3 jacobian;
          for (int t = 0; t < 3; ++t) {
            Vector3 moved = amount;
            moved[static_cast<std::size_t>(t)] += 0.01;
            const Vector3 e = error_of(ratio_of(moved));
            for (int c = 0; c < 3; ++c)
              jacobian(c, t) = (e[static_cast<std::size_t>(c)] - error[static_cast<std::size_t>(c)]) / 0.01;
          }
          Matrix3 normal = transpose(jacobian) * jacobian;
          for (int t = 0; t < 3; ++t) normal(t, t) += damping;
          const Vector3 move = inverse(normal) * (transpose(jacobian) * error);
          Vector3 next;
          for (std::size_t t = 0; t < 3; ++t)
            next[t] = std::clamp(amount[t] - std::clamp(move[t], -1.0, 1.0), -25.0, 8.0);
          const Vector3 e = error_of(ratio_of(next));
          if (size(e) < size(error)) {
            amount = next, error = e, damping = std::max(1e-3, damping / 4);
          } else if ((damping *= 5) > 1e8) {
            break;
          }
        }
        if (size(error) > 4e-4) continue;
        Pigment made = finished(names[i] + " + " + names[j] + " + " + names[k], ratio_of(amount));
        double roughness = 0;
        for (int w = 1; w + 1 < wave_count; ++w)
          roughness += std::abs(made.masstone[w - 1] - 2 * made.masstone[w] + made.masstone[w + 1]);
        if (roughness < best_roughness) best_roughness = roughness, best = std::move(made);
      }
  if (best_roughness == 1e300)
    throw std::runtime_error("no mixture of this pool's pigments has the wanted colour");
  return best;
}

}  // namespace colorlib::scenes
