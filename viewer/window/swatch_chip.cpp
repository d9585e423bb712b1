#include <QPainter>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/swatch_chip.hpp>

namespace tintfall::viewer {

SwatchChip::SwatchChip(QWidget* parent) : QWidget(parent) {
  setFixedSize(sizeHint());
  setAccessibleName(tr("Colour looked for"));
}

void SwatchChip::set_color(std::optional<QColor> color) {
  color_ = color;
  setAccessibleDescription(color_ ? color_->name() : tr("any"));
  update();
}

void SwatchChip::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  const QRect field = rect().adjusted(4, 4, -5, -5);
  if (color_) return painter.fillRect(field, *color_);
  painter.setPen(QPen(Qt::white, 1, Qt::DashLine));
  painter.drawRect(field);
}

}  // namespace tintfall::viewer
