#pragma once
/// A reaction or a bruise over time.

#include <QWidget>
#include <memory>
#include <viewer/tasks/series_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/window/action_group.hpp>

class QDoubleSpinBox;
class QCheckBox;
class QLabel;
class QLineEdit;

namespace tintfall::viewer {

class BeforeAfter;
class ChangeCurve;
class PhotoDocument;
class TimeLine;

class SeriesPage : public QWidget {
  Q_OBJECT
 public:
  /// Sheet and values come from the photo on the page beside it, from the settings while none is open there;
  /// regions from that photo or from a regions file.
  explicit SeriesPage(PhotoDocument& one_photo, QWidget* parent = nullptr);
  void add_photos(const QStringList& photos);
  void use_regions(const colorlib::Regions& regions, const QString& from);
  void read();
  void stop();
  void set_screen(const Screen& screen) { screen_ = screen; }
  const QStringList& photos() const { return photos_; }
  const SeriesOutcome* outcome() const { return outcome_.get(); }
  /// What the field 'Applied' says as `tintfall series --applied` takes it: the word for looking is known in
  /// the window's language, too.
  static QString applied_moment(const QString& typed);
  TimeLine& time_line() { return *line_; }
  BeforeAfter& before_after() { return *pictures_; }
  ChangeCurve& curve() { return *curve_; }
  TaskLane& lane() { return lane_; }
  QLabel& words() { return *words_; }
  QLabel& inputs() { return *inputs_; }
  ActionGroup action_group() const { return actions_; }
  void write_strip_to(const QString& file);
  void write_record_to(const QString& file);

 signals:
  void outcome_changed();
  void written(const QString& file);

 protected:
  void showEvent(QShowEvent* event) override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dropEvent(QDropEvent* event) override;

 private:
  QAction* action(const QString& text, const QString& key, const QString& hint, std::function<void()> what);
  PhotoSetup setup() const;
  void show_inputs();
  void clear();
  void take(colorlib::Result<SeriesOutcome> outcome);
  void show_frame(int frame);
  void move_zero(double seconds);
  void say(const QString& text);

  PhotoDocument& one_photo_;
  QStringList photos_;
  colorlib::Regions regions_;
  Screen screen_;
  TaskLane lane_, file_lane_;
  bool reading_ = false;  ///< not only a zero being moved
  std::shared_ptr<const SeriesOutcome> outcome_;
  BeforeAfter* pictures_;
  ChangeCurve* curve_;
  TimeLine* line_;
  QLineEdit *applied_, *reagent_;
  QCheckBox* even_;
  QDoubleSpinBox* interval_;
  QLabel *inputs_, *words_;
  ActionGroup actions_;
};

}  // namespace tintfall::viewer
