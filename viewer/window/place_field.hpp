#pragma once
/// Where something was found, without a map: words, coordinates, and how much of them is kept.

#include <QWidget>
#include <viewer/tasks/catalogue_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace tintfall::viewer {

class PlaceField : public QWidget {
  Q_OBJECT
 public:
  explicit PlaceField(QWidget* parent = nullptr);
  void set_collection(const CollectionShown* collection);
  PlaceTyped typed() const;
  TaskLane& lane() { return lane_; }
  QString sentence() const;

 signals:
  /// The user wants these fields kept.
  void keep_asked(const std::vector<std::pair<QString, QString>>& fields);

 private:
  void check(bool keep);

  TaskLane lane_;
  QLineEdit *place_, *area_, *latitude_, *longitude_;
  QComboBox* grid_;
  QCheckBox* hidden_;
  QLabel* sentence_;
  QPushButton* keep_;
  bool filling_ = false;
};

}  // namespace tintfall::viewer
