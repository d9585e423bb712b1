#include <QPainter>
#include <algorithm>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/magnifier.hpp>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/photo_view.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int shown_pixels = 15;
constexpr double least_radius_px = 2.5, radius_on_screen_px = 4;

}  // namespace

Magnifier::Magnifier(PhotoDocument& document, PhotoView& view, QWidget* parent)
    : QWidget(parent), document_(document), view_(view), lane_(QStringLiteral("probe")) {
  setFixedHeight(74);
  setAccessibleName(tr("Colour under the pointer"));
  connect(&view_, &PhotoView::pointed_changed, this, [this](const QPointF& place) {
    place_ = place;
    update();
    lane_.busy() ? void(waiting_ = place) : probe(place);
  });
  connect(&document_, &PhotoDocument::sheet_changed, this, [this] {
    if (place_) probe(*place_);  // what stands there is of the calibration before
  });
  connect(&document_, &PhotoDocument::photo_changed, this, [this] {
    lane_.cancel();
    waiting_.reset();
    place_.reset();
    swatch_.reset();
    text_.clear();
    update();
  });
  connect(&view_.tiles(), &TileStore::tile_ready, this, qOverload<>(&QWidget::update));
}

void Magnifier::probe(const QPointF& place) {
  waiting_.reset();
  if (!document_.sheet()) {
    lane_.cancel();
    text_ = tr("x %1, y %2 px; no calibrated colour without a sheet")
                .arg(figure(place.x(), 0))
                .arg(figure(place.y(), 0));
    swatch_.reset();
    setAccessibleDescription(text_);
    return update();
  }
  const double radius = std::max(least_radius_px, radius_on_screen_px / view_.zoom());
  lane_.start(
      [parameters =
           ProbeParameters{document_.photo(), document_.sheet(), {place.x(), place.y()}, radius, screen_}](
          Progress& progress) { return probe_color(parameters, progress); },
      [this, place](Result<ShownReading> shown) {
        if (shown) {
          swatch_ = shown->swatch;
          text_ =
              tr("L* %1 ± %2   a* %3 ± %4   b* %5 ± %6\n%7 (%8)   Munsell %9")
                  .arg(shown->lab[0], shown->expanded[0], shown->lab[1], shown->expanded[1], shown->lab[2],
                       shown->expanded[2], shown->name, shown->probability, shown->munsell);
          text_ += tr("   x %1, y %2 px").arg(figure(place.x(), 0)).arg(figure(place.y(), 0));
        } else {
          swatch_.reset();
          text_ = short_error_words(shown.error());
        }
        setAccessibleDescription(text_);
        update();
        if (waiting_) probe(*waiting_);
      });
}

void Magnifier::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  const QRect loupe(6, 4, height() - 8, height() - 8);
  painter.setPen(Qt::white);
  if (!place_) {
    painter.drawText(rect().adjusted(12, 0, -8, 0), Qt::AlignVCenter | Qt::AlignLeft,
                     tr("Point into the photo: its pixels, colour and name appear here."));
    return;
  }
  painter.drawImage(loupe, view_.pixels_around(*place_, shown_pixels));
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(Qt::black, 3));
  const double cell = static_cast<double>(loupe.width()) / shown_pixels;
  const QRectF middle(loupe.left() + cell * (shown_pixels / 2), loupe.top() + cell * (shown_pixels / 2), cell,
                      cell);
  painter.drawRect(middle);
  painter.setPen(QPen(Qt::white, 1));
  painter.drawRect(middle);
  int left = loupe.right() + 8;
  if (swatch_) {
    painter.fillRect(QRect(left, loupe.top(), loupe.height(), loupe.height()), swatch_->color);
    left += loupe.height() + 10;
  }
  painter.setPen(Qt::white);
  painter.drawText(QRect(left, 0, width() - left - 6, height()),
                   Qt::AlignVCenter | Qt::AlignLeft | Qt::TextWordWrap, text_);
}

}  // namespace tintfall::viewer
