#pragma once
/// Where readings lie: a* against b* with 95 % ellipses and the names' regions, and a scale of L* beside it.

#include <QWidget>
#include <colorlib/naming/name_map.hpp>
#include <vector>
#include <viewer/tasks/shown_reading.hpp>
#include <viewer/tasks/task_lane.hpp>

namespace tintfall::viewer {

class ColorPlane : public QWidget {
  Q_OBJECT
 public:
  explicit ColorPlane(QWidget* parent = nullptr);
  /// The first reading's L* is that of the names' regions; `others` are drawn thinner.
  void set_readings(std::vector<ShownReading> readings, int main);
  void set_others(std::vector<ShownReading> others);
  void set_show_names(bool shown);
  QSize sizeHint() const override { return {360, 300}; }
  TaskLane& lane() { return lane_; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void renew();
  QRectF plane() const;
  QPointF place(double a, double b) const;
  void paint_names(QPainter& painter);
  void paint_axes(QPainter& painter);
  void paint_scale(QPainter& painter);
  void paint_reading(QPainter& painter, const ShownReading& shown, bool main);

  std::vector<ShownReading> readings_, others_;
  int main_ = 0;
  bool show_names_ = true;
  double half_width_ = 20;
  colorlib::Lab centre_{50, 0, 0};
  colorlib::NameMap map_;
  TaskLane lane_;
};

}  // namespace tintfall::viewer
