#pragma once
/// Qt's plain style with what greys alone do not show well enough: outlines of check boxes, and which button
/// is on.

#include <QProxyStyle>

namespace tintfall::viewer {

class QuietStyle : public QProxyStyle {
  Q_OBJECT
 public:
  QuietStyle();
  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                          const QWidget* widget) const override;
};

}  // namespace tintfall::viewer
