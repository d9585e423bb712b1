#include <QApplication>
#include <QBuffer>
#include <QClipboard>
#include <QComboBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QImage>
#include <QMimeData>
#include <QTabWidget>
#include <QTableView>
#include <algorithm>
#include <colorlib/base/cautions.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/record_jobs.hpp>
#include <viewer/window/caution_label.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/magnifier.hpp>
#include <viewer/window/new_setup.hpp>
#include <viewer/window/photo_page.hpp>
#include <viewer/window/reading_panel.hpp>
#include <viewer/window/unsaved_work.hpp>
#include <viewer/window/work_ending.hpp>

namespace tintfall::viewer {

using namespace colorlib;

PhotoPage::PhotoPage(QWidget* parent)
    : QWidget(parent),
      recovery_(document_, Recovery::default_folder()),
      unsaved_(new UnsavedWork(document_, this)),
      clipboard_lane_(QStringLiteral("clipboard")),
      records_lane_(QStringLiteral("records")) {
  setAcceptDrops(true);
  setAccessibleName(tr("Photo page"));
  view_ = new PhotoView(document_);
  magnifier_ = new Magnifier(document_, *view_);
  reading_ = new ReadingPanel;
  plane_ = new ColorPlane;
  make_actions();
  make_drawing_actions();
  make_view_actions();
  lay_out();

  connect(&document_, &PhotoDocument::readings_changed, this, &PhotoPage::show_readings);
  connect(&document_, &PhotoDocument::regions_changed, this, &PhotoPage::show_readings);
  connect(&document_, &PhotoDocument::busy_changed, this, &PhotoPage::show_rows);
  connect(&document_, &PhotoDocument::issues_changed, this,
          [this] { issues_.set_issues(document_.issues()); });
  connect(view_, &PhotoView::selected_changed, this, &PhotoPage::show_selected);
  connect(view_, &PhotoView::grow_asked, this, [this](const QPointF& place) {
    if (!document_.sheet()) return;
    document_.grow_from(document_.sheet()->sheet.placement.mm_from_px({place.x(), place.y()}),
                        preferences_.grow_tolerance.get(),
                        static_cast<RegionKind>(kind_->currentData().toInt()));
  });
  connect(&document_, &PhotoDocument::region_grown, view_, &PhotoView::select);
  connect(&regions_, &RegionModel::rename_asked, this, [this](const QString& id, const QString& name) {
    const bool chosen = view_->selected() == id;
    rename_region(document_, id, name);
    if (chosen && regions_.row_of(name.trimmed()) >= 0) view_->select(name.trimmed());
  });
  show_readings();
}

void PhotoPage::open(const QString& file) {
  unsaved_->settle([this, file] {
    if (file.endsWith(work_ending))
      document_.open_work(file, false);
    else
      document_.open_photo(file, setup_of_new_photos());
    emit opened(QFileInfo(file).absoluteFilePath());
  });
}

void PhotoPage::set_screen(const Screen& screen) {
  screen_ = screen;
  document_.set_screen(screen);
  magnifier_->set_screen(screen);
  view_->set_screen(screen, true);
}

void PhotoPage::show_rows() {
  std::vector<RegionRow> rows;
  for (const Region& region : document_.regions().regions.items) {
    RegionRow row{QString::fromStdString(region.id), region.kind, {}, false, document_.reading_is_coming()};
    if (const ShownReading* shown = document_.reading_of(row.id)) {
      row.shown = *shown;
      row.read = true;
    }
    rows.push_back(std::move(row));
  }
  const bool reagent = std::any_of(rows.begin(), rows.end(),
                                   [](const RegionRow& row) { return row.kind == RegionKind::spot; });
  if (reagent)
    set_cautions(*caution_, {caution_safety, caution_reagents});
  else
    set_cautions(*caution_, {caution_safety});
  regions_.set_rows(std::move(rows));
}

void PhotoPage::show_readings() {
  show_rows();
  checks_.set_checks(document_.checks());
  show_selected(view_->selected());
}

const ShownReading* PhotoPage::current_reading() const {
  const ShownReading* shown = document_.reading_of(view_->selected());
  if (shown == nullptr && document_.readings().size() == 1) shown = &document_.readings().front();
  return shown == nullptr || shown->reading.refused ? nullptr : shown;
}

void PhotoPage::show_selected(const QString& region) {
  const ShownReading* shown = document_.reading_of(region);
  if (shown == nullptr && document_.readings().size() == 1) shown = &document_.readings().front();
  const CalibratedPhoto& sheet = document_.sheet();
  reading_->set_reading(
      shown, {!sheet || sheet->reference.kind != ReferenceKind::nominal, document_.light_is_known()});
  std::vector<ShownReading> standing;
  int main = 0;
  for (const ShownReading& each : document_.readings()) {
    if (each.reading.refused) continue;
    if (shown != nullptr && each.reading.id == shown->reading.id) main = static_cast<int>(standing.size());
    standing.push_back(each);
  }
  plane_->set_readings(std::move(standing), main);
  const int row = regions_.row_of(region);
  if (row >= 0) {
    const auto* entry = regions_.row(row);
    kind_->setCurrentIndex(kind_->findData(static_cast<int>(entry->kind)));
    if (region_table_->currentIndex().row() != row) region_table_->selectRow(row);
  }
}

void PhotoPage::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls() || event->mimeData()->hasImage()) event->acceptProposedAction();
}

void PhotoPage::dropEvent(QDropEvent* event) {
  for (const QUrl& url : event->mimeData()->urls())
    if (url.isLocalFile()) {
      event->acceptProposedAction();
      return open(url.toLocalFile());
    }
}

void PhotoPage::paste() {
  const QMimeData* data = QApplication::clipboard()->mimeData();
  if (data != nullptr)
    for (const QUrl& url : data->urls())
      if (url.isLocalFile()) return open(url.toLocalFile());
  const QImage image =
      data != nullptr && data->hasImage() ? qvariant_cast<QImage>(data->imageData()) : QImage();
  if (image.isNull())
    return document_.add_issue({IssueWeight::problem,
                                QStringLiteral("paste"),
                                tr("The clipboard holds neither a photo nor a file."),
                                tr("Copy a photo or its file first."),
                                {},
                                {},
                                1});
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  image.save(&buffer, "PNG", 100);
  unsaved_->settle(
      [this, bytes] { document_.open_pasted(bytes, tr("pasted picture"), setup_of_new_photos()); });
}

void PhotoPage::copy(ExportKind kind) {
  if (!document_.sheet() || document_.readings().empty()) return;
  clipboard_lane_.start(
      [parameters = document_.export_parameters(), kind](Progress&) { return exported(kind, parameters); },
      [this, kind](Result<std::string> bytes) {
        if (!bytes)
          return document_.add_issue({IssueWeight::problem,
                                      QStringLiteral("copy"),
                                      message_words(bytes.error()),
                                      advice_words(bytes.error()),
                                      {},
                                      {},
                                      1});
        if (kind == ExportKind::picture)
          QApplication::clipboard()->setImage(QImage::fromData(QByteArray::fromStdString(*bytes)));
        else
          QApplication::clipboard()->setText(QString::fromStdString(*bytes));
      });
}

void PhotoPage::write(ExportKind kind) {
  const QString ending = kind == ExportKind::record ? QStringLiteral(".reading.json")
                         : kind == ExportKind::text ? QStringLiteral(".reading.txt")
                                                    : QStringLiteral(".reading.png");
  const QString file =
      QFileDialog::getSaveFileName(this, tr("Write reading"), document_.photo_path() + ending);
  if (!file.isEmpty()) document_.export_to(file, kind);
}

void PhotoPage::ask_open() {
  const QString file = QFileDialog::getOpenFileName(this, tr("Open a photo or saved work"), {},
                                                    tr("Photos and saved work (*);;Saved work (*.tintfall)"));
  if (!file.isEmpty()) open(file);
}

void PhotoPage::overlay_other_records() {
  const QStringList files =
      QFileDialog::getOpenFileNames(this, tr("Readings to show beside these"), {}, tr("Records (*.json)"));
  if (files.isEmpty()) return;
  records_lane_.start(
      [files, screen = screen_](Progress& progress) { return read_records(files, screen, progress); },
      [this](const std::vector<RecordOutcome>& outcomes) {
        std::vector<ShownReading> others;
        for (const RecordOutcome& outcome : outcomes) {
          if (!outcome.problem.isEmpty())
            document_.add_issue({IssueWeight::problem,
                                 QStringLiteral("unreadable-record"),
                                 outcome.problem,
                                 outcome.advice,
                                 {},
                                 {},
                                 1});
          others.insert(others.end(), outcome.readings.begin(), outcome.readings.end());
        }
        plane_->set_others(std::move(others));
        tabs_->setCurrentIndex(1);
      });
}

void PhotoPage::jump_to_issue(int row) {
  const Issue* issue = issues_.issue(row);
  if (issue == nullptr) return;
  if (!issue->region.isEmpty()) view_->select(issue->region);
  if (issue->place_px) view_->show_place(*issue->place_px);
}

}  // namespace tintfall::viewer
