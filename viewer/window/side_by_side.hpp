#pragma once
/// Colours of many readings next to one another under one white, and the plot of each collector's bias.

#include <QWidget>
#include <memory>
#include <viewer/tasks/compare_jobs.hpp>

namespace tintfall::viewer {

/// Swatches that touch, so that a difference shows at their common edge; groups stand apart.
class SwatchRow : public QWidget {
  Q_OBJECT
 public:
  explicit SwatchRow(QWidget* parent = nullptr);
  void set_outcome(std::shared_ptr<const CompareOutcome> outcome, bool grouped);
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::shared_ptr<const CompareOutcome> outcome_;
  std::vector<std::size_t> order_;
  bool grouped_ = false;
};

/// Bias of each collector in L*, a*, b* with its 95 % interval.
class BiasPlot : public QWidget {
  Q_OBJECT
 public:
  explicit BiasPlot(QWidget* parent = nullptr);
  void set_outcome(std::shared_ptr<const CompareOutcome> outcome);
  QSize sizeHint() const override { return {420, 200}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  std::shared_ptr<const CompareOutcome> outcome_;
};

}  // namespace tintfall::viewer
