#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/chart/photo_faults.hpp>
#include <vector>

namespace colorlib {
namespace {

constexpr int long_side_px = 1600;
constexpr double white_share_limit =
    0.35;  // a chart's paper alone may fill 30 % of a sound photo, but not at full scale
constexpr double black_share_limit = 0.97;
constexpr int least_contrast = 12;  // of 255 in linear light
/// In pixels of the small picture. Sharp borders come out at 0.5 to 0.8 there; a marker whose cells are four
/// of these pixels wide is lost at about 2.
constexpr double blurred_spread = 1.8;

}  // namespace

PhotoFaults faults_of(const Photo& photo) {
  PhotoFaults faults;
  const int block = std::max(1, std::max(photo.width_px(), photo.height_px()) / long_side_px);
  const Image8 grey = photo.linear_grey({0, 0, photo.width_px(), photo.height_px()}, block);
  if (grey.rows < 8 || grey.columns < 8) {
    faults.featureless = true;
    return faults;
  }
  std::array<std::size_t, 256> histogram{};
  for (const std::uint8_t v : grey.data) ++histogram[v];
  const auto count = static_cast<double>(grey.data.size());
  const auto share = [&](int first, int last) {
    std::size_t sum = 0;
    for (int v = first; v <= last; ++v) sum += histogram[static_cast<std::size_t>(v)];
    return static_cast<double>(sum) / count;
  };
  const auto quantile = [&](double limit) {
    std::size_t sum = 0;
    for (int v = 0; v < 256; ++v) {
      sum += histogram[static_cast<std::size_t>(v)];
      if (static_cast<double>(sum) >= limit * count) return v;
    }
    return 255;
  };
  // Linear photos are scaled by their own brightest part, so full scale says nothing about the sensor there.
  const bool display = photo.encoding().kind == EncodingKind::display_referred;
  faults.white_share = display ? share(250, 255) : 0;
  faults.black_share = share(0, 2);
  faults.overexposed = faults.white_share > white_share_limit;
  faults.underexposed = faults.black_share > black_share_limit;
  const int contrast = quantile(0.98) - quantile(0.02);
  faults.featureless = contrast < least_contrast;

  // The steepest hundredth of a percent of places, against the contrast of the whole picture.
  std::vector<int> slopes;
  slopes.reserve(grey.data.size());
  for (int r = 1; r + 1 < grey.rows; ++r)
    for (int c = 1; c + 1 < grey.columns; ++c) {
      const std::uint8_t* p = grey.at(r, c);
      const int x = p[1] - p[-1], y = p[grey.columns] - p[-grey.columns];
      slopes.push_back(x * x + y * y);
    }
  const auto rank = slopes.begin() + static_cast<std::ptrdiff_t>(static_cast<double>(slopes.size()) * 0.9995);
  std::nth_element(slopes.begin(), rank, slopes.end());
  const double slope = 0.5 * std::sqrt(static_cast<double>(*rank));  // per pixel of the small picture
  const double spread = slope > 0 ? contrast / (slope * 2.5066) : 1e3;
  faults.sharpest_spread_px = spread * block;
  faults.blurred = !faults.featureless && spread > blurred_spread;
  return faults;
}

FaultWords words_for(const PhotoFaults& faults) {
  if (faults.overexposed)
    return {fmt::format("{:.0f} % of the photo is at full white", 100 * faults.white_share),
            "Take it again with less exposure (touch the white paper to meter on it, or set -1 EV)."};
  if (faults.underexposed)
    return {fmt::format("{:.0f} % of the photo is nearly black", 100 * faults.black_share),
            "Take it again with more light or a longer exposure."};
  if (faults.featureless)
    return {"the photo has hardly any contrast",
            "Take it again with the whole sheet in the frame and in focus."};
  if (faults.blurred)
    return {
        fmt::format("even its sharpest borders are smeared over about {:.0f} px",
                    4 * faults.sharpest_spread_px),
        "Take it again with the whole sheet in the frame, in focus, and with a steady hand or a support."};
  return {};
}

}  // namespace colorlib
