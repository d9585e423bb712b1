#include <algorithm>
#include <viewer/tasks/image_from.hpp>

namespace tintfall::viewer {

QImage image_from(const colorlib::Image8& pixels) {
  QImage image(pixels.columns, pixels.rows, QImage::Format_RGB888);
  for (int r = 0; r < pixels.rows; ++r)
    std::copy(pixels.at(r, 0), pixels.at(r, 0) + static_cast<std::ptrdiff_t>(pixels.columns) * 3,
              image.scanLine(r));
  return image;
}

}  // namespace tintfall::viewer
