#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/reaction/rectified_window.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double most_pixels = 4e6;

/// The encoded values of the part of the photo that shows the window.
struct PhotoPart {
  ImageF values;
  int left = 0, top = 0;

  bool contains(const PointPx& p) const {
    return p.x >= left && p.y >= top && p.x <= left + values.columns - 1 && p.y <= top + values.rows - 1;
  }
  Vector3 at(const PointPx& p) const {
    const double x = p.x - left, y = p.y - top;
    const int column = std::min(static_cast<int>(x), std::max(values.columns - 2, 0)),
              row = std::min(static_cast<int>(y), std::max(values.rows - 2, 0));
    const float tx = static_cast<float>(x - column), ty = static_cast<float>(y - row);
    const float *a = values.at(row, column), *b = a + (values.columns > 1 ? 3 : 0),
                *c = a + (values.rows > 1 ? 3 * values.columns : 0), *d = c + (values.columns > 1 ? 3 : 0);
    Vector3 mixed;
    for (int k = 0; k < 3; ++k)
      mixed[static_cast<std::size_t>(k)] =
          (1 - ty) * ((1 - tx) * a[k] + tx * b[k]) + ty * ((1 - tx) * c[k] + tx * d[k]);
    return mixed;
  }
};

PhotoPart part_of(const Photo& photo, const Placement& placement, const RectangleMm& place) {
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const double x : {place.x, place.x + place.width})
    for (const double y : {place.y, place.y + place.height}) {
      const PointPx p = placement.px_from_mm({x, y});
      left = std::min(left, p.x), right = std::max(right, p.x);
      top = std::min(top, p.y), bottom = std::max(bottom, p.y);
    }
  PhotoPart part;
  constexpr double margin = 4;  // a lens bends the sides of the rectangle
  part.left = std::clamp(static_cast<int>(std::floor(left - margin)), 0, photo.width_px());
  part.top = std::clamp(static_cast<int>(std::floor(top - margin)), 0, photo.height_px());
  const int last_column = std::clamp(static_cast<int>(std::ceil(right + margin)), 0, photo.width_px()),
            last_row = std::clamp(static_cast<int>(std::ceil(bottom + margin)), 0, photo.height_px());
  if (last_column > part.left && last_row > part.top)
    part.values = photo.encoded({part.left, part.top, last_column - part.left, last_row - part.top});
  return part;
}

}  // namespace

RectifiedWindow rectified_window(const Photo& photo, const Placement& placement,
                                 const Calibration& calibration, const RectangleMm& place, double px_per_mm) {
  RectifiedWindow window{place, px_per_mm, {}};
  const double wanted = place.width * place.height * px_per_mm * px_per_mm;
  if (!(wanted > 0)) return window;
  if (wanted > most_pixels) window.px_per_mm *= std::sqrt(most_pixels / wanted);
  const int rows = std::max(1, static_cast<int>(std::lround(place.height * window.px_per_mm))),
            columns = std::max(1, static_cast<int>(std::lround(place.width * window.px_per_mm)));
  window.lab = ImageF(rows, columns, 3);
  const PhotoPart part = part_of(photo, placement, place);
  // Where the photo is finer than the window, each window pixel is the mean of n x n places in it.
  const double finer = placement.px_per_mm(place.centre()) / window.px_per_mm;
  // A place between four pixels has their mean: twice as fine needs one. More than four cost time and show
  // nothing.
  const int n = std::clamp(static_cast<int>(std::lround(0.45 * finer)), 1, 2);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column) {
      Vector3 sum{};
      int count = 0;
      for (int i = 0; i < n; ++i)
        for (int k = 0; k < n; ++k) {
          const PointPx p = placement.px_from_mm({place.x + (column + (k + 0.5) / n) / window.px_per_mm,
                                                  place.y + (row + (i + 0.5) / n) / window.px_per_mm});
          if (part.values.empty() || !part.contains(p)) continue;
          const Vector3 value = part.at(p);
          for (std::size_t c = 0; c < 3; ++c) sum[c] += value[c];
          ++count;
        }
      float* out = window.lab.at(row, column);
      if (count == 0) {
        std::fill(out, out + 3, std::numeric_limits<float>::quiet_NaN());
        continue;
      }
      for (double& v : sum) v /= count;
      const Vector3 lab =
          vector_from(lab_from_xyz(calibration.xyz_from_pixel({window.mm_of(row, column), sum}), white_d50));
      for (std::size_t c = 0; c < 3; ++c) out[c] = static_cast<float>(lab[c]);
    }
  return window;
}

}  // namespace colorlib
