#include "tests/scenes/exposure.hpp"

#include <algorithm>
#include <cmath>

#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes {

std::vector<Spectrum> unit_lights(const SceneSettings& settings) {
  std::vector<Spectrum> lights;
  for (const LightSettings& light : settings.lights)
    lights.push_back(1 / inner_product(light.color.power, observer_1931()[1]) * light.color.power);
  return lights;
}

Balance balance_of(const SceneSettings& settings) {
  const DevelopmentSettings& d = settings.development;
  const auto lights = unit_lights(settings);
  Spectrum mix;
  for (std::size_t l = 0; l < lights.size(); ++l) mix = mix + settings.lights[l].share * lights[l];
  const Vector3 here = camera_response(settings.camera, constant_spectrum(1), mix);
  const Vector3 in_daylight = camera_response(settings.camera, constant_spectrum(1), illuminant("D65"));
  Vector3 gains;
  for (std::size_t k = 0; k < 3; ++k) {
    const double full = here[1] / here[k], none = in_daylight[1] / in_daylight[k];
    gains[k] =
        std::pow(full, d.balance_strength) * std::pow(none, 1 - d.balance_strength) * d.balance_error[k];
  }
  const double mired =
      1e6 / std::clamp(correlated_temperature_k(mix), 2000.0, 12000.0) + d.matrix_temperature_error;
  const double mired_a = 1e6 / 2856, mired_d65 = 1e6 / 6504;
  const double t = std::clamp((mired - mired_d65) / (mired_a - mired_d65), 0.0, 1.0);
  const double smallest = std::min({gains[0], gains[1], gains[2]});
  for (double& g : gains) g /= smallest;
  return {gains, t * maker_matrix(settings.camera, illuminant("A")) +
                     (1 - t) * maker_matrix(settings.camera, illuminant("D65"))};
}

Vector3 daylight_white_of(const SceneSettings& settings) {
  const Vector3 white = camera_response(settings.camera, constant_spectrum(1), illuminant("D65"));
  Vector3 said;
  for (std::size_t k = 0; k < 3; ++k) said[k] = white[k] / white[1] / settings.sensor.unlike_its_matrix[k];
  return said;
}

}  // namespace colorlib::scenes
