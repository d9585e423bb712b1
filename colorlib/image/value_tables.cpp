#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/image/value_tables_internal.hpp>

namespace colorlib {
namespace {

std::vector<float> srgb_table(int levels) {
  std::vector<float> table(static_cast<std::size_t>(levels));
  for (int v = 0; v < levels; ++v)
    table[static_cast<std::size_t>(v)] =
        static_cast<float>(linear_from_srgb(static_cast<double>(v) / (levels - 1)));
  return table;
}

const std::vector<float>& plain_srgb(int levels) {
  static const std::vector<float> of_8_bits = srgb_table(256);
  if (levels == 256) return of_8_bits;
  static const std::vector<float> of_16_bits = srgb_table(65536);
  return of_16_bits;
}

}  // namespace

float linear_from_srgb_fast(float encoded) {
  if (encoded > 1.f) return static_cast<float>(linear_from_srgb(encoded));
  return curve_value(plain_srgb(65536), encoded);
}

ValueTables value_tables(const std::array<std::vector<float>, 3>& to_srgb_curve, int levels) {
  ValueTables tables;
  if (levels == 0) return tables;
  const bool plain = to_srgb_curve[0].empty() || to_srgb_curve[1].empty() || to_srgb_curve[2].empty();
  if (plain) {
    tables.shared_linear = plain_srgb(levels).data();
  } else {
    for (std::size_t k = 0; k < 3; ++k) {
      tables.encoded[k].resize(static_cast<std::size_t>(levels));
      tables.linear[k].resize(static_cast<std::size_t>(levels));
      for (int v = 0; v < levels; ++v) {
        const float encoded =
            curve_value(to_srgb_curve[k], static_cast<float>(v) / static_cast<float>(levels - 1));
        tables.encoded[k][static_cast<std::size_t>(v)] = encoded;
        tables.linear[k][static_cast<std::size_t>(v)] = static_cast<float>(linear_from_srgb(encoded));
      }
    }
  }
  const auto linear = tables.linear_tables();
  const int grey_levels = levels == 65536 ? grey_table_size_16 : levels, step = levels / grey_levels;
  for (std::size_t k = 0; k < 3; ++k) {
    const double weight = k == 1 ? 2 : 1, full = linear[k][levels - 1 - step / 2];
    for (int v = 0; v < grey_levels; ++v)
      tables.grey.push_back(
          static_cast<std::uint32_t>(std::lround(weight * 65535 * linear[k][v * step + step / 2] / full)));
  }
  return tables;
}

}  // namespace colorlib
