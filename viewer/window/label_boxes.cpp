#include <algorithm>
#include <cmath>
#include <limits>
#include <viewer/window/label_boxes.hpp>

namespace tintfall::viewer {

namespace {

constexpr double gap_px = 4;
constexpr int rings = 8;
/// How much worse a pixel of overlap is than a pixel of distance: words under words cannot be read, words
/// over a region hide what is looked at, words outside the view are cut off.
constexpr double label_weight = 50, region_weight = 2, outside_weight = 10;

double area(const QRectF& box) { return box.isEmpty() ? 0 : box.width() * box.height(); }

/// Where a label may stand: on the eight sides of the region, ring after ring further out.
std::vector<QRectF> places_round(const LabelWanted& wanted) {
  std::vector<QRectF> places;
  const QRectF& region = wanted.region;
  const QSizeF& size = wanted.size;
  for (int ring = 0; ring < rings; ++ring) {
    const double away = gap_px + ring * (size.height() + gap_px);
    const double above = region.top() - away - size.height(), below = region.bottom() + away;
    const double before = region.left() - gap_px - size.width(), after = region.right() + gap_px;
    const double end = region.right() - size.width(), middle = region.center().y() - size.height() / 2;
    for (const QPointF& corner :
         {QPointF(region.left(), above), QPointF(end, above), QPointF(region.left(), below),
          QPointF(end, below), QPointF(after, middle - away + gap_px), QPointF(after, middle + away - gap_px),
          QPointF(before, middle - away + gap_px), QPointF(before, middle + away - gap_px)})
      places.emplace_back(corner, size);
  }
  return places;
}

}  // namespace

std::vector<QRectF> label_boxes(const std::vector<LabelWanted>& wanted, const QRectF& view) {
  std::vector<QRectF> boxes;
  for (const LabelWanted& each : wanted) {
    const bool seen = each.region.intersects(view);
    QRectF best;
    double least = std::numeric_limits<double>::infinity();
    for (const QRectF& place : places_round(each)) {
      double cost = std::hypot(place.center().x() - each.region.center().x(),
                               place.center().y() - each.region.center().y());
      if (seen) cost += outside_weight * (area(place) - area(place & view));
      for (const LabelWanted& other : wanted) cost += region_weight * area(place & other.region);
      for (const QRectF& box : boxes) cost += label_weight * area(place & box);
      if (cost >= least) continue;
      least = cost;
      best = place;
    }
    // With no free place left, under the lowest one in the way.
    for (auto other = boxes.begin(); other != boxes.end();)
      if (other->intersects(best)) {
        best.moveTop(other->bottom() + 1);
        other = boxes.begin();
      } else {
        ++other;
      }
    boxes.push_back(best);
  }
  return boxes;
}

}  // namespace tintfall::viewer
