#pragma once
/// The catalogue: searching it by words, people, days and colour; one collection with its fields, place,
/// records and history; adding, removing, exporting, and the report as it will be printed.

#include <QTimer>
#include <QWidget>
#include <functional>
#include <viewer/models/catalogue_models.hpp>
#include <viewer/settings/preferences.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/action_group.hpp>

class QCheckBox;
class QComboBox;
class QDoubleSpinBox;
class QLabel;
class QLineEdit;
class QStackedWidget;
class QTabWidget;
class QTableView;

namespace tintfall::viewer {

class PhotoPage;
class PlaceField;
class ReportPreview;
class SwatchChip;

class CataloguePage : public QWidget {
  Q_OBJECT
 public:
  /// "Like this one" and "add" take the reading that is chosen on the page beside it.
  explicit CataloguePage(PhotoPage& photo, QWidget* parent = nullptr);
  void set_screen(const Screen& screen);
  void search();  ///< with what is typed
  void look_like_the_reading();
  void look_like_the_row();
  void look_like(const colorlib::Lab& lab, const colorlib::Matrix3& covariance, const QString& what);
  void any_color();
  void choose(const QString& number);  ///< shows this collection
  void add_reading();
  void add_files(const QStringList& files);
  void remove_chosen();
  void bring_back();
  void take_back();  ///< the last change made here
  void put_side_by_side();
  void show_report();
  void show_list();
  void export_to(const QString& file);
  void choose_no_row();  ///< then all that matches leaves
  /// Instead of the dialog for a file; gets its title, the proposed name and the kinds of files.
  using AskFile = std::function<QString(const QString&, const QString&, const QString&)>;
  void set_ask_file(AskFile ask) { ask_file_ = std::move(ask); }
  void ask_and_export(const QString& title, const QString& proposed_name, const QString& kinds);

  const CatalogueAnswer* answer() const { return answer_.get(); }
  const CollectionShown* collection() const { return collection_.get(); }
  HitModel& hits() { return hits_; }
  CollectionModel& collections() { return collections_; }
  FieldModel& fields() { return fields_; }
  RecordModel& records() { return records_; }
  ChangeModel& changes() { return changes_; }
  PlaceField& place() { return *place_; }
  ReportPreview& report() { return *report_; }
  QTabWidget& lists() { return *lists_; }
  QTabWidget& details() { return *details_; }
  QTableView& hit_table() { return *hit_table_; }
  QTableView& record_table() { return *record_table_; }
  QTableView& field_table() { return *field_table_; }
  QLineEdit& text_field() { return *text_; }
  QLabel& words() { return *words_; }
  std::vector<TaskLane*> lanes();
  bool busy() const;
  /// Those whose progress is worth showing: adding and writing.
  std::vector<TaskLane*> slow_lanes() { return {&add_lane_, &leave_lane_}; }
  bool slow_work() const { return add_lane_.busy() || leave_lane_.busy(); }
  void stop();  ///< what was kept stays kept
  ActionGroup action_group() const { return actions_; }

 signals:
  void found();
  void shown();
  void said(const QString& sentence);
  void compare_asked(const std::vector<tintfall::viewer::NamedRecord>& records);

 protected:
  void showEvent(QShowEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  QAction* action(const QString& text, const QString& key, const QString& hint, std::function<void()> what);
  void make_actions();
  QWidget* button_row();
  QWidget* search_rows();
  QWidget* list_column();
  QWidget* detail_column();
  QWidget* report_column();
  CatalogueSearch typed() const;
  QStringList chosen_numbers() const;
  CatalogueExport wanted_export(const QStringList& numbers) const;
  void with_what_leaves(std::function<void(const QStringList&)> then);
  void write(const QStringList& numbers, const QString& file);
  void show_chosen_row();
  void change(const CatalogueChangeAsked& change, bool takes_back = false);
  void show_collection_again(const QString& number);
  void say(const QString& sentence);
  void tell(const colorlib::Error& error, const TaskLane& lane);
  void take_back_problem(const TaskLane& lane);

  PhotoPage& photo_;
  Preferences preferences_;
  Screen screen_;
  TaskLane search_lane_, show_lane_, change_lane_, add_lane_, compare_lane_, leave_lane_;
  const TaskLane* problem_of_ = nullptr;  ///< whose problem the sentence below tells; done anew, it goes
  AskFile ask_file_;
  QTimer typing_;
  std::shared_ptr<const CatalogueAnswer> answer_;
  std::shared_ptr<const CollectionShown> collection_;
  std::vector<CatalogueChangeAsked> undone_by_;  ///< what takes the changes made here back, the last one last
  std::optional<colorlib::Lab> color_;
  colorlib::Matrix3 color_covariance_{};
  HitModel hits_;
  CollectionModel collections_;
  FieldModel fields_;
  RecordModel records_;
  ChangeModel changes_;

  QLineEdit *text_, *collector_, *tissue_, *from_, *to_;
  QComboBox *kind_, *places_;
  QCheckBox* removed_;
  QDoubleSpinBox* within_;
  SwatchChip* chip_;
  QLabel *color_words_, *where_, *words_, *title_, *pictures_label_;
  QString pictures_;
  QTabWidget *lists_, *details_;
  QTableView *hit_table_, *collection_table_, *field_table_, *record_table_, *change_table_;
  PlaceField* place_;
  ReportPreview* report_;
  QStackedWidget* stack_;
  QWidget* search_rows_;
  QList<QAction*> bar_;
  QAction* any_color_;
  ActionGroup actions_;
};

}  // namespace tintfall::viewer
