#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/exports/sheet_picture.hpp>
#include <vector>

namespace colorlib {

Image8 sheet_picture(const Photo& photo, const Placement& placement, const Calibration& calibration,
                     const RectangleMm& rectangle, double px_per_mm, const DisplayTransform& display,
                     const Progress& progress) {
  constexpr double most_pixels = 16e6;
  const double area = rectangle.width * rectangle.height;
  const double scale = std::min(px_per_mm, std::sqrt(most_pixels / std::max(area, 1.0)));
  const int columns = std::max(1, static_cast<int>(std::lround(rectangle.width * scale)));
  const int rows = std::max(1, static_cast<int>(std::lround(rectangle.height * scale)));
  Image8 picture(rows, columns, 3);
  std::vector<Lab> line(static_cast<std::size_t>(columns));
  const PointMm middle{rectangle.x + rectangle.width / 2, rectangle.y + rectangle.height / 2};
  constexpr double fine = 1.5;
  const std::vector<double> offsets =
      placement.px_per_mm(middle) > fine * scale ? std::vector{0.25, 0.75} : std::vector{0.5};
  for (int r = 0; r < rows && !progress.cancelled(); ++r) {
    for (int c = 0; c < columns; ++c) {
      // The mean of the file's own values, for a picture to look at: the calibration is what takes the time.
      Vector3 sum{};
      int count = 0;
      for (const double dy : offsets)
        for (const double dx : offsets) {
          const PointMm place{rectangle.x + (c + dx) / scale, rectangle.y + (r + dy) / scale};
          const PointPx px = placement.px_from_mm(place);
          const auto column = std::lround(px.x), row = std::lround(px.y);
          if (column < 0 || row < 0 || column >= photo.width_px() || row >= photo.height_px()) continue;
          const Vector3 value = photo.encoded_at(static_cast<int>(column), static_cast<int>(row));
          for (std::size_t k = 0; k < 3; ++k) sum[k] += value[k];
          ++count;
        }
      for (double& value : sum) value /= std::max(count, 1);
      const PointMm centre{rectangle.x + (c + 0.5) / scale, rectangle.y + (r + 0.5) / scale};
      line[static_cast<std::size_t>(c)] =
          count > 0 ? lab_from_xyz(calibration.xyz_from_pixel({centre, sum}), white_d50) : Lab{50, 0, 0};
    }
    display.from_lab(line.data(), picture.at(r, 0), nullptr, line.size());
  }
  return picture;
}

}  // namespace colorlib
