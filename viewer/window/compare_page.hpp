#pragma once
/// Readings of many records: beside one another, in pairs, against what all say.

#include <QWidget>
#include <viewer/models/pair_model.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/action_group.hpp>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QTabWidget;

namespace tintfall::viewer {

class ColorPlane;
class SwatchRow;
class BiasPlot;

class ComparePage : public QWidget {
  Q_OBJECT
 public:
  explicit ComparePage(QWidget* parent = nullptr);
  void add_files(const QStringList& files);
  void add_records(const std::vector<NamedRecord>& records);
  void set_screen(const Screen& screen);
  const CompareOutcome* outcome() const { return outcome_.get(); }
  PairModel& pair_model() { return pairs_; }
  ConsensusModel& consensus_model() { return consensus_; }
  TaskLane& lane() { return lane_; }
  QTabWidget& tabs() { return *tabs_; }
  QDoubleSpinBox& tolerance() { return *tolerance_; }
  ActionGroup action_group() const { return actions_; }

 signals:
  void compared();

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void renew();
  void show_outcome();

  QStringList files_;
  std::vector<NamedRecord> records_;
  Screen screen_;
  TaskLane lane_;
  std::shared_ptr<const CompareOutcome> outcome_;
  PairModel pairs_;
  ConsensusModel consensus_;
  SwatchRow* swatches_;
  BiasPlot* bias_;
  ColorPlane* plane_;
  QComboBox* order_;
  QDoubleSpinBox* tolerance_;
  QCheckBox* grouped_;
  QLabel* remarks_;
  QTabWidget* tabs_;
  ActionGroup actions_;
};

}  // namespace tintfall::viewer
