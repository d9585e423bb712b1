#include <algorithm>
#include <viewer/window/label_boxes.hpp>

namespace tintfall::viewer {

std::vector<QRectF> kept_apart(std::vector<QRectF> boxes) {
  for (auto box = boxes.begin(); box != boxes.end(); ++box) {
    const auto hidden_by = [&] {
      return std::find_if(boxes.begin(), box, [&](const QRectF& other) { return other.intersects(*box); });
    };
    for (auto other = hidden_by(); other != box; other = hidden_by()) box->moveTop(other->bottom() + 1);
  }
  return boxes;
}

}  // namespace tintfall::viewer
