#pragma once
/// What the shades of the difference picture mean.

#include <QList>
#include <QWidget>
#include <viewer/tasks/task_lane.hpp>

namespace tintfall::viewer {

class PhotoView;

class DifferenceScale : public QWidget {
  Q_OBJECT
 public:
  explicit DifferenceScale(PhotoView& view, QWidget* parent = nullptr);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  PhotoView& view_;
  TaskLane lane_;
  QList<QRgb> shades_;
};

}  // namespace tintfall::viewer
