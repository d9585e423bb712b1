#pragma once
/// A line of words that ends in dots where there is no room for all of it.

#include <QLabel>

namespace tintfall::viewer {

/// Takes no room of its own accord: the window may be made as narrow as everything else allows. What is cut
/// off is in the tooltip.
class ElidedLabel : public QLabel {
 public:
  explicit ElidedLabel(const QString& text = {}, QWidget* parent = nullptr);
  QSize minimumSizeHint() const override;

 protected:
  bool event(QEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
};

}  // namespace tintfall::viewer
