#pragma once
/// The pictures of a photo, tile by tile, made on workers when a view asks for them.

#include <QCache>
#include <QImage>
#include <QObject>
#include <QSet>
#include <colorlib/exports/photo_tiles.hpp>
#include <viewer/tasks/photo_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>

namespace tintfall::viewer {

struct TilePlace {
  int level = 0, column = 0, row = 0;
  bool operator==(const TilePlace&) const = default;
};
inline size_t qHash(const TilePlace& place, size_t seed = 0) {
  return qHashMulti(seed, place.level, place.column, place.row);
}

/// What tiles are made of. A new source forgets all tiles of the old one.
struct TileSource {
  std::shared_ptr<const OpenedPhoto> photo;
  CalibratedPhoto sheet;  ///< null: as taken only
  colorlib::PhotoRendering rendering = colorlib::PhotoRendering::as_taken;
  colorlib::Lab difference_from;
  double difference_full = 10;
  Screen screen;
  bool mark_clipped = false;  ///< hatch pixels that the screen shows duller than they are
};

/// Holds at most `cache_bytes` of finished tiles. The tile of the coarsest level is always kept once made, so
/// that a view has something to show at once. Only one thread, the window's, calls it.
class TileStore : public QObject {
  Q_OBJECT
 public:
  static constexpr int side = 256;
  static constexpr qsizetype cache_kib = 160 * 1024;

  explicit TileStore(QObject* parent = nullptr);
  ~TileStore() override;
  void set_source(TileSource source);
  const TileSource& source() const { return source_; }
  int levels() const;                                  ///< 0 without a photo
  QSize level_size(int level) const;                   ///< of a level there is
  QRect tile_rectangle(const TilePlace& place) const;  ///< in pixels of its level
  /// The tile if it is there; else null, and it is asked for.
  const QImage* tile(const TilePlace& place);
  /// The tile if it is there; asks for nothing.
  const QImage* cached(const TilePlace& place) const;
  /// What is asked for but not begun is forgotten: the view moved on.
  void forget_requests();
  bool working() const { return !requested_.isEmpty(); }

 signals:
  void tile_ready(const tintfall::viewer::TilePlace& place);
  void traced(const tintfall::viewer::JobTrace& trace);

 private:
  struct Shared;
  QCache<TilePlace, QImage> tiles_;
  QHash<TilePlace, QImage> coarsest_;
  QSet<TilePlace> requested_;
  TileSource source_;
  std::shared_ptr<Shared> shared_;  ///< of the present source; workers of an old one see that it ended
};

}  // namespace tintfall::viewer
