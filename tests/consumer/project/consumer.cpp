// Uses a formula, the photo decoders (which pull in the foreign libraries at link time) and the JSON behind a
// chart.
#include <cmath>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/image/decode.hpp>
#include <cstdio>

int main() {
  using namespace colorlib;
  // The sRGB white is (95.05, 100, 108.90): L* 100, a* and b* nought but for the four digits of the matrix.
  const auto white = lab_from_xyz(xyz_from_linear_srgb({1, 1, 1}), white_d65);
  std::printf("white of sRGB: %.2f %.2f %.2f\n", white.l, white.a, white.b);
  if (std::abs(white.l - 100) > 0.05 || std::abs(white.a) > 0.1 || std::abs(white.b) > 0.1) return 1;

  const auto photo = decode_photo("not a photo", "note.txt");
  if (photo) return 2;
  std::printf("%s %s\n", photo.error().message.c_str(), photo.error().advice.c_str());

  const auto chart = parse_chart("{", "half.json");
  if (chart) return 3;
  std::printf("%s\n", chart.error().message.c_str());
  return 0;
}
