#include <QPixmap>
#include <viewer/models/swatch_icon.hpp>

namespace tintfall::viewer {

QIcon swatch_icon(const QColor& color) {
  constexpr int width_px = 40, height_px = 22;
  QPixmap field(width_px, height_px);
  field.fill(color);
  QIcon icon;
  for (const QIcon::Mode mode : {QIcon::Normal, QIcon::Selected, QIcon::Active, QIcon::Disabled})
    icon.addPixmap(field, mode);
  return icon;
}

}  // namespace tintfall::viewer
