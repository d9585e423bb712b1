#include "tests/scenes/optics.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace colorlib::scenes {

void blur(ImageF& image, double sd_px) {
  if (sd_px < 0.05) return;
  const int radius = std::max(1, static_cast<int>(std::ceil(3 * sd_px)));
  std::vector<float> weight(static_cast<std::size_t>(radius) + 1);
  double sum = 0;
  for (int k = 0; k <= radius; ++k) {
    // A pixel's share of the Gaussian, not its middle value: small blurs keep their width.
    const double from = (k - 0.5) / (sd_px * std::sqrt(2.0)), to = (k + 0.5) / (sd_px * std::sqrt(2.0));
    weight[static_cast<std::size_t>(k)] = static_cast<float>(0.5 * (std::erf(to) - std::erf(from)));
    sum += (k == 0 ? 1 : 2) * weight[static_cast<std::size_t>(k)];
  }
  for (float& w : weight) w = static_cast<float>(w / sum);

  const int rows = image.rows, columns = image.columns, channels = image.channels;
  const auto row_size = static_cast<std::size_t>(columns) * static_cast<std::size_t>(channels);
  const std::size_t pad = static_cast<std::size_t>(radius) * static_cast<std::size_t>(channels);
  // Along rows, over a padded copy.
  std::vector<float> line(row_size + 2 * pad);
  for (int r = 0; r < rows; ++r) {
    float* p = image.at(r, 0);
    std::copy(p, p + row_size, line.begin() + static_cast<std::ptrdiff_t>(pad));
    for (std::size_t i = 0; i < pad; ++i) {
      line[i] = p[i % static_cast<std::size_t>(channels)];
      line[pad + row_size + i] =
          p[row_size - static_cast<std::size_t>(channels) + i % static_cast<std::size_t>(channels)];
    }
    const float* middle = line.data() + pad;
    for (std::size_t i = 0; i < row_size; ++i) p[i] = weight[0] * middle[i];
    for (int k = 1; k <= radius; ++k) {
      const float w = weight[static_cast<std::size_t>(k)];
      const std::ptrdiff_t d = static_cast<std::ptrdiff_t>(k) * channels;
      for (std::size_t i = 0; i < row_size; ++i) {
        const float* q = middle + i;
        p[i] += w * (q[-d] + q[d]);
      }
    }
  }
  // Down columns, keeping the last `radius` untouched rows in a ring.
  std::vector<std::vector<float>> ring(static_cast<std::size_t>(radius) + 1, std::vector<float>(row_size));
  const auto original = [&](int r) -> const float* { return image.at(std::min(r, rows - 1), 0); };
  for (int r = 0; r < rows; ++r) {
    auto& mine = ring[static_cast<std::size_t>(r % (radius + 1))];
    float* p = image.at(r, 0);
    std::copy(p, p + row_size, mine.begin());
    for (std::size_t i = 0; i < row_size; ++i) p[i] = weight[0] * mine[i];
    for (int k = 1; k <= radius; ++k) {
      const float w = weight[static_cast<std::size_t>(k)];
      const float* above = ring[static_cast<std::size_t>(std::max(0, r - k) % (radius + 1))].data();
      const float* below =
          r + k < rows ? original(r + k) : (r == rows - 1 ? mine.data() : original(rows - 1));
      for (std::size_t i = 0; i < row_size; ++i) p[i] += w * (above[i] + below[i]);
    }
  }
}

void add_sensor_noise(ImageF& image, double full_well, double read_noise, Random& random) {
  constexpr std::size_t count = 1u << 16;
  static const std::vector<float> normals = [] {
    std::vector<float> table(count);
    Random source(4711);
    for (float& v : table) v = static_cast<float>(source.normal());
    return table;
  }();
  const float shot = static_cast<float>(1 / full_well),
              read = static_cast<float>(read_noise / full_well * read_noise / full_well);
  std::uint64_t state = random.bits();
  std::uint64_t word = 0;
  for (std::size_t i = 0; i < image.data.size(); ++i) {
    if (i % 4 == 0) word = splitmix64(state);
    float& v = image.data[i];
    v += std::sqrt(shot * std::max(0.0f, v) + read) * normals[word & (count - 1)];
    v = std::min(1.0f, std::max(-0.01f, v));
    word >>= 16;
  }
}

}  // namespace colorlib::scenes
