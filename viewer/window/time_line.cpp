#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <viewer/settings/figures.hpp>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/time_line.hpp>

namespace tintfall::viewer {

namespace {

constexpr int thumb_px = 64, edge_px = 30, line_y = 92, grab_px = 10;

}  // namespace

TimeLine::TimeLine(QWidget* parent) : QWidget(parent) {
  setFixedHeight(128);
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(tr("Time line of the series"));
}

void TimeLine::set_outcome(std::shared_ptr<const SeriesOutcome> outcome) {
  outcome_ = std::move(outcome);
  if (!outcome_) setAccessibleDescription({});
  thumbnails_.clear();
  if (outcome_)
    for (const SeriesFrame& frame : outcome_->frames)
      thumbnails_.push_back(frame.picture.isNull()
                                ? QImage()
                                : frame.picture.scaled(2 * thumb_px, 2 * thumb_px, Qt::KeepAspectRatio,
                                                       Qt::SmoothTransformation));
  set_frame(thumbnails_.empty() ? -1 : std::clamp(frame_, 0, static_cast<int>(thumbnails_.size()) - 1));
  update();
}

void TimeLine::set_frame(int frame) {
  if (outcome_ && frame >= 0 && frame < static_cast<int>(outcome_->frames.size())) {
    const SeriesFrame& now = outcome_->frames[static_cast<std::size_t>(frame)];
    setAccessibleDescription(tr("Frame %1 of %2, %3, %4 s")
                                 .arg(frame + 1)
                                 .arg(outcome_->frames.size())
                                 .arg(now.name)
                                 .arg(figure(now.seconds, 1)));
  }
  if (frame == frame_) return;
  frame_ = frame;
  emit frame_changed(frame);
  update();
}

double TimeLine::first_s() const {
  return outcome_ && !outcome_->frames.empty() ? std::min(0.0, outcome_->frames.front().seconds) : 0;
}
double TimeLine::last_s() const {
  return outcome_ && !outcome_->frames.empty() ? std::max(first_s() + 1, outcome_->frames.back().seconds) : 1;
}

double TimeLine::x_of(double seconds) const {
  return edge_px + (seconds - first_s()) / (last_s() - first_s()) * (width() - 2 * edge_px);
}
double TimeLine::seconds_at(double x) const {
  return first_s() + std::clamp((x - edge_px) / (width() - 2 * edge_px), 0.0, 1.0) * (last_s() - first_s());
}

int TimeLine::frame_near(double x) const {
  int nearest = -1;
  double least = 1e9;
  for (std::size_t i = 0; outcome_ && i < outcome_->frames.size(); ++i) {
    const double distance = std::abs(x_of(outcome_->frames[i].seconds) - x);
    if (distance < least) {
      least = distance;
      nearest = static_cast<int>(i);
    }
  }
  return nearest;
}

void TimeLine::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.fillRect(rect(), neutral_ground());
  painter.setPen(Qt::white);
  if (!outcome_ || outcome_->frames.empty()) {
    painter.drawText(rect(), Qt::AlignCenter, tr("The frames of the series appear here along their times."));
    return;
  }
  const int count = static_cast<int>(outcome_->frames.size());
  painter.drawLine(QPointF(edge_px, line_y), QPointF(width() - edge_px, line_y));
  // As many thumbnails as fit, evenly chosen, the present one among them.
  const int room = std::max(1, (width() - 2 * 6) / (thumb_px + 4));
  const int shown = std::min(room, count);
  for (int k = 0; k < shown; ++k) {
    const int i = shown == count || shown == 1
                      ? k
                      : static_cast<int>(std::lround(static_cast<double>(k) * (count - 1) / (shown - 1)));
    const double x = 6 + (k + 0.5) * (width() - 12.0) / shown;
    const QRectF box(x - thumb_px / 2.0, 4, thumb_px, thumb_px);
    const QImage& image = thumbnails_[static_cast<std::size_t>(i)];
    if (image.isNull()) {
      painter.drawText(box, Qt::AlignCenter, tr("dropped"));
    } else {
      const QSizeF size = QSizeF(image.size()).scaled(box.size(), Qt::KeepAspectRatio);
      painter.drawImage(QRectF(box.center() - QPointF(size.width() / 2, size.height() / 2), size), image);
    }
    painter.setPen(QPen(i == frame_ ? Qt::white : QColor(255, 255, 255, 120), i == frame_ ? 2.5 : 1));
    if (i == frame_) painter.drawRect(box);
    painter.drawLine(QPointF(x, 4 + thumb_px),
                     QPointF(x_of(outcome_->frames[static_cast<std::size_t>(i)].seconds), line_y - 5));
  }
  for (int i = 0; i < count; ++i) {
    const double x = x_of(outcome_->frames[static_cast<std::size_t>(i)].seconds);
    painter.setPen(QPen(Qt::white, i == frame_ ? 3 : 1));
    painter.drawLine(QPointF(x, line_y - 5), QPointF(x, line_y + 5));
  }
  painter.setPen(Qt::white);
  painter.drawText(frame_label_box(), Qt::AlignCenter, frame_label());
  // Zero: a drop's outline on the line.
  const double x = x_of(dragging_zero_ ? dragged_zero_s_ : 0);
  painter.setPen(QPen(Qt::black, 1.2));
  painter.setBrush(Qt::white);
  QPolygonF drop{{x, line_y - 12}, {x + 6, line_y + 2}, {x, line_y + 10}, {x - 6, line_y + 2}};
  painter.drawPolygon(drop);
  painter.setPen(Qt::white);
  const ZeroLabel label = zero_label();
  painter.drawText(label.box, Qt::AlignCenter, label.text);
}

QRectF TimeLine::box_under(double x, const QString& text) const {
  const double room = fontMetrics().horizontalAdvance(text) + 8;
  return {std::max(0.0, std::min(x - room / 2, width() - room)), line_y + 16, room, 18};
}

QString TimeLine::frame_label() const {
  if (!outcome_ || frame_ < 0 || frame_ >= static_cast<int>(outcome_->frames.size())) return {};
  return QStringLiteral("%1 s").arg(figure(outcome_->frames[static_cast<std::size_t>(frame_)].seconds, 1));
}

QRectF TimeLine::frame_label_box() const {
  if (frame_label().isEmpty()) return {};
  return box_under(x_of(outcome_->frames[static_cast<std::size_t>(frame_)].seconds), frame_label());
}

TimeLine::ZeroLabel TimeLine::zero_label() const {
  if (!outcome_ || outcome_->frames.empty()) return {};
  if (dragging_zero_) {
    const QString text = tr("zero at %1 s").arg(figure(dragged_zero_s_, 1));
    return {text, box_under(x_of(dragged_zero_s_), text)};
  }
  const QString text = counts_from_first_photo(*outcome_) ? tr("drag to the drop") : tr("applied");
  const QRectF box = box_under(x_of(0), text);
  if (box.intersects(frame_label_box())) return {};
  return {text, box};
}

void TimeLine::mousePressEvent(QMouseEvent* event) {
  if (!outcome_ || outcome_->frames.empty()) return;
  const double x = event->position().x(), y = event->position().y();
  if (y > line_y - 16 && std::abs(x - x_of(0)) <= grab_px) {
    dragging_zero_ = true;
    dragged_zero_s_ = 0;
    return update();
  }
  if (y < 4 + thumb_px) {
    const int count = static_cast<int>(outcome_->frames.size());
    const int shown = std::min(std::max(1, (width() - 12) / (thumb_px + 4)), count);
    const int k = std::clamp(static_cast<int>((x - 6) / (width() - 12.0) * shown), 0, shown - 1);
    return set_frame(shown == count || shown == 1
                         ? k
                         : static_cast<int>(std::lround(static_cast<double>(k) * (count - 1) / (shown - 1))));
  }
  set_frame(frame_near(x));
}

void TimeLine::mouseMoveEvent(QMouseEvent* event) {
  if (dragging_zero_) {
    dragged_zero_s_ = seconds_at(event->position().x());
    return update();
  }
  if (event->buttons() & Qt::LeftButton && event->position().y() > 4 + thumb_px)
    set_frame(frame_near(event->position().x()));
}

void TimeLine::mouseReleaseEvent(QMouseEvent*) {
  if (!dragging_zero_) return;
  dragging_zero_ = false;
  emit zero_dragged(dragged_zero_s_);
  update();
}

void TimeLine::keyPressEvent(QKeyEvent* event) {
  const int last = outcome_ ? static_cast<int>(outcome_->frames.size()) - 1 : -1;
  if (last < 0) return QWidget::keyPressEvent(event);
  switch (event->key()) {
    case Qt::Key_Left:
      return set_frame(std::max(0, frame_ - 1));
    case Qt::Key_Right:
      return set_frame(std::min(last, frame_ + 1));
    case Qt::Key_Home:
      return set_frame(0);
    case Qt::Key_End:
      return set_frame(last);
    default:
      return QWidget::keyPressEvent(event);
  }
}

}  // namespace tintfall::viewer
