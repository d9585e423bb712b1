#pragma once
/// Unevenness of surfaces: periodic noise, the same on every platform.

#include <cmath>
#include <vector>

#include "tests/scenes/random.hpp"

namespace colorlib::scenes {

/// A periodic field of 256 x 256 values, mean 0, standard deviation 1, near normal; neighbours correlate over
/// `smoothness` steps.
class NoiseTile {
 public:
  NoiseTile(std::uint64_t seed, int smoothness);
  /// Value between the grid's points, bilinear; any real coordinates.
  float at(double x, double y) const {
    const double fx = std::floor(x), fy = std::floor(y);
    const auto i = static_cast<unsigned>(static_cast<int>(fx)) & 255u,
               j = static_cast<unsigned>(static_cast<int>(fy)) & 255u;
    const auto i1 = (i + 1) & 255u, j1 = (j + 1) & 255u;
    const float tx = static_cast<float>(x - fx), ty = static_cast<float>(y - fy);
    const float* rows[2] = {value_.data() + 256 * j, value_.data() + 256 * j1};
    const float top = rows[0][i] + tx * (rows[0][i1] - rows[0][i]);
    const float bottom = rows[1][i] + tx * (rows[1][i1] - rows[1][i]);
    return top + ty * (bottom - top);
  }

 private:
  std::vector<float> value_;
};

const NoiseTile& fine_noise();    ///< correlates over about 2 steps
const NoiseTile& smooth_noise();  ///< over about 8 steps

/// A place in a noise tile, so that no two surfaces look alike: mm -> tile steps.
struct NoisePlace {
  double x = 0, y = 0, cos = 1, sin = 0;
  explicit NoisePlace(Random& random) : x(random.uniform(0, 256)), y(random.uniform(0, 256)) {
    const double angle = random.uniform(0, 6.283185307179586);
    cos = std::cos(angle), sin = std::sin(angle);
  }
  float of(const NoiseTile& tile, double x_mm, double y_mm, double steps_per_mm) const {
    return tile.at(x + steps_per_mm * (cos * x_mm - sin * y_mm),
                   y + steps_per_mm * (sin * x_mm + cos * y_mm));
  }
};

/// The z below which `share` of a standard normal distribution lies; bisection on erfc.
double normal_quantile(double share);

}  // namespace colorlib::scenes
