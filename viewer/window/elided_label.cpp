#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>
#include <viewer/window/elided_label.hpp>

namespace tintfall::viewer {

ElidedLabel::ElidedLabel(const QString& text, QWidget* parent) : QLabel(text, parent) {
  setTextFormat(Qt::PlainText);
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
}

QSize ElidedLabel::minimumSizeHint() const { return {0, QLabel::minimumSizeHint().height()}; }

bool ElidedLabel::event(QEvent* event) {
  const bool cut_off = fontMetrics().horizontalAdvance(text()) > contentsRect().width();
  if (event->type() != QEvent::ToolTip || !toolTip().isEmpty() || !cut_off) return QLabel::event(event);
  QToolTip::showText(static_cast<QHelpEvent*>(event)->globalPos(), text(), this);
  return true;
}

void ElidedLabel::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.drawText(contentsRect(), static_cast<int>(alignment()) | Qt::TextSingleLine,
                   fontMetrics().elidedText(text(), Qt::ElideRight, contentsRect().width()));
}

}  // namespace tintfall::viewer
