#pragma once
/// The way to a good photo: print a sheet, check its size, light, what to avoid, what burns.

#include <QWidget>
#include <viewer/tasks/sheet_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>

class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;

namespace tintfall::viewer {

class GuidePage : public QWidget {
  Q_OBJECT
 public:
  explicit GuidePage(QWidget* parent = nullptr);
  QString answer() const;  ///< of the scale check or of the last print, for tests

 signals:
  void photo_wanted();

 private:
  QWidget* printing();
  QWidget* scale_check();
  DrawSheetParameters parameters(colorlib::SheetFormat format) const;
  void save_sheet();
  static QString with_note_on_label(const QString& text, const DrawnSheet& sheet);
  void print_sheet();

  TaskLane lists_lane_, draw_lane_, check_lane_;
  std::vector<ChartEntry> charts_;
  QComboBox* chart_;
  QLineEdit *label_, *date_;
  QDoubleSpinBox* ruler_;
  QLabel *answer_, *scale_answer_;
};

}  // namespace tintfall::viewer
