#include <QPainter>
#include <viewer/settings/figures.hpp>
#include <viewer/window/before_after.hpp>
#include <viewer/window/neutral_ground.hpp>

namespace tintfall::viewer {

namespace {

constexpr int turn_ms = 700, words_px = 20;

}  // namespace

BeforeAfter::BeforeAfter(QWidget* parent) : QWidget(parent) {
  setMinimumSize(260, 160);
  setAccessibleName(tr("Before and after, under one white"));
  turn_.setInterval(turn_ms);
  connect(&turn_, &QTimer::timeout, this, [this] {
    second_ = !second_;
    update();
  });
}

void BeforeAfter::set_outcome(std::shared_ptr<const SeriesOutcome> outcome) {
  outcome_ = std::move(outcome);
  if (!outcome_) setAccessibleDescription({});
  update();
}

void BeforeAfter::set_frames(int before, int after) {
  before_ = before;
  after_ = after;
  if (outcome_ && before >= 0 && after >= 0)
    setAccessibleDescription(tr("Before: %1 s; after: %2 s")
                                 .arg(figure(outcome_->frames[static_cast<std::size_t>(before)].seconds, 1))
                                 .arg(figure(outcome_->frames[static_cast<std::size_t>(after)].seconds, 1)));
  update();
}

void BeforeAfter::set_by_turns(bool on) {
  by_turns_ = on;
  on ? turn_.start() : turn_.stop();
  update();
}

void BeforeAfter::paint_frame(QPainter& painter, const QRectF& box, int frame, const QString& word) {
  if (!outcome_ || frame < 0 || frame >= static_cast<int>(outcome_->frames.size())) return;
  const SeriesFrame& shown = outcome_->frames[static_cast<std::size_t>(frame)];
  const QRectF place = box.adjusted(0, 0, 0, -words_px);
  if (shown.picture.isNull()) {
    painter.drawText(place, Qt::AlignCenter | Qt::TextWordWrap, shown.dropped);
  } else {
    const QSizeF size = QSizeF(shown.picture.size()).scaled(place.size(), Qt::KeepAspectRatio);
    painter.drawImage(QRectF(place.center() - QPointF(size.width() / 2, size.height() / 2), size),
                      shown.picture);
  }
  painter.drawText(QRectF(box.left(), box.bottom() - words_px, box.width(), words_px), Qt::AlignCenter,
                   QStringLiteral("%1 · %2 s · %3").arg(word).arg(figure(shown.seconds, 1)).arg(shown.name));
}

void BeforeAfter::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.setPen(Qt::white);
  if (!outcome_ || outcome_->frames.empty()) {
    painter.drawText(rect().adjusted(20, 0, -20, 0), Qt::AlignCenter | Qt::TextWordWrap,
                     tr("Add the photos of one reaction: one before the drop, then as many as you like. Draw "
                        "the spot, a water drop and "
                        "untreated tissue on the page 'One photo' first."));
    return;
  }
  const QRectF whole = QRectF(rect()).adjusted(6, 6, -6, -2);
  if (by_turns_)
    return second_ ? paint_frame(painter, whole, after_, tr("after"))
                   : paint_frame(painter, whole, before_, tr("before"));
  paint_frame(painter, QRectF(whole.left(), whole.top(), whole.width() / 2 - 4, whole.height()), before_,
              tr("before"));
  paint_frame(painter, QRectF(whole.center().x() + 4, whole.top(), whole.width() / 2 - 4, whole.height()),
              after_, tr("after"));
}

}  // namespace tintfall::viewer
