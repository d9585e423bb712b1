#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/image/jpeg_samples_internal.hpp>
#include <cstring>
#include <numbers>

namespace colorlib {
namespace {

constexpr int side = 8;
using Row = std::array<float, side>;

/// C(x, u) of the inverse transform, sample x from frequency u [T81, A.3.3], one row a frequency: the samples
/// are C F C^T.
std::array<Row, side> cosines() {
  std::array<Row, side> rows;
  for (int u = 0; u < side; ++u)
    for (int x = 0; x < side; ++x)
      rows[static_cast<std::size_t>(u)][static_cast<std::size_t>(x)] = static_cast<float>(
          (u == 0 ? std::sqrt(0.5) : 1.0) / 2 * std::cos((2 * x + 1) * u * std::numbers::pi / 16));
  return rows;
}

void add(Row& sum, float times, const Row& row) {
  for (std::size_t x = 0; x < side; ++x) sum[x] += times * row[x];
}

/// One block. Most of a photo's are smooth, so frequencies that are not there cost nothing.
void transform(const std::int16_t* coefficients, const std::array<float, 64>& quantum, float* out,
               int stride) {
  static const std::array<Row, side> wave = cosines();
  std::array<Row, side> lines{};  // of frequency v down, samples across
  std::size_t there = 0;          // rows of frequencies
  for (std::size_t v = 0; v < side; ++v) {
    std::array<std::uint64_t, 2> eight;
    std::memcpy(eight.data(), coefficients + side * v, sizeof eight);
    if ((eight[0] | eight[1]) == 0) continue;
    there = v + 1;
    const std::size_t most = eight[1] == 0 ? side / 2 : side;
    for (std::size_t u = 0; u < most; ++u)
      add(lines[v], static_cast<float>(coefficients[side * v + u]) * quantum[side * v + u], wave[u]);
  }
  for (std::size_t y = 0; y < side; ++y, out += stride) {
    Row sum{};
    for (std::size_t v = 0; v < there; ++v) add(sum, wave[v][y], lines[v]);
    std::copy(sum.begin(), sum.end(), out);
  }
}

using Floats = Eigen::ArrayXf;
using Part = Eigen::Map<const Floats>;

/// Levels to 16 bits; what compression has pushed beyond black or white is cut off.
template <class Levels>
Eigen::ArrayXi fine_values(const Levels& levels) {
  return (levels.max(0.0f).min(255.0f) * 257.0f + 0.5f).template cast<int>();
}

/// Twice as many samples, each a quarter of the way to its neighbour: what the general rule comes to for
/// colour at half the columns.
void doubled(const float* from, int width, std::span<float> out) {
  const auto last = static_cast<std::size_t>(width - 1);
  for (std::size_t i = 0; i <= last && 2 * i < out.size(); ++i) {
    out[2 * i] = 0.75f * from[i] + 0.25f * from[i > 0 ? i - 1 : 0];
    if (2 * i + 1 < out.size()) out[2 * i + 1] = 0.75f * from[i] + 0.25f * from[i < last ? i + 1 : last];
  }
}

}  // namespace

const float* JpegSamples::row(int y) {
  const int wanted = y / side;
  Band& band = bands_[static_cast<std::size_t>(wanted % 2)];
  const int stride = component_.blocks_across * side;
  if (band.block_row != wanted) {
    const std::int16_t* coefficients = component_.block_row(wanted);
    if (coefficients == nullptr) return nullptr;
    band.samples.resize(static_cast<std::size_t>(stride) * side);
    for (int b = 0; b < component_.blocks_across; ++b)
      transform(coefficients + 64 * static_cast<std::ptrdiff_t>(b), component_.quantum,
                band.samples.data() + b * side, stride);
    band.block_row = wanted;
  }
  return band.samples.data() + static_cast<std::ptrdiff_t>(y % side) * stride;
}

bool JpegSamples::picture_row(int y, std::span<float> out) {
  const auto [width, height] = std::pair(component_.width, component_.height);
  const float* upper = nullptr;
  if (component_.per_row == 1) {
    upper = row(y);
    if (upper == nullptr) return false;
  } else {
    const double place = (y + 0.5) * component_.per_row - 0.5;
    const int above = static_cast<int>(std::floor(place));
    const auto share = static_cast<float>(place - above);
    upper = row(std::clamp(above, 0, height - 1));
    const float* lower = row(std::clamp(above + 1, 0, height - 1));
    if (upper == nullptr || lower == nullptr) return false;
    mixed_.resize(static_cast<std::size_t>(width));
    for (int x = 0; x < width; ++x)
      mixed_[static_cast<std::size_t>(x)] = upper[x] + share * (lower[x] - upper[x]);
    upper = mixed_.data();
  }
  if (component_.per_column == 1) {
    std::copy_n(upper, out.size(), out.begin());
    return true;
  }
  if (component_.per_column == 0.5) {
    doubled(upper, width, out);
    return true;
  }
  for (std::size_t x = 0; x < out.size(); ++x) {
    const double place = (static_cast<double>(x) + 0.5) * component_.per_column - 0.5;
    const int left = static_cast<int>(std::floor(place));
    const auto share = static_cast<float>(place - left);
    const float a = upper[std::clamp(left, 0, width - 1)], b = upper[std::clamp(left + 1, 0, width - 1)];
    out[x] = a + share * (b - a);
  }
  return true;
}

void jpeg_rgb_row(JpegColor color, std::span<const std::vector<float>> components, std::uint16_t* out) {
  constexpr float middle = 128;
  const auto part = [&](std::size_t c) {
    return Part(components[c].data(), static_cast<Eigen::Index>(components[c].size()));
  };
  const Part first = part(0);
  Eigen::ArrayXi r, g, b;
  if (color == JpegColor::grey) {
    r = g = b = fine_values(first + middle);
  } else if (color == JpegColor::rgb) {
    r = fine_values(first + middle);
    g = fine_values(part(1) + middle);
    b = fine_values(part(2) + middle);
  } else {
    const Part cb = part(1), cr = part(2);
    r = fine_values(first + middle + 1.402f * cr);
    g = fine_values(first + middle - 0.344136f * cb - 0.714136f * cr);
    b = fine_values(first + middle + 1.772f * cb);
  }
  for (Eigen::Index x = 0; x < r.size(); ++x, out += 3) {
    out[0] = static_cast<std::uint16_t>(r[x]);
    out[1] = static_cast<std::uint16_t>(g[x]);
    out[2] = static_cast<std::uint16_t>(b[x]);
  }
}

}  // namespace colorlib
