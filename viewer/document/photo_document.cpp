#include <QFileInfo>
#include <algorithm>
#include <set>
#include <viewer/document/document_commands.hpp>
#include <viewer/document/photo_document.hpp>
#include <viewer/tasks/error_words.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

QString words(const std::string& text) { return QString::fromStdString(text); }

/// Spellings of docs/reference/error_codes.md, in the order of ErrorCode.
QString code_of(ErrorCode code) {
  switch (code) {
    case ErrorCode::chart_not_found:
      return QStringLiteral("chart-not-found");
    case ErrorCode::untrustworthy:
      return QStringLiteral("untrustworthy");
    case ErrorCode::cannot_write:
      return QStringLiteral("cannot-write");
    case ErrorCode::cancelled:
      return QStringLiteral("cancelled");
    case ErrorCode::bad_call:
      return QStringLiteral("bad-call");
    default:
      return QStringLiteral("unreadable");
  }
}

}  // namespace

PhotoDocument::PhotoDocument(QObject* parent)
    : QObject(parent),
      open_lane_(QStringLiteral("open")),
      sheet_lane_(QStringLiteral("sheet")),
      read_lane_(QStringLiteral("read")),
      grow_lane_(QStringLiteral("grow")),
      file_lane_(QStringLiteral("file"), TaskLane::Order::one_after_another) {
  for (TaskLane* lane : lanes()) {
    connect(lane, &TaskLane::progressed, this, &PhotoDocument::progressed);
    const auto tell_busy = [this] {
      const auto all = lanes();
      emit busy_changed(
          std::any_of(all.begin(), all.end(), [](const TaskLane* each) { return each->busy(); }));
    };
    connect(lane, &TaskLane::began, this, tell_busy);
    connect(lane, &TaskLane::ended, this, tell_busy);
  }
  connect(&undo_, &QUndoStack::cleanChanged, this, &PhotoDocument::unsaved_changed);
}

std::vector<TaskLane*> PhotoDocument::lanes() {
  return {&open_lane_, &sheet_lane_, &read_lane_, &grow_lane_, &file_lane_};
}

QString PhotoDocument::title() const {
  return photo_path_.isEmpty() ? QString() : QFileInfo(photo_path_).fileName();
}

const ShownReading* PhotoDocument::reading_of(const QString& region) const {
  const auto place = std::find_if(readings_.begin(), readings_.end(), [&](const ShownReading& each) {
    return each.reading.id == region.toStdString();
  });
  return place == readings_.end() ? nullptr : &*place;
}

Work PhotoDocument::work() const {
  return {photo_path_, work_path_, setup_, regions_.drawn, regions_.regions};
}

bool PhotoDocument::light_is_known() const {
  return !setup_.subject.light.empty() || tells_its_light(sheet_);
}

ExportParameters PhotoDocument::export_parameters() const {
  ExportParameters parameters{photo_, sheet_, {}, setup_.subject, sheet_label_, printed_};
  for (const ShownReading& each : readings_) parameters.readings.push_back(each.reading);
  return parameters;
}

void PhotoDocument::begin(const QString& path, const PhotoSetup& setup) {
  stop();
  undo_.clear();
  photo_path_ = path;
  work_path_.clear();
  setup_ = setup;
  photo_.reset();
  sheet_.reset();
  regions_ = {};
  readings_.clear();
  checks_.clear();
  issues_.clear();
  readings_current_ = false;
  recovered_ = false;
  ++opened_;
  emit begun();
  emit photo_changed();
  emit sheet_changed();
  emit regions_changed();
  emit readings_changed();
  emit setup_changed();
  emit issues_changed();
}

void PhotoDocument::open_photo(const QString& path, const PhotoSetup& setup) {
  begin(QFileInfo(path).absoluteFilePath(), setup);
  decode({photo_path_, {}});
}

void PhotoDocument::open_pasted(const QByteArray& bytes, const QString& name, const PhotoSetup& setup) {
  begin(name, setup);
  decode({name, bytes});
}

void PhotoDocument::open_work(const QString& file, bool recovered) {
  stop();
  open_lane_.start(
      [file](Progress&) { return read_work(file); },
      [this, file, recovered](Result<Work> work) {
        if (!work) return tell(work.error(), IssueSource::photo);
        begin(work->photo, work->setup);
        work_path_ = recovered ? work->file : file;
        regions_ = {work->regions_drawn, work->regions};
        emit regions_changed();
        recovered_ = recovered;
        emit unsaved_changed();
        if (!recovered) return decode({photo_path_, {}});
        emit work_recovered(file);
        add_issue({IssueWeight::note,
                   QStringLiteral("recovered"),
                   tr("Work on '%1' was found that had not been saved when the program ended.").arg(title()),
                   tr("It is open again as it was; save it to keep it."),
                   {},
                   {},
                   1});
        decode({photo_path_, {}});
      });
}

void PhotoDocument::decode(OpenParameters parameters) {
  open_lane_.start(
      [parameters](Progress& progress) { return viewer::open_photo(parameters, progress); },
      [this](OpenOutcome photo) {
        if (!photo) return tell(photo.error(), IssueSource::photo);
        photo_ = *photo;
        for (const std::string& remark : photo_->pyramid.photo().remarks)
          add_issue(
              {IssueWeight::note, QStringLiteral("photo"), words(remark), {}, {}, {}, 1, IssueSource::photo});
        emit photo_changed();
        find_sheet();
      });
}

void PhotoDocument::find_sheet() {
  if (!photo_) return;
  read_lane_.cancel();
  read_again_ = false;
  readings_current_ = false;
  sheet_lane_.start(
      [parameters = SheetParameters{photo_, setup_}](Progress& progress) {
        return find_sheet_in(parameters, progress);
      },
      [this](Result<SheetOutcome> outcome) {
        forget_issues({IssueSource::sheet, IssueSource::readings});
        if (!outcome) {
          sheet_.reset();
          readings_.clear();
          checks_.clear();
          emit sheet_changed();
          emit readings_changed();
          return tell(outcome.error(), IssueSource::sheet);
        }
        sheet_ = outcome->sheet;
        sheet_label_ = outcome->label;
        printed_ = outcome->printed;
        emit sheet_changed();
        for (const std::string& remark : sheet_->sheet.remarks)
          add_issue(
              {IssueWeight::note, QStringLiteral("sheet"), words(remark), {}, {}, {}, 1, IssueSource::sheet});
        read();
      });
}

void PhotoDocument::read() {
  readings_current_ = false;
  if (!sheet_) return;
  read_again_ = read_lane_.busy();
  if (read_again_) return;
  if (regions_.drawn && regions_.regions.items.empty()) {
    return take_readings({});
  }
  ReadParameters parameters{
      photo_, sheet_, std::nullopt, setup_.height_mm, {setup_.masstone, setup_.subject.surface}, screen_};
  if (regions_.drawn) parameters.regions = regions_.regions;
  read_lane_.start([parameters](Progress& progress) { return read_regions_in(parameters, progress); },
                   [this](Result<ReadOutcome> outcome) {
                     if (outcome) {
                       take_readings(std::move(*outcome));
                     } else {
                       readings_.clear();
                       forget_issues({IssueSource::readings});
                       emit readings_changed();
                       tell(outcome.error(), IssueSource::readings);
                     }
                     if (read_again_) read();
                   });
}

void PhotoDocument::take_readings(ReadOutcome outcome) {
  readings_ = std::move(outcome.readings);
  if (!outcome.checks.empty()) checks_ = std::move(outcome.checks);
  readings_current_ = !read_again_;
  if (!regions_.drawn && !read_again_) {
    regions_.regions = {};
    for (const ShownReading& each : readings_) regions_.regions.items.push_back(each.reading.region);
    emit regions_changed();
  }
  tell_flags();
  emit readings_changed();
}

void PhotoDocument::tell_flags() {
  std::erase_if(issues_, [](const Issue& issue) {
    return issue.source == IssueSource::readings || !issue.region.isEmpty();
  });
  std::set<std::string> told;
  for (const ShownReading& each : readings_) {
    const auto place = place_of(each.reading.region, each.reading.frame);
    const QString id = words(each.reading.id);
    if (each.reading.refused)
      issues_.push_back({IssueWeight::problem, code_of(each.reading.refused->code),
                         message_words(*each.reading.refused), advice_words(*each.reading.refused), id, place,
                         1, IssueSource::readings});
    for (const Flag& flag : each.reading.flags)
      issues_.push_back({IssueWeight::advice, words(flag.code), tr("Region %1").arg(id), words(flag.advice),
                         id, place, 1, IssueSource::readings});
  }
  if (sheet_)
    for (const Flag& flag : sheet_->flags)
      issues_.push_back({IssueWeight::advice,
                         words(flag.code),
                         tr("The photo as a whole"),
                         words(flag.advice),
                         {},
                         {},
                         1,
                         IssueSource::readings});
  emit issues_changed();
}

std::optional<QRectF> PhotoDocument::place_of(const Region& region, RegionFrame frame) const {
  const auto [left, top, right, bottom] = region.bounds();
  if (frame == RegionFrame::photo_px || !sheet_) return QRectF(QPointF(left, top), QPointF(right, bottom));
  QRectF place;
  for (const PointMm& corner :
       {PointMm{left, top}, PointMm{right, top}, PointMm{right, bottom}, PointMm{left, bottom}}) {
    const PointPx px = sheet_->sheet.placement.px_from_mm(corner);
    place = place.united(QRectF(px.x, px.y, 1, 1));
  }
  return place;
}

void PhotoDocument::set_regions(const RegionSet& regions) {
  regions_ = regions;
  ++edits_;
  emit regions_changed();
  emit work_changed();
  read();
}

void PhotoDocument::set_setup(const PhotoSetup& setup) {
  const bool same_sheet = setup.chart == setup_.chart && setup.reference == setup_.reference &&
                          setup.sheet == setup_.sheet && setup.corners == setup_.corners &&
                          setup.subject.light == setup_.subject.light;
  const bool same_reading = setup.height_mm == setup_.height_mm && setup.masstone == setup_.masstone &&
                            (setup.subject.surface == setup_.subject.surface || !setup.masstone);
  setup_ = setup;
  ++edits_;
  emit setup_changed();
  emit work_changed();
  if (!same_sheet)
    find_sheet();
  else if (!same_reading)
    read();
}

void PhotoDocument::set_screen(const Screen& screen) {
  screen_ = screen;
  if (sheet_) read();
}

void PhotoDocument::save_work(const QString& file) {
  Work saving = work();
  saving.file.clear();
  file_lane_.start([saving, file](Progress&) { return write_work(saving, file); },
                   [this, file, edits = edits_, opened = opened_](Result<std::monostate> written) {
                     forget_issues({IssueSource::work_file});
                     if (!written) {
                       tell(written.error(), IssueSource::work_file);
                       return emit save_failed(file);
                     }
                     if (opened != opened_) return;
                     work_path_ = file;
                     recovered_ = false;
                     if (edits == edits_) undo_.setClean();  // else what came since is not in the file
                     emit unsaved_changed();
                     emit saved(file);
                   });
}

void PhotoDocument::save_regions(const QString& file) {
  file_lane_.start(
      [regions = regions_.regions, file](Progress&) { return viewer::save_regions(file, regions); },
      [this, file](Result<std::monostate> written) {
        forget_issues({IssueSource::regions_file});
        if (!written) return tell(written.error(), IssueSource::regions_file);
        emit exported(file);
      });
}

void PhotoDocument::load_regions(const QString& file) {
  file_lane_.start([file](Progress&) { return viewer::load_regions(file); },
                   [this](Result<Regions> regions) {
                     forget_issues({IssueSource::regions_file});
                     if (!regions) return tell(regions.error(), IssueSource::regions_file);
                     undo_.push(new RegionsCommand(*this, tr("Load regions"), {true, std::move(*regions)}));
                   });
}

void PhotoDocument::export_to(const QString& file, ExportKind kind) {
  if (!sheet_ || readings_.empty())
    return add_issue({IssueWeight::problem,
                      QStringLiteral("nothing-read"),
                      tr("There is no reading to write yet."),
                      tr("Open a photo with a sheet in it and wait until it is read."),
                      {},
                      {},
                      1,
                      IssueSource::exporting});
  file_lane_.start([parameters = export_parameters(), file,
                    kind](Progress&) { return viewer::export_to(file, kind, parameters); },
                   [this, file](Result<std::monostate> written) {
                     forget_issues({IssueSource::exporting});
                     if (!written) return tell(written.error(), IssueSource::exporting);
                     emit exported(file);
                   });
}

void PhotoDocument::grow_from(const PointMm& start, double tolerance_de00, RegionKind kind) {
  if (!sheet_) return;
  grow_lane_.start([parameters = GrowParameters{photo_, sheet_, start, tolerance_de00}](
                       Progress& progress) { return grow_region_in(parameters, progress); },
                   [this, kind](Result<Region> region) {
                     forget_issues({IssueSource::growing});
                     if (!region) return tell(region.error(), IssueSource::growing);
                     region->kind = kind;
                     region->id = free_id().toStdString();
                     const QString id = words(region->id);
                     add_region(*this, std::move(*region));
                     emit region_grown(id);
                   });
}

void PhotoDocument::stop() {
  read_again_ = false;
  for (TaskLane* lane : {&open_lane_, &sheet_lane_, &read_lane_, &grow_lane_})
    lane->cancel();  // files are written to their end
}

void PhotoDocument::tell(const Error& error, IssueSource source) {
  if (error.code == ErrorCode::cancelled) return;
  add_issue({IssueWeight::problem,
             code_of(error.code),
             message_words(error),
             advice_words(error),
             {},
             {},
             1,
             source});
}

void PhotoDocument::forget_issues(std::initializer_list<IssueSource> sources) {
  const auto gone = std::erase_if(issues_, [&](const Issue& issue) {
    return std::find(sources.begin(), sources.end(), issue.source) != sources.end();
  });
  if (gone > 0) emit issues_changed();
}

void PhotoDocument::add_issue(Issue issue) {
  for (Issue& known : issues_)
    if (known.message == issue.message && known.region == issue.region) {
      ++known.count;
      return emit issues_changed();
    }
  issues_.insert(issues_.begin(), std::move(issue));
  emit issues_changed();
}

void PhotoDocument::clear_issues() {
  issues_.clear();
  emit issues_changed();
}

QString PhotoDocument::free_id() const {
  std::set<std::string> used;
  for (const Region& region : regions_.regions.items) used.insert(region.id);
  for (std::size_t i = 0;; ++i)
    if (const std::string id = region_id_at(i); !used.contains(id)) return QString::fromStdString(id);
}

}  // namespace tintfall::viewer
