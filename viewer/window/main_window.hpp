#pragma once
/// The window: a row of pages, and what runs in the background.

#include <QMainWindow>
#include <viewer/settings/preferences.hpp>
#include <viewer/tasks/screen.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/action_group.hpp>

class QLabel;
class QProgressBar;
class QStackedWidget;
class QToolButton;

namespace tintfall::viewer {

class PhotoPage;
class CataloguePage;
class ComparePage;
class GuidePage;
class SeriesPage;
class SettingsPage;

class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  MainWindow();
  PhotoPage& photo_page() { return *photo_; }
  SeriesPage& series_page() { return *series_; }
  ComparePage& compare_page() { return *compare_; }
  CataloguePage& catalogue_page() { return *catalogue_; }
  QStackedWidget& pages() { return *pages_; }
  /// Shows the page of this object name ("photo", "guide", ...).
  void show_page(const QString& name);
  void open(const QString& file);
  /// What was there when the program ended: abandoned work first, else the last file.
  void restore_session();
  std::vector<ActionGroup> action_groups() const;

 protected:
  void closeEvent(QCloseEvent* event) override;

 private:
  void add_page(QWidget* page, const QString& name, const QString& title, const QString& shortcut);
  void make_menus();
  void show_recent(QMenu* menu);
  void show_progress(double fraction, const QString& stage);
  void show_busy();
  void load_screen();
  void renew_title();

  Preferences preferences_;
  LastSession session_;
  TaskLane screen_lane_;
  QStackedWidget* pages_;
  QWidget* page_row_;
  PhotoPage* photo_;
  SeriesPage* series_;
  ComparePage* compare_;
  CataloguePage* catalogue_;
  GuidePage* guide_;
  QLabel* stage_;
  QProgressBar* progress_;
  QToolButton* stop_;
  bool document_busy_ = false;
  bool may_close_ = false;
  ActionGroup page_actions_;
};

}  // namespace tintfall::viewer
