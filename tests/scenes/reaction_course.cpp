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
  return pigment_from(mix(b, c));
}

}  // namespace colorlib::scenes
