#include "tests/scenes/layers.hpp"

#include <algorithm>
#include <cmath>

namespace colorlib::scenes {

double layer_reflectance(double masstone, double scattering_power, double backing) {
  if (scattering_power <= 0) return backing;
  // coth through q = exp(-2 b SX), which stays finite for thick layers.
  const double r = std::clamp(masstone, 1e-6, 1 - 1e-6);
  const double a = (1 / r + r) / 2, b = (1 / r - r) / 2;
  const double q = std::exp(-2 * b * scattering_power);
  const double c = b * (1 + q) / (1 - q);  // b coth(b SX)
  return (1 - backing * (a - c)) / (a - backing + c);
}

Spectrum layer_reflectance(const Spectrum& masstone, double scattering_power, double exponent,
                           const Spectrum& backing) {
  Spectrum s;
  for (int i = 0; i < wave_count; ++i)
    s[i] =
        layer_reflectance(masstone[i], scattering_power * std::pow(wave_nm(i) / 550, -exponent), backing[i]);
  return s;
}

double masstone_of_ratio(double k) { return 1 + k - std::sqrt(k * (k + 2)); }

}  // namespace colorlib::scenes
