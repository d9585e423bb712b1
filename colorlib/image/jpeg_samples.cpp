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

/// Levels about 0 to 16 bits; what compression has pushed beyond black or white is cut off.
template <class Levels>
auto fine_values(const Levels& levels) {
  constexpr float middle = 128, full = 255, step = 257;
  return ((levels + middle).max(0.0f).min(full) * step + 0.5f).template cast<std::int32_t>();
}

/// Twice as many samples, each a quarter of the way to its neighbour: what the general rule comes to for
/// colour at half the columns.
void doubled(const float* from, int width, std::span<float> out) {
  const auto own = static_cast<std::size_t>(width);
  const auto put = [&](std::size_t to, std::size_t near, std::size_t far) {
    if (to < out.size()) out[to] = 0.75f * from[near] + 0.25f * from[far];
  };
  put(0, 0, 0);
  float* pair = out.data() + 1;  // samples 2 i + 1 and 2 i + 2 lie between i and i + 1
  const std::size_t pairs = std::min(own - 1, (out.size() - 1) / 2);
  for (std::size_t i = 0; i < pairs; ++i, pair += 2) {
    pair[0] = 0.75f * from[i] + 0.25f * from[i + 1];
    pair[1] = 0.25f * from[i] + 0.75f * from[i + 1];
  }
  for (std::size_t x = 2 * pairs + 1; x < out.size(); ++x)
    put(x, std::min(x / 2, own - 1), std::min(x / 2 + x % 2, own - 1));
}

}  // namespace

const float* JpegSamples::row(int y) {
  const int wanted = y / side;
  Band& band = bands_[static_cast<std::size_t>(wanted % 2)];
  const int stride = component_.blocks_across * side;
  if (band.block_row != wanted) {
    coefficients_.resize(static_cast<std::size_t>(component_.blocks_across) * side * side);
    if (!component_.block_row(wanted, coefficients_)) return nullptr;
    band.samples.resize(static_cast<std::size_t>(stride) * side);
    for (int b = 0; b < component_.blocks_across; ++b)
      transform(coefficients_.data() + side * side * static_cast<std::ptrdiff_t>(b), component_.quantum,
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
  constexpr int run = 256;  // pixels at a time, in the nearest cache
  Eigen::Array<std::int32_t, run, 3> fine;
  const int width = static_cast<int>(components[0].size());
  for (int from = 0; from < width; from += run) {
    const int count = std::min(run, width - from);
    const auto part = [&](std::size_t c) {
      return Eigen::Map<const Eigen::ArrayXf>(components[std::min(c, components.size() - 1)].data() + from,
                                              count);
    };
    const auto first = part(0), second = part(1), third = part(2);  // grey: the same thrice
    auto red = fine.col(0).head(count), green = fine.col(1).head(count), blue = fine.col(2).head(count);
    if (color == JpegColor::ycbcr) {
      red = fine_values(first + 1.402f * third);
      green = fine_values(first - 0.344136f * second - 0.714136f * third);
      blue = fine_values(first + 1.772f * second);
    } else {
      red = fine_values(first);
      green = fine_values(second);
      blue = fine_values(third);
    }
    for (int x = 0; x < count; ++x)
      for (int c = 0; c < 3; ++c) *out++ = static_cast<std::uint16_t>(fine(x, c));
  }
}

}  // namespace colorlib
