#include <algorithm>
#include <cmath>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/photo_ground.hpp>

namespace tintfall::viewer {

namespace {

constexpr double smooth_below_zoom = 2;  // above, pixels of the photo are to be seen as such

bool same_but_for_shift(const GroundView& a, const GroundView& b) {
  const QTransform &s = a.to_device, &t = b.to_device;
  return a.size_px == b.size_px && a.ratio == b.ratio && a.hasty == b.hasty && s.m11() == t.m11() &&
         s.m12() == t.m12() && s.m21() == t.m21() && s.m22() == t.m22();
}

}  // namespace

int PhotoGround::wanted_level() const {
  return std::clamp(static_cast<int>(std::floor(-std::log2(std::min(1.0, view_.zoom)) + 0.25)), 0,
                    tiles_.levels() - 1);
}

std::vector<TilePlace> PhotoGround::places(int level, const QRect& device) const {
  const double scale = 1 << level;
  const QRectF seen = QRectF(device).adjusted(-1, -1, 1, 1);
  const QRectF photo = view_.to_device.inverted().mapRect(seen);
  const QTransform to_device = tile_to_device(level);
  const QSize size = tiles_.level_size(level);
  // Photo px -> tile; a level's first pixel's corner is (0, 0).
  const auto along = [scale](double px, int extent) {
    return std::clamp(static_cast<int>((px + 0.5) / scale / TileStore::side), 0,
                      (extent - 1) / TileStore::side);
  };
  std::vector<TilePlace> found;
  for (int r = along(photo.top(), size.height()); r <= along(photo.bottom(), size.height()); ++r)
    for (int c = along(photo.left(), size.width()); c <= along(photo.right(), size.width()); ++c)
      if (const TilePlace place{level, c, r};
          seen.intersects(to_device.mapRect(QRectF(tiles_.tile_rectangle(place)))))
        found.push_back(place);
  return found;
}

QTransform PhotoGround::tile_to_device(int level) const {
  const double scale = 1 << level;
  return QTransform::fromScale(scale, scale) * QTransform::fromTranslate(-0.5, -0.5) * view_.to_device;
}

void PhotoGround::draw_place(QPainter& painter, const TilePlace& place) {
  const QRectF wanted = tiles_.tile_rectangle(place);
  painter.setTransform(tile_to_device(place.level));
  for (int level = place.level; level < tiles_.levels(); ++level) {
    const double share = 1.0 / (1 << (level - place.level));
    const int side = TileStore::side << (level - place.level);
    const TilePlace coarser{level, static_cast<int>(wanted.left()) / side,
                            static_cast<int>(wanted.top()) / side};
    const QImage* image = tiles_.cached(coarser);
    if (image == nullptr) {
      if (level == tiles_.levels() - 1) tiles_.tile(coarser);  // so that next time there is something
      continue;
    }
    const QPointF shift = tiles_.tile_rectangle(coarser).topLeft();
    const QRectF part =
        QRectF(wanted.topLeft() * share - shift, wanted.size() * share) & QRectF(image->rect());
    if (part.isEmpty()) return;
    painter.drawImage(QRectF((part.topLeft() + shift) / share, part.size() / share), *image, part);
    return;
  }
}

void PhotoGround::draw(const QRect& device) {
  QPainter painter(&drawn_);
  painter.setClipRect(device);
  painter.fillRect(device, neutral_ground());
  painter.setRenderHint(QPainter::SmoothPixmapTransform, !view_.hasty && view_.zoom < smooth_below_zoom);
  // Where turned tiles meet, a pixel may belong to neither: then it is not the ground that shows.
  const int coarsest = tiles_.levels() - 1;
  if (view_.to_device.m12() != 0 && wanted_level() < coarsest)
    for (const TilePlace& place : places(coarsest, device)) draw_place(painter, place);
  for (const TilePlace& place : places(wanted_level(), device)) draw_place(painter, place);
}

int PhotoGround::paint(QPainter& painter, const GroundView& view) {
  const GroundView before = std::exchange(view_, view);
  const QRect whole(QPoint(0, 0), view.size_px);
  QRegion stale;
  if (drawn_.isNull() || !same_but_for_shift(before, view)) {
    drawn_ = QPixmap(view.size_px);
    stale = whole;
  } else {
    const int dx = static_cast<int>(std::lround(view.to_device.dx() - before.to_device.dx()));
    const int dy = static_cast<int>(std::lround(view.to_device.dy() - before.to_device.dy()));
    if (dx != 0 || dy != 0) drawn_.scroll(dx, dy, whole, &stale);
    const int wanted = wanted_level();
    for (const TilePlace& place : came_)
      if (place.level >= wanted)
        stale += tile_to_device(place.level)
                     .mapRect(QRectF(tiles_.tile_rectangle(place)))
                     .toAlignedRect()
                     .adjusted(-1, -1, 1, 1) &
                 whole;
  }
  came_.clear();
  int missing = 0;
  for (const TilePlace& place : places(wanted_level(), whole)) missing += tiles_.tile(place) == nullptr;
  for (const QRect& part : stale) draw(part);
  painter.save();
  painter.scale(1 / view.ratio, 1 / view.ratio);
  painter.drawPixmap(0, 0, drawn_);
  painter.restore();
  return missing;
}

}  // namespace tintfall::viewer
