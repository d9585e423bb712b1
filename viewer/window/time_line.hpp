#pragma once
/// The frames of a series along time: thumbnails over a line with their moments, the moment of application,
/// and where one looks.

#include <QWidget>
#include <memory>
#include <viewer/tasks/series_jobs.hpp>

namespace tintfall::viewer {

class TimeLine : public QWidget {
  Q_OBJECT
 public:
  explicit TimeLine(QWidget* parent = nullptr);
  void set_outcome(std::shared_ptr<const SeriesOutcome> outcome);
  void set_frame(int frame);
  int frame() const { return frame_; }
  double x_of(double seconds) const;  ///< for tests
  /// What is written under zero, empty where the present frame's time is written, and where: inside the
  /// widget, as long as the text.
  struct ZeroLabel {
    QString text;
    QRectF box;
  };
  ZeroLabel zero_label() const;
  QSize sizeHint() const override { return {600, 128}; }

 signals:
  void frame_changed(int frame);
  void zero_dragged(double seconds);  ///< let go at this time of the present scale

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QRectF box_under(double x, const QString& text)
      const;  ///< for a text under the line, as near to `x` as the widget allows
  QRectF frame_label_box() const;
  QString frame_label() const;
  double seconds_at(double x) const;
  double first_s() const;
  double last_s() const;
  int frame_near(double x) const;

  std::shared_ptr<const SeriesOutcome> outcome_;
  std::vector<QImage> thumbnails_;
  int frame_ = -1;
  bool dragging_zero_ = false;
  double dragged_zero_s_ = 0;
};

}  // namespace tintfall::viewer
