#pragma once
/// One photo and the user's work on it: the file, what was said, the regions, the undo stack, and what was
/// read.

#include <QObject>
#include <QTimer>
#include <QUndoStack>
#include <optional>
#include <vector>
#include <viewer/document/issue.hpp>
#include <viewer/tasks/export_jobs.hpp>
#include <viewer/tasks/photo_jobs.hpp>
#include <viewer/tasks/task_lane.hpp>
#include <viewer/tasks/work_file.hpp>

namespace tintfall::viewer {

/// Regions as they are edited; `drawn` is false while they are the ones that were found by themselves.
struct RegionSet {
  bool drawn = false;
  colorlib::Regions regions;
};

/// Everything that changes it goes through its undo stack (document_commands.hpp); everything slow goes
/// through its lanes and comes back by a signal. Knows no widgets.
class PhotoDocument : public QObject {
  Q_OBJECT
 public:
  explicit PhotoDocument(QObject* parent = nullptr);

  // What it holds.
  const QString& photo_path() const { return photo_path_; }
  const QString& work_path() const { return work_path_; }
  QString title() const;
  const std::shared_ptr<const OpenedPhoto>& photo() const { return photo_; }
  const CalibratedPhoto& sheet() const { return sheet_; }
  const PhotoSetup& setup() const { return setup_; }
  const RegionSet& regions() const { return regions_; }
  const std::vector<ShownReading>& readings() const { return readings_; }
  const std::vector<colorlib::PhotoCheck>& checks() const { return checks_; }
  const std::vector<Issue>& issues() const { return issues_; }
  const ShownReading* reading_of(const QString& region) const;
  QUndoStack& undo_stack() { return undo_; }
  Work work() const;
  /// Regions or what was said differ from what was saved last, or from what the photo began with.
  bool has_unsaved_work() const { return !photo_path_.isEmpty() && (recovered_ || !undo_.isClean()); }
  ExportParameters export_parameters() const;
  /// Somebody said what the light was, or the raw file tells.
  bool light_is_known() const;
  bool readings_are_current() const { return readings_current_; }
  /// Readings are still to come: the photo is being opened, its sheet looked for, or its regions read.
  bool reading_is_coming() const { return open_lane_.busy() || sheet_lane_.busy() || read_lane_.busy(); }

  // What is asked of it.
  void open_photo(const QString& path, const PhotoSetup& setup);
  void open_pasted(const QByteArray& bytes, const QString& name, const PhotoSetup& setup);
  void open_work(const QString& file, bool recovered);
  void save_work(const QString& file);
  void save_regions(const QString& file);
  void load_regions(const QString& file);
  void export_to(const QString& file, ExportKind kind);
  void grow_from(const colorlib::PointMm& start, double tolerance_de00, colorlib::RegionKind kind);
  void set_screen(const Screen& screen);
  void stop();
  void add_issue(Issue issue);
  void clear_issues();

  /// The next free id: A ... Z, R27, ...
  QString free_id() const;
  std::vector<TaskLane*> lanes();

 signals:
  void begun();                              ///< another photo took the place of the one before
  void work_recovered(const QString& file);  ///< the work in this recovery file is open again
  void photo_changed();
  void sheet_changed();
  void regions_changed();
  void readings_changed();
  void setup_changed();
  void region_grown(const QString& id);  ///< grow_from() added it
  void issues_changed();
  void work_changed();  ///< something that autosave keeps
  void progressed(double fraction, const QString& stage);
  void busy_changed(bool busy);
  void saved(const QString& file);
  void save_failed(const QString& file);  ///< the list says why
  void unsaved_changed();                 ///< has_unsaved_work() may answer otherwise
  void exported(const QString& file);

 private:
  friend class RegionsCommand;
  friend class SetupCommand;
  void set_regions(const RegionSet& regions);
  void set_setup(const PhotoSetup& setup);
  void begin(const QString& path, const PhotoSetup& setup);
  void decode(OpenParameters parameters);
  void find_sheet();
  void read();
  void take_readings(ReadOutcome outcome);
  void tell(const colorlib::Error& error, IssueSource source);
  void forget_issues(std::initializer_list<IssueSource> sources);
  void tell_flags();
  std::optional<QRectF> place_of(const colorlib::Region& region, colorlib::RegionFrame frame) const;

  QString photo_path_, work_path_;
  std::shared_ptr<const OpenedPhoto> photo_;
  CalibratedPhoto sheet_;
  QString sheet_label_, printed_;
  PhotoSetup setup_;
  RegionSet regions_;
  std::vector<ShownReading> readings_;
  std::vector<colorlib::PhotoCheck> checks_;
  std::vector<Issue> issues_;
  bool readings_current_ = false;
  int opened_ = 0;           ///< photos so far
  int edits_ = 0;            ///< steps of edits so far, those that were merged too
  bool recovered_ = false;   ///< opened from a recovery file and not saved since
  bool read_again_ = false;  ///< regions changed while they were read: a drag must not starve its own answers
  Screen screen_;
  QUndoStack undo_;
  TaskLane open_lane_, sheet_lane_, read_lane_, grow_lane_, file_lane_;
};

}  // namespace tintfall::viewer
