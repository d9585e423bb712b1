#include <QPainter>
#include <algorithm>
#include <cmath>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/photo_view.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr double most_zoom = 40, margin_px = 12;
constexpr int rest_ms = 120;  // after the last step of a zoom

}  // namespace

PhotoView::PhotoView(PhotoDocument& document, QWidget* parent)
    : QWidget(parent), document_(document), ground_(tiles_) {
  setMouseTracking(true);
  setFocusPolicy(Qt::StrongFocus);
  setMinimumSize(240, 180);
  setAttribute(Qt::WA_OpaquePaintEvent);
  setAccessibleName(tr("Photo"));
  setAccessibleDescription(
      tr("The photo with the sheet and the regions. Arrow keys move the view, Ctrl and arrow keys the "
         "crosshair, Enter uses the tool at the crosshair."));
  rest_.setSingleShot(true);
  rest_.setInterval(rest_ms);
  connect(&rest_, &QTimer::timeout, this, qOverload<>(&QWidget::update));
  connect(&tiles_, &TileStore::tile_ready, this, [this](const TilePlace& place) {
    ground_.tile_came(place);
    update();
  });
  connect(&document_, &PhotoDocument::photo_changed, this, [this] {
    drawing_.clear();
    pointed_.reset();
    dragged_corners_.reset();
    selected_.clear();
    rotation_deg_ = 0;
    choose_first();  // saved work has its regions before its photo
    renew_source();
    fit();
  });
  connect(&document_, &PhotoDocument::sheet_changed, this, [this] {
    dragged_corners_.reset();
    renew_source();
  });
  connect(&document_, &PhotoDocument::regions_changed, this, [this] {
    choose_first();
    update();
  });
  connect(&document_, &PhotoDocument::readings_changed, this, [this] {
    if (rendering_ == PhotoRendering::difference) renew_source();
    update();
  });
}

void PhotoView::set_rendering(PhotoRendering rendering) {
  if (rendering == rendering_) return;
  rendering_ = rendering;
  renew_source();
  emit view_changed();
}

void PhotoView::set_layers(const PhotoLayers& layers) {
  layers_ = layers;
  update();
}

void PhotoView::set_tool(DrawingTool tool) {
  if (tool == tool_) return;
  tool_ = tool;
  drawing_.clear();
  setCursor(tool == DrawingTool::look ? Qt::ArrowCursor : Qt::CrossCursor);
  emit tool_changed(tool);
  update();
}

void PhotoView::set_screen(const Screen& screen, bool mark_clipped) {
  screen_ = screen;
  mark_clipped_ = mark_clipped;
  renew_source();
}

void PhotoView::set_difference_full(double de00) {
  difference_full_ = de00;
  if (rendering_ == PhotoRendering::difference) renew_source();
}

void PhotoView::set_corner_handles(bool shown) {
  corner_handles_ = shown;
  dragged_corners_.reset();
  update();
}

void PhotoView::select(const QString& region) {
  by_person_ = true;
  show_choice(region);
  update();
}

void PhotoView::choose_first() {
  if (selected_region() != nullptr || document_.regions().regions.items.empty()) return;
  by_person_ = false;
  show_choice(QString::fromStdString(document_.regions().regions.items.front().id));
}

void PhotoView::show_choice(const QString& region) {
  if (region == selected_) return;
  selected_ = region;
  if (rendering_ == PhotoRendering::difference) renew_source();
  emit selected_changed(region);
  update();
}

void PhotoView::renew_source() {
  TileSource source;
  if (document_.photo() && screen_) {
    source.photo = document_.photo();
    source.sheet = document_.sheet();
    source.rendering = source.sheet ? rendering_ : PhotoRendering::as_taken;
    source.difference_full = difference_full_;
    source.screen = screen_;
    source.mark_clipped = mark_clipped_;
    const ShownReading* reading = document_.reading_of(selected_);
    if (reading == nullptr && !document_.readings().empty()) reading = &document_.readings().front();
    if (reading != nullptr && !reading->reading.refused)
      source.difference_from = reading->reading.lab;
    else if (source.rendering == PhotoRendering::difference)
      source.rendering = PhotoRendering::as_taken;
  }
  tiles_.set_source(std::move(source));
  ground_.forget();
  update();
}

QTransform PhotoView::view() const {
  QTransform turned;
  turned.rotate(rotation_deg_);
  turned.scale(zoom_, zoom_);
  // Whole pixels of the device, so that a view that moves can be shifted instead of drawn anew.
  const double ratio = devicePixelRatioF();
  const QPointF shift = QPointF(width() / 2.0, height() / 2.0) - turned.map(centre_);
  return turned * QTransform::fromTranslate(std::round(shift.x() * ratio) / ratio,
                                            std::round(shift.y() * ratio) / ratio);
}

QPointF PhotoView::photo_from_widget(const QPointF& point) const { return view().inverted().map(point); }
QPointF PhotoView::widget_from_photo(const QPointF& point) const { return view().map(point); }

void PhotoView::fit() {
  fitted_ = true;
  if (!document_.photo()) return;
  const auto& pyramid = document_.photo()->pyramid;
  const double w = pyramid.width_px(0), h = pyramid.height_px(0);
  centre_ = {(w - 1) / 2, (h - 1) / 2};
  const QRectF turned = QTransform().rotate(rotation_deg_).mapRect(QRectF(0, 0, w, h));
  zoom_ = std::max(1e-3, std::min((width() - 2 * margin_px) / turned.width(),
                                  (height() - 2 * margin_px) / turned.height()));
  tiles_.forget_requests();
  emit view_changed();
  update();
}

void PhotoView::zoom_by(double factor) {
  fitted_ = false;
  const QPointF anchor = pointed_ ? *pointed_ : centre_;
  const QPointF before = widget_from_photo(anchor);
  const double least = 0.5 * std::min(width(), height()) /
                       std::max(1, document_.photo() ? document_.photo()->pyramid.width_px(0) : 1);
  zoom_ = std::clamp(zoom_ * factor, std::min(least, zoom_), most_zoom);
  centre_ += anchor - photo_from_widget(before);
  rest_.start();
  tiles_.forget_requests();
  emit view_changed();
  update();
}

void PhotoView::zoom_to_pixels() { zoom_by(1 / (zoom_ * devicePixelRatioF())); }

void PhotoView::rotate_by(double degrees) {
  rotation_deg_ = std::remainder(rotation_deg_ + degrees, 360.0);
  if (fitted_) return fit();
  emit view_changed();
  update();
}

void PhotoView::show_place(const QRectF& place_px) {
  centre_ = place_px.center();
  fitted_ = false;
  const double extent = std::max({place_px.width(), place_px.height(), 20.0});
  zoom_ = std::min(most_zoom, 0.5 * std::min(width(), height()) / extent);
  tiles_.forget_requests();
  emit view_changed();
  update();
}

void PhotoView::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if (fitted_) fit();
}

void PhotoView::paintEvent(QPaintEvent* event) {
  Q_UNUSED(event);
  QPainter painter(this);
  missing_tiles_ = 0;
  if (!document_.photo()) {
    painter.fillRect(rect(), neutral_ground());
    return paint_message(painter, tr("Drop a photo here, paste one, or open it with Ctrl+O.\n"
                                     "It has to show a printed sheet beside the specimen."));
  }
  if (tiles_.levels() > 0)
    paint_ground(painter);
  else
    painter.fillRect(rect(), neutral_ground());  // the photo was faster than the screen's profile
  painter.setRenderHint(QPainter::Antialiasing);
  paint_layers(painter);
  paint_drawing(painter);
}

void PhotoView::paint_ground(QPainter& painter) {
  GroundView ground;
  ground.ratio = devicePixelRatioF();
  ground.to_device = view() * QTransform::fromScale(ground.ratio, ground.ratio);
  ground.size_px = (QSizeF(size()) * ground.ratio).toSize();
  ground.zoom = zoom_ * ground.ratio;
  ground.hasty = rest_.isActive();
  missing_tiles_ = ground_.paint(painter, ground);
}

QImage PhotoView::pixels_around(const QPointF& place_px, int count) {
  QImage pixels(count, count, QImage::Format_RGB32);
  pixels.fill(neutral_ground());
  if (tiles_.levels() == 0) return pixels;
  const int left = static_cast<int>(std::lround(place_px.x())) - count / 2;
  const int top = static_cast<int>(std::lround(place_px.y())) - count / 2;
  const QRect whole(QPoint(0, 0), tiles_.level_size(0));
  QPainter painter(&pixels);
  const QRect wanted = QRect(left, top, count, count).intersected(whole);
  for (int r = wanted.top() / TileStore::side; r <= wanted.bottom() / TileStore::side; ++r)
    for (int c = wanted.left() / TileStore::side; c <= wanted.right() / TileStore::side; ++c)
      if (const QImage* image = tiles_.tile({0, c, r}))
        painter.drawImage(c * TileStore::side - left, r * TileStore::side - top, *image);
  return pixels;
}

void PhotoView::paint_message(QPainter& painter, const QString& text) {
  painter.setPen(Qt::white);
  QFont large = font();
  large.setPointSizeF(large.pointSizeF() * 1.2);
  painter.setFont(large);
  painter.drawText(rect().adjusted(20, 20, -20, -20), Qt::AlignCenter | Qt::TextWordWrap, text);
}

std::optional<PointMm> PhotoView::sheet_place(const QPointF& photo) const {
  if (!document_.sheet()) return std::nullopt;
  return document_.sheet()->sheet.placement.mm_from_px({photo.x(), photo.y()});
}

const Region* PhotoView::selected_region() const {
  for (const Region& region : document_.regions().regions.items)
    if (QString::fromStdString(region.id) == selected_) return &region;
  return nullptr;
}

}  // namespace tintfall::viewer
