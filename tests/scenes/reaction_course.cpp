#include "tests/scenes/reaction_course.hpp"

#include <algorithm>
#include <cmath>

namespace colorlib::scenes {
namespace {

Pigment pigment_from(const Spectrum& masstone) {
  Pigment p;
  p.family = "reaction";
  p.masstone = masstone;
  for (int i = 0; i < wave_count; ++i) p.ratio[i] = (1 - masstone[i]) * (1 - masstone[i]) / (2 * masstone[i]);
  p.masstone_lab = lab_d50(masstone);
  return p;
}

/// A spectrum near `start` with Lab `wanted`: times the exponential of a constant, a slope and a bow over the
/// wavelengths, by Newton's method. Smooth in both arguments.
Spectrum moved_to(const Spectrum& start, const Lab& wanted) {
  Vector3 amount{};
  const auto changed = [&](const Vector3& c) {
    Spectrum s = start;
    for (int i = 0; i < wave_count; ++i) {
      const double x = 2.0 * i / (wave_count - 1) - 1;
      s[i] = std::clamp(start[i] * std::exp(c[0] + c[1] * x + c[2] * (2 * x * x - 1)), 1e-4, 0.999);
    }
    return s;
  };
  const auto error = [&](const Vector3& c) {
    const Lab lab = lab_d50(changed(c));
    return Vector3{lab.l - wanted.l, lab.a - wanted.a, lab.b - wanted.b};
  };
  for (int round = 0; round < 12; ++round) {
    const Vector3 e = error(amount);
    if (e[0] * e[0] + e[1] * e[1] + e[2] * e[2] < 1e-8) break;
    Matrix3 jacobian;
    for (int k = 0; k < 3; ++k) {
      Vector3 moved = amount;
      moved[static_cast<std::size_t>(k)] += 1e-4;
      const Vector3 f = error(moved);
      for (int r = 0; r < 3; ++r)
        jacobian(r, k) = (f[static_cast<std::size_t>(r)] - e[static_cast<std::size_t>(r)]) / 1e-4;
    }
    const Vector3 step = inverse(jacobian) * e;
    for (std::size_t k = 0; k < 3; ++k) amount[k] -= step[k];
  }
  return changed(amount);
}

double distance2(const Lab& a, const Lab& b) {
  return (a.l - b.l) * (a.l - b.l) + (a.a - b.a) * (a.a - b.a) + (a.b - b.b) * (a.b - b.b);
}

}  // namespace

Vector3 ReactionCourse::shares_at(double seconds) const {
  const double u = seconds - onset_s;
  if (half_s <= 0 || u <= 0) return {1, 0, 0};
  const double k1 = std::log(2.0) / half_s, left = std::exp(-k1 * u);
  if (second_half_s <= 0) return {left, 1 - left, 0};
  const double k2 = std::log(2.0) / second_half_s;
  const double middle =
      std::abs(k1 - k2) < 1e-9 * k1 ? k1 * u * left : k1 / (k1 - k2) * (std::exp(-k2 * u) - left);
  return {left, middle, 1 - left - middle};
}

Lab ReactionCourse::lab_at(double seconds) const {
  const Vector3 s = shares_at(seconds);
  return {s[0] * a.l + s[1] * b.l + s[2] * c.l, s[0] * a.a + s[1] * b.a + s[2] * c.a,
          s[0] * a.b + s[1] * b.b + s[2] * c.b};
}

ReactionPigments::ReactionPigments(const ReactionCourse& course, Pool pool) : course_(course) {
  masstones_.push_back(pigment_matching(course.a, pool).masstone);
  if (course.half_s > 0) masstones_.push_back(pigment_matching(course.b, pool).masstone);
  if (course.half_s > 0 && course.second_half_s > 0)
    masstones_.push_back(pigment_matching(course.c, pool).masstone);
}

Pigment ReactionPigments::at(double seconds) const {
  const Lab wanted = course_.lab_at(seconds);
  if (masstones_.size() == 1) return pigment_from(masstones_[0]);
  const auto mix = [&](double b, double c) {
    Spectrum s = (1 - b - c) * masstones_[0] + b * masstones_[1];
    if (masstones_.size() > 2) s = s + c * masstones_[2];
    return s;
  };
  // A shrinking pattern search over the two shares: robust, and exact enough at 1e-4.
  const Vector3 shares = course_.shares_at(seconds);
  double b = shares[1], c = shares[2];
  const bool two = masstones_.size() > 2;
  double best = distance2(lab_d50(mix(b, c)), wanted);
  for (double step = 0.1; step > 5e-5; step *= 0.5) {
    for (bool moved = true; moved;) {
      moved = false;
      for (const auto& [db, dc] : {std::pair{step, 0.0}, {-step, 0.0}, {0.0, step}, {0.0, -step}}) {
        if (dc != 0 && !two) continue;
        const double nb = b + db, nc = c + dc;
        if (nb < 0 || nc < 0 || nb + nc > 1) continue;
        const double distance = distance2(lab_d50(mix(nb, nc)), wanted);
        if (distance < best) best = distance, b = nb, c = nc, moved = true;
      }
    }
  }
  return pigment_from(moved_to(mix(b, c), wanted));
}

}  // namespace colorlib::scenes
