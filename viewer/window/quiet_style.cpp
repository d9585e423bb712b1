#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>
#include <viewer/window/quiet_style.hpp>

namespace tintfall::viewer {

QuietStyle::QuietStyle() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

void QuietStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                               const QWidget* widget) const {
  if (element != PE_IndicatorCheckBox) return QProxyStyle::drawPrimitive(element, option, painter, widget);
  const bool enabled = option->state & State_Enabled;
  const QPalette::ColorGroup group = enabled ? QPalette::Active : QPalette::Disabled;
  const QColor ink = option->palette.color(group, QPalette::WindowText);
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  const QRectF box = QRectF(option->rect).adjusted(1.5, 1.5, -1.5, -1.5);
  painter->setPen(QPen(ink, option->state & State_HasFocus ? 2 : 1));
  painter->setBrush(option->palette.color(group, QPalette::Base));
  painter->drawRoundedRect(box, 2, 2);
  if (option->state & State_On) {
    painter->setPen(QPen(ink, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter->setBrush(Qt::NoBrush);
    const auto at = [&](double x, double y) {
      return QPointF(box.left() + x * box.width(), box.top() + y * box.height());
    };
    painter->drawPolyline(QPolygonF{at(0.2, 0.55), at(0.42, 0.78), at(0.8, 0.25)});
  }
  painter->restore();
}

void QuietStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option,
                                    QPainter* painter, const QWidget* widget) const {
  QProxyStyle::drawComplexControl(control, option, painter, widget);
  if (control != CC_ToolButton || !(option->state & State_On)) return;
  const QRect bar(option->rect.left() + 3, option->rect.bottom() - 2, option->rect.width() - 6, 2);
  painter->fillRect(bar, option->palette.color(QPalette::WindowText));
}

}  // namespace tintfall::viewer
