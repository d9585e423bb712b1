#pragma once
/// The change of each spot against itself before, in time, with its interval.

#include <QChartView>
#include <memory>
#include <viewer/tasks/series_jobs.hpp>

namespace tintfall::viewer {

class ChangeCurve : public QChartView {
  Q_OBJECT
 public:
  explicit ChangeCurve(QWidget* parent = nullptr);
  void set_outcome(std::shared_ptr<const SeriesOutcome> outcome);
  void set_moment(double seconds);  ///< where the time line stands
  QSize sizeHint() const override { return {420, 320}; }

 signals:
  void moment_picked(double seconds);

 protected:
  void mousePressEvent(QMouseEvent* event) override;
  void drawForeground(QPainter* painter, const QRectF& rect) override;
  void changeEvent(QEvent* event) override;

 private:
  void renew_colors();
  void paint_times(QPainter& painter, const QRectF& area);

  std::shared_ptr<const SeriesOutcome> outcome_;
  double moment_s_ = 0;
};

}  // namespace tintfall::viewer
