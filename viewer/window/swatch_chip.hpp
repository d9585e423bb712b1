#pragma once
/// A small patch of colour on neutral grey, beside words.

#include <QWidget>
#include <optional>

namespace tintfall::viewer {

class SwatchChip : public QWidget {
  Q_OBJECT
 public:
  explicit SwatchChip(QWidget* parent = nullptr);
  void set_color(std::optional<QColor> color);  ///< none: an empty frame
  QSize sizeHint() const final { return {44, 24}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::optional<QColor> color_;
};

}  // namespace tintfall::viewer
