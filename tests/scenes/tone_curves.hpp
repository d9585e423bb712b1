#pragma once
/// Tone curves of simulated phones: linear light in [0, 1] -> encoded value in [0, 1], monotone.

#include <string>
#include <vector>

#include "tests/scenes/lights.hpp"

namespace colorlib::scenes {

struct ToneCurve {
  std::string name;
  std::vector<float> table;  ///< over square roots of linear light, evenly spaced on [0, 1]

  /// Linear light, clipped to [0, 1] -> encoded.
  float operator()(float linear) const;
};

double srgb_encoded(double linear);
double srgb_linear(double encoded);

/// A curve of one of the pool's families with its parameters drawn at random.
ToneCurve random_tone_curve(Random& random, Pool pool);
/// The plain sRGB curve of IEC 61966-2-1.
ToneCurve srgb_tone_curve();
/// From any function; made monotone and fixed at (0, f(0)) and (1, f(1)).
ToneCurve tone_curve(std::string name, double (*f)(double, const double*), const double* parameters);

}  // namespace colorlib::scenes
