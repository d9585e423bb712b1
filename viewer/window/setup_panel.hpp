#pragma once
/// What the user says about a photo: which sheet, its values, height, and the fields of the record.

#include <QWidget>
#include <viewer/document/photo_document.hpp>
#include <viewer/tasks/sheet_jobs.hpp>

class QComboBox;
class QLineEdit;
class QDoubleSpinBox;
class QCheckBox;

namespace tintfall::viewer {

class SetupPanel : public QWidget {
  Q_OBJECT
 public:
  explicit SetupPanel(PhotoDocument& document, QWidget* parent = nullptr);

 private:
  void show_setup();
  void push(const QString& text, const PhotoSetup& setup, bool subject_only);
  void choose_reference();
  void load_lists(const QString& added);
  void ask_for_sheet();

  PhotoDocument& document_;
  TaskLane lists_lane_;
  QComboBox *chart_, *sheet_, *light_;
  QLineEdit *reference_, *item_, *collector_, *tissue_, *state_, *surface_;
  QCheckBox *height_known_, *masstone_;
  QDoubleSpinBox* height_;
  std::vector<ChartEntry> charts_;
  bool filling_ = false;
};

}  // namespace tintfall::viewer
