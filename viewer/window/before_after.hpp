#pragma once
/// Two moments of a series under one white: beside each other, or by turns in one place.

#include <QTimer>
#include <QWidget>
#include <memory>
#include <viewer/tasks/series_jobs.hpp>

namespace tintfall::viewer {

class BeforeAfter : public QWidget {
  Q_OBJECT
 public:
  explicit BeforeAfter(QWidget* parent = nullptr);
  void set_outcome(std::shared_ptr<const SeriesOutcome> outcome);
  void set_frames(int before, int after);
  void set_by_turns(bool on);
  int before() const { return before_; }
  int after() const { return after_; }
  QSize sizeHint() const override { return {620, 320}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void paint_frame(QPainter& painter, const QRectF& box, int frame, const QString& word);

  std::shared_ptr<const SeriesOutcome> outcome_;
  int before_ = -1, after_ = -1;
  bool by_turns_ = false, second_ = false;
  QTimer turn_;
};

}  // namespace tintfall::viewer
