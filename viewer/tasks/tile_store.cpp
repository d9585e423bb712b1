#include <QCoreApplication>
#include <QMutex>
#include <QMutexLocker>
#include <QThread>
#include <QThreadPool>
#include <atomic>
#include <colorlib/base/worker_threads.hpp>
#include <deque>
#include <viewer/tasks/quiet_thread.hpp>
#include <viewer/tasks/tile_store.hpp>

namespace tintfall::viewer {
namespace {

constexpr int workers = 2;

QThreadPool& pool() {
  static QThreadPool threads;
  static const bool set = [] {
    threads.setMaxThreadCount(workers);
    return true;
  }();
  Q_UNUSED(set);
  return threads;
}

QImage image_from(const colorlib::PhotoTile& tile, bool mark_clipped) {
  QImage image(tile.pixels.columns, tile.pixels.rows, QImage::Format_RGB32);
  for (int r = 0; r < tile.pixels.rows; ++r) {
    auto* line = reinterpret_cast<QRgb*>(image.scanLine(r));
    const std::uint8_t* pixel = tile.pixels.at(r, 0);
    for (int c = 0; c < tile.pixels.columns; ++c, pixel += 3) line[c] = qRgb(pixel[0], pixel[1], pixel[2]);
    if (!mark_clipped || tile.clipped.empty()) continue;
    // A diagonal hatch in black and white: a mark that needs no colour.
    for (int c = 0; c < tile.pixels.columns; ++c)
      if (*tile.clipped.at(r, c) != 0 && (r + c) % 6 < 2)
        line[c] = (r + c) % 6 == 0 ? qRgb(0, 0, 0) : qRgb(255, 255, 255);
  }
  return image;
}

QImage picture_of(const TileSource& source, const TilePlace& place) {
  constexpr int side = TileStore::side;
  colorlib::TileRequest request;
  request.rendering = source.rendering;
  request.level = place.level;
  request.rectangle = {place.column * side, place.row * side, side, side};
  request.difference_from = source.difference_from;
  request.difference_full = source.difference_full;
  request.bright_end = source.photo->bright_end;
  const auto* sheet = source.sheet.get();
  return image_from(colorlib::photo_tile(source.photo->pyramid, sheet ? &sheet->sheet.placement : nullptr,
                                         sheet ? &sheet->calibration : nullptr, request, *source.screen),
                    source.mark_clipped);
}

}  // namespace

struct TileStore::Shared {
  TileSource source;
  QMutex mutex;
  std::deque<TilePlace> open;  ///< the newest request is served first: it is what the eye is on
  int at_work = 0;
  TileStore* store = nullptr;

  bool take(TilePlace& place) {
    const QMutexLocker lock(&mutex);
    if (store == nullptr || open.empty()) {
      --at_work;
      return false;
    }
    place = open.back();
    open.pop_back();
    return true;
  }
};

TileStore::TileStore(QObject* parent) : QObject(parent), tiles_(cache_kib) {}

TileStore::~TileStore() { set_source({}); }

void TileStore::set_source(TileSource source) {
  if (shared_) {
    const QMutexLocker lock(&shared_->mutex);
    shared_->store = nullptr;
    shared_->open.clear();
  }
  tiles_.clear();
  coarsest_.clear();
  requested_.clear();
  source_ = std::move(source);
  shared_ = std::make_shared<Shared>();
  shared_->source = source_;
  shared_->store = this;
}

int TileStore::levels() const { return source_.photo ? source_.photo->pyramid.levels() : 0; }

QSize TileStore::level_size(int level) const {
  const auto& pyramid = source_.photo->pyramid;
  return {pyramid.width_px(level), pyramid.height_px(level)};
}

QRect TileStore::tile_rectangle(const TilePlace& place) const {
  return QRect(place.column * side, place.row * side, side, side)
      .intersected(QRect(QPoint(0, 0), level_size(place.level)));
}

const QImage* TileStore::cached(const TilePlace& place) const {
  if (const auto kept = coarsest_.constFind(place); kept != coarsest_.cend()) return &*kept;
  return tiles_.object(place);
}

const QImage* TileStore::tile(const TilePlace& place) {
  if (!source_.photo) return nullptr;
  if (const QImage* found = cached(place)) return found;
  if (requested_.contains(place)) return nullptr;
  requested_.insert(place);
  const QMutexLocker lock(&shared_->mutex);
  shared_->open.push_back(place);
  if (shared_->at_work >= workers) return nullptr;
  ++shared_->at_work;
  pool().start([shared = shared_] {
    weigh_less();
    TilePlace place;
    while (shared->take(place)) {
      const auto made = colorlib::guarded(
          "A tile", [&]() -> colorlib::Result<QImage> { return picture_of(shared->source, place); });
      if (!made) qWarning("%s", made.error().message.c_str());
      const QImage image = made.value_or(QImage());  // null: not to be had now
      const JobTrace trace{QStringLiteral("tile"),
                           QThread::currentThread() == QCoreApplication::instance()->thread(), 1, false};
      const QMutexLocker lock(&shared->mutex);
      if (shared->store == nullptr) continue;
      QMetaObject::invokeMethod(
          shared->store,
          [shared, place, image, trace] {
            TileStore* store = shared->store;
            if (store == nullptr || store->shared_ != shared) return;
            store->requested_.remove(place);
            if (image.isNull()) return;  // asked for again when the view is next painted
            if (place.level == store->levels() - 1)
              store->coarsest_.insert(place, image);
            else
              store->tiles_.insert(place, new QImage(image),
                                   std::max<qsizetype>(1, image.sizeInBytes() / 1024));
            emit store->traced(trace);
            emit store->tile_ready(place);
          },
          Qt::QueuedConnection);
    }
  });
  return nullptr;
}

void TileStore::forget_requests() {
  if (!shared_) return;
  const QMutexLocker lock(&shared_->mutex);
  for (const TilePlace& place : shared_->open) requested_.remove(place);
  shared_->open.clear();
}

}  // namespace tintfall::viewer
