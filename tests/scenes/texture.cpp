#include "tests/scenes/texture.hpp"

namespace colorlib::scenes {

NoiseTile::NoiseTile(std::uint64_t seed, int smoothness) : value_(256 * 256) {
  Random random(seed, 91);
  for (float& v : value_) v = static_cast<float>(random.normal());
  // Box blurs along rows and columns, wrapped; three rounds come near a Gaussian.
  const int radius = std::max(1, smoothness / 2);
  std::vector<float> next(value_.size());
  for (int round = 0; round < 3; ++round)
    for (int axis = 0; axis < 2; ++axis) {
      for (unsigned j = 0; j < 256; ++j)
        for (unsigned i = 0; i < 256; ++i) {
          float sum = 0;
          for (int k = -radius; k <= radius; ++k) {
            const unsigned a = axis == 0 ? (i + static_cast<unsigned>(k)) & 255u : i;
            const unsigned b = axis == 1 ? (j + static_cast<unsigned>(k)) & 255u : j;
            sum += value_[256 * b + a];
          }
          next[256 * j + i] = sum;
        }
      value_.swap(next);
    }
  double mean = 0, square = 0;
  for (float v : value_) mean += v, square += double(v) * v;
  mean /= 65536, square = square / 65536 - mean * mean;
  for (float& v : value_) v = static_cast<float>((v - mean) / std::sqrt(square));
}

const NoiseTile& fine_noise() {
  static const NoiseTile tile(1, 2);
  return tile;
}
const NoiseTile& smooth_noise() {
  static const NoiseTile tile(2, 8);
  return tile;
}

double normal_quantile(double share) {
  double low = -8, high = 8;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (0.5 * std::erfc(-middle / std::sqrt(2.0)) < share ? low : high) = middle;
  }
  return low;
}

}  // namespace colorlib::scenes
