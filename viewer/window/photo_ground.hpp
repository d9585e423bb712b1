#pragma once
/// The picture of the photo under everything that is drawn over it, kept from one paint to the next.

#include <QPainter>
#include <QPixmap>
#include <QRegion>
#include <QTransform>
#include <viewer/tasks/tile_store.hpp>

namespace tintfall::viewer {

/// How the photo stands on the widget.
struct GroundView {
  QTransform to_device;  ///< photo px -> pixels of the device; its shift is whole pixels
  QSize size_px;         ///< of the widget, in pixels of the device
  double ratio = 1;      ///< pixels of the device for a pixel of the widget
  double zoom = 1;       ///< pixels of the device for a pixel of the photo
  bool hasty = false;    ///< in motion: pixels are not smoothed
};

/// A view that only moved is shifted, and just what came into sight is drawn; a tile that came is drawn where
/// it lies. Where a tile is not ready, the nearest coarser one that is stands in: painting waits for nothing.
class PhotoGround {
 public:
  explicit PhotoGround(TileStore& tiles) : tiles_(tiles) {}
  /// Everything is drawn anew next time.
  void forget() { drawn_ = QPixmap(); }
  void tile_came(const TilePlace& place) { came_.push_back(place); }
  /// Draws what is wanting, and the result on the whole widget. Returns how many tiles of the view are still
  /// to come.
  int paint(QPainter& painter, const GroundView& view);

 private:
  int wanted_level() const;
  std::vector<TilePlace> places(int level, const QRect& device) const;  ///< that show in this part
  QTransform tile_to_device(int level) const;
  void draw(const QRect& device);
  void draw_place(QPainter& painter, const TilePlace& place);

  TileStore& tiles_;
  GroundView view_;
  QPixmap drawn_;
  std::vector<TilePlace> came_;  ///< since the last paint
};

}  // namespace tintfall::viewer
