#pragma once
/// The pixels under the pointer, large, with their calibrated colour and name.

#include <QImage>
#include <QWidget>
#include <optional>
#include <viewer/document/photo_document.hpp>

namespace tintfall::viewer {

class PhotoView;

class Magnifier : public QWidget {
  Q_OBJECT
 public:
  Magnifier(PhotoDocument& document, PhotoView& view, QWidget* parent = nullptr);
  void set_screen(const Screen& screen) { screen_ = screen; }
  QString text() const { return text_; }
  TaskLane& lane() { return lane_; }
  QSize sizeHint() const override { return {600, 74}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void probe(const QPointF& place);

  PhotoDocument& document_;
  PhotoView& view_;
  Screen screen_;
  TaskLane lane_;
  std::optional<QPointF> place_, waiting_;
  std::optional<ScreenSwatch> swatch_;
  QString text_;
};

}  // namespace tintfall::viewer
