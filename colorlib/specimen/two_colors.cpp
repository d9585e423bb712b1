#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/two_colors.hpp>
#include <vector>

namespace colorlib {
namespace {

Vector3 vector_of(const Lab& lab) { return {lab.l, lab.a, lab.b}; }

/// Where a colour lies on the way from one mean (0) to the other (1).
double place_between(const Lab& lab, const Lab& from, const Lab& to) {
  const Vector3 a = vector_of(from), b = vector_of(to), p = vector_of(lab);
  double along = 0, length = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    along += (p[k] - a[k]) * (b[k] - a[k]);
    length += (b[k] - a[k]) * (b[k] - a[k]);
  }
  return length > 0 ? along / length : 0;
}

/// Mean colours of the pixels on either side of the middle between the two; false when one side is empty.
bool divide(std::span<const Lab> pixels, std::array<Lab, 2>& means, std::array<double, 2>& counts) {
  std::array<Vector3, 2> sums{};
  counts = {};
  for (const Lab& lab : pixels) {
    const std::size_t side = place_between(lab, means[0], means[1]) > 0.5;
    const Vector3 v = vector_of(lab);
    for (std::size_t k = 0; k < 3; ++k) sums[side][k] += v[k];
    ++counts[side];
  }
  if (counts[0] == 0 || counts[1] == 0) return false;
  for (std::size_t side = 0; side < 2; ++side)
    means[side] = {sums[side][0] / counts[side], sums[side][1] / counts[side], sums[side][2] / counts[side]};
  return true;
}

}  // namespace

std::optional<TwoColors> two_colors(std::span<const Lab> pixels, const TwoColorsLimits& limits) {
  if (pixels.size() < limits.least_pixels) return std::nullopt;
  // From the pixel farthest from the first one, and the one farthest from that.
  const auto farthest = [&](const Lab& from) {
    return *std::max_element(pixels.begin(), pixels.end(), [&](const Lab& a, const Lab& b) {
      return difference_cie76(a, from) < difference_cie76(b, from);
    });
  };
  std::array<Lab, 2> means;
  means[0] = farthest(pixels[0]);
  means[1] = farthest(means[0]);
  std::array<double, 2> counts{};
  constexpr int rounds = 20;
  for (int round = 0; round < rounds; ++round)
    if (!divide(pixels, means, counts)) return std::nullopt;

  const auto count = static_cast<double>(pixels.size());
  if (std::min(counts[0], counts[1]) < limits.least_share * count) return std::nullopt;
  const double apart = difference_ciede2000(means[0], means[1]);
  std::array<std::vector<double>, 2> off;
  double between = 0;
  for (const Lab& lab : pixels) {
    const double place = place_between(lab, means[0], means[1]);
    const std::size_t side = place > 0.5;
    off[side].push_back(difference_ciede2000(lab, means[side]));
    between += place > 1.0 / 3 && place < 2.0 / 3;
  }
  // By the median: a few pixels of a third colour, as of a bare spot, are no spread.
  const double spread = 1.4826 * std::max(median(std::move(off[0])), median(std::move(off[1])));
  if (apart < limits.least_de00 || apart < limits.least_spreads * spread ||
      between > limits.most_between * count)
    return std::nullopt;
  const std::size_t larger = counts[1] > counts[0];
  return TwoColors{means[larger], means[1 - larger], counts[larger] / count, apart};
}

}  // namespace colorlib
