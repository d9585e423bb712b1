#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <colorlib/image/jpeg_samples_internal.hpp>
#include <cstring>
#include <numbers>

namespace colorlib {
namespace {

constexpr int side = 8;

/// The inverse transform to `kept` samples, each the mean of 8 / `kept` of the whole ones: row u holds those
/// means of C(x, u), sample x from frequency u [T81, A.3.3]. The samples are C^T F C.
using Waves = std::array<std::array<float, side>, side>;
Waves waves_to(int kept) {
  Waves waves{};
  const int each = side / kept;
  for (int u = 0; u < side; ++u)
    for (int x = 0; x < side; ++x)
      waves[static_cast<std::size_t>(u)][static_cast<std::size_t>(x / each)] += static_cast<float>(
          (u == 0 ? std::sqrt(0.5) : 1.0) / 2 * std::cos((2 * x + 1) * u * std::numbers::pi / 16) / each);
  return waves;
}
const Waves& waves(int kept) {
  static const std::array<Waves, 4> tables{waves_to(1), waves_to(2), waves_to(4), waves_to(8)};
  return tables[static_cast<std::size_t>(std::countr_zero(static_cast<unsigned>(kept)))];
}

template <std::size_t Across, std::size_t Most>
void add(std::array<float, Across>& sum, float times, const std::array<float, Most>& row) {
  for (std::size_t x = 0; x < Across; ++x) sum[x] += times * row[x];
}

/// One block to `Across` samples a row and as many rows as `wave_down` is made for. Most of a photo's are
/// smooth, so frequencies that are not there cost nothing.
template <std::size_t Across>
void transform(const std::int16_t* coefficients, const std::array<float, 64>& quantum, const Waves& wave,
               const Waves& wave_down, std::size_t down, float* out, std::ptrdiff_t stride) {
  std::array<std::array<float, Across>, side> lines{};  // of frequency v down, samples across
  std::size_t there = 0;                                // rows of frequencies
  for (std::size_t v = 0; v < side; ++v) {
    std::array<std::uint64_t, 2> eight;
    std::memcpy(eight.data(), coefficients + side * v, sizeof eight);
    if ((eight[0] | eight[1]) == 0) continue;
    there = v + 1;
    const std::size_t most = eight[1] == 0 ? side / 2 : side;
    for (std::size_t u = 0; u < most; ++u)
      add(lines[v], static_cast<float>(coefficients[side * v + u]) * quantum[side * v + u], wave[u]);
  }
  for (std::size_t y = 0; y < down; ++y, out += stride) {
    std::array<float, Across> sum{};
    for (std::size_t v = 0; v < there; ++v) add(sum, wave_down[v][y], lines[v]);
    std::copy(sum.begin(), sum.end(), out);
  }
}

/// A row of blocks, one beside the other.
template <std::size_t Across>
void transform_row(std::span<const std::int16_t> coefficients, const JpegComponent& component, float* out) {
  const Waves& wave = waves(Across);
  const Waves& wave_down = waves(component.down);
  const auto down = static_cast<std::size_t>(component.down);
  const auto stride = static_cast<std::ptrdiff_t>(Across) * component.blocks_across;
  for (std::size_t at = 0; at < coefficients.size(); at += side * side, out += Across)
    transform<Across>(coefficients.data() + at, component.quantum, wave, wave_down, down, out, stride);
}

constexpr int run = 256;  ///< pixels at a time, in the nearest cache
using Levels = Eigen::Array<float, run, 1>;

/// Levels about 0 to values of 16 bits, which their whole part is; what compression has pushed beyond black
/// or white is cut off.
template <class From>
Levels fine_values(const Eigen::ArrayBase<From>& levels) {
  constexpr float middle = 128, full = 255, step = 257;
  return (levels + middle).max(0.0f).min(full) * step + 0.5f;
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
  const auto [across, down] = std::pair(component_.across, component_.down);
  const int wanted = y / down;
  Band& band = bands_[static_cast<std::size_t>(wanted % 2)];
  const int stride = component_.blocks_across * across;
  if (band.block_row != wanted) {
    coefficients_.resize(static_cast<std::size_t>(component_.blocks_across) * side * side);
    if (!component_.block_row(wanted, coefficients_)) return nullptr;
    band.samples.resize(static_cast<std::size_t>(stride) * static_cast<std::size_t>(down));
    float* const out = band.samples.data();
    switch (across) {
      case 1:
        transform_row<1>(coefficients_, component_, out);
        break;
      case 2:
        transform_row<2>(coefficients_, component_, out);
        break;
      case 4:
        transform_row<4>(coefficients_, component_, out);
        break;
      default:
        transform_row<side>(coefficients_, component_, out);
    }
    band.block_row = wanted;
  }
  return band.samples.data() + static_cast<std::ptrdiff_t>(y % down) * stride;
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
  std::array<Levels, 3> levels{Levels::Zero(), Levels::Zero(), Levels::Zero()};
  Levels red, green, blue;
  const int width = static_cast<int>(components[0].size());
  for (int from = 0; from < width; from += run) {
    const int count = std::min(run, width - from);
    for (std::size_t c = 0; c < 3; ++c)  // grey: the same thrice
      std::copy_n(components[std::min(c, components.size() - 1)].data() + from, count, levels[c].data());
    const auto& [first, second, third] = levels;
    if (color == JpegColor::ycbcr) {
      red = fine_values(first + 1.402f * third);
      green = fine_values(first - 0.344136f * second - 0.714136f * third);
      blue = fine_values(first + 1.772f * second);
    } else {
      red = fine_values(first);
      green = fine_values(second);
      blue = fine_values(third);
    }
    const auto whole = [](float value) {
      return static_cast<std::uint16_t>(static_cast<std::int32_t>(value));
    };
    for (int x = 0; x < count; ++x, out += 3) {
      out[0] = whole(red[x]);
      out[1] = whole(green[x]);
      out[2] = whole(blue[x]);
    }
  }
}

}  // namespace colorlib
