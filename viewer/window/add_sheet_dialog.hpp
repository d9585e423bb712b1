#pragma once
/// Putting a printed sheet on the list: its label, its chart, its measured values.

#include <QDialog>
#include <viewer/tasks/sheet_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;

namespace tintfall::viewer {

class AddSheetDialog : public QDialog {
  Q_OBJECT
 public:
  explicit AddSheetDialog(const std::vector<ChartEntry>& charts, QWidget* parent = nullptr);
  /// Adds what is typed; stays open and says why when that cannot be.
  void add();
  QString words() const;

 signals:
  void added(const QString& label);

 private:
  QLineEdit *label_, *reference_, *printed_;
  QComboBox* chart_;
  QCheckBox* replace_;
  QLabel* words_;
  TaskLane lane_;
};

}  // namespace tintfall::viewer
