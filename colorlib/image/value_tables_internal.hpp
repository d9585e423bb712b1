#pragma once
/// Look-up tables from stored pixel values to encoded and linear ones, so that no pixel costs a power
/// function.

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

namespace colorlib {

/// Sum of the three full-scale entries of ValueTables::grey, and its entries a channel for 16-bit photos.
inline constexpr double grey_table_scale = 4 * 65535.0;
inline constexpr int grey_table_size_16 = 4096;

struct ValueTables {
  /// Stored value -> sRGB-encoded value of the native primaries, one table a channel; all empty: v / full
  /// scale.
  std::array<std::vector<float>, 3> encoded;
  /// Stored value -> linear light; all empty: the shared table of plain sRGB.
  std::array<std::vector<float>, 3> linear;
  const float* shared_linear = nullptr;
  /// Stored value (its upper 12 bits in 16-bit photos) -> linear light in 1/65535, weighted 1, 2, 1; three
  /// tables in a row. 12 bits keep the grey within 0.15 of an 8-bit step.
  std::vector<std::uint32_t> grey;

  std::array<const float*, 3> encoded_tables() const {
    return {encoded[0].data(), encoded[1].data(), encoded[2].data()};
  }
  std::array<const float*, 3> linear_tables() const {
    if (shared_linear) return {shared_linear, shared_linear, shared_linear};
    return {linear[0].data(), linear[1].data(), linear[2].data()};
  }
};

/// Tables for `levels` stored values (256 or 65536); 0 makes none.
ValueTables value_tables(const std::array<std::vector<float>, 3>& to_srgb_curve, int levels);

/// Linear interpolation in an evenly spaced curve over [0, 1]; beyond 1 continued with the last slope, below
/// 0 as 0.
inline float curve_value(const std::vector<float>& curve, float v) {
  const auto last = static_cast<int>(curve.size()) - 1;
  const float place = std::max(v, 0.f) * static_cast<float>(last);
  const int node = place < static_cast<float>(last - 1) ? static_cast<int>(place) : last - 1;
  const float low = curve[static_cast<std::size_t>(node)], high = curve[static_cast<std::size_t>(node) + 1];
  return low + (high - low) * (place - static_cast<float>(node));
}

/// linear_from_srgb by table, within 1e-6 over [0, 1]; above 1 exact.
float linear_from_srgb_fast(float encoded);

}  // namespace colorlib
