#pragma once
/// The page for one photo: the picture, the regions, the reading, the checks, and what to do about each.

#include <QWidget>
#include <viewer/document/photo_document.hpp>
#include <viewer/document/recovery.hpp>
#include <viewer/models/check_model.hpp>
#include <viewer/models/issue_model.hpp>
#include <viewer/models/region_model.hpp>
#include <viewer/settings/preferences.hpp>
#include <viewer/window/action_group.hpp>
#include <viewer/window/photo_view.hpp>

class QActionGroup;
class QComboBox;
class QLabel;
class QSplitter;
class QTableView;
class QTabWidget;

namespace tintfall::viewer {

class ColorPlane;
class Magnifier;
class ReadingPanel;
class UnsavedWork;

class PhotoPage : public QWidget {
  Q_OBJECT
 public:
  explicit PhotoPage(QWidget* parent = nullptr);
  PhotoDocument& document() { return document_; }
  PhotoView& view() { return *view_; }
  ReadingPanel& reading_panel() { return *reading_; }
  ColorPlane& color_plane() { return *plane_; }
  Magnifier& magnifier() { return *magnifier_; }
  Recovery& recovery() { return recovery_; }
  UnsavedWork& unsaved_work() { return *unsaved_; }
  RegionModel& region_model() { return regions_; }
  IssueModel& issue_model() { return issues_; }
  QTabWidget& tabs() { return *tabs_; }
  std::vector<ActionGroup> action_groups() const { return groups_; }

  /// Opens a photo or a saved work (*.tintfall), by its name's end, once unsaved work is settled.
  void open(const QString& file);
  void set_screen(const Screen& screen);
  /// Of the chosen region, or the only one; null without a reading that stands.
  const ShownReading* current_reading() const;

 signals:
  void opened(const QString& file);

 protected:
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  void make_actions();
  void make_drawing_actions();
  void make_view_actions();
  void lay_out();
  QWidget* view_bar();
  QWidget* side_column();
  QAction* action(const QString& text, const QKeySequence& shortcut, const QString& hint);
  void show_rows();
  void show_readings();
  void show_selected(const QString& region);
  void paste();
  void copy(ExportKind kind);
  void write(ExportKind kind);
  void ask_open();
  void overlay_other_records();
  void jump_to_issue(int row);

  PhotoDocument document_;
  Recovery recovery_;
  UnsavedWork* unsaved_;
  RegionModel regions_;
  IssueModel issues_;
  CheckModel checks_;
  TaskLane clipboard_lane_, records_lane_;
  Preferences preferences_;
  Screen screen_;
  PhotoView* view_;
  Magnifier* magnifier_;
  ReadingPanel* reading_;
  ColorPlane* plane_;
  QTableView *region_table_, *issue_table_;
  QTabWidget* tabs_;
  QComboBox* kind_;
  QWidget* scale_note_;
  QLabel* caution_;
  std::vector<ActionGroup> groups_;
  QList<QAction*> tool_actions_, rendering_actions_, layer_actions_, bar_actions_;
};

}  // namespace tintfall::viewer
