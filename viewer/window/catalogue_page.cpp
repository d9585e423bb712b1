#include <QComboBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <algorithm>
#include <viewer/tasks/error_words.hpp>
#include <viewer/tasks/export_jobs.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/photo_page.hpp>
#include <viewer/window/place_field.hpp>
#include <viewer/window/report_preview.hpp>
#include <viewer/window/swatch_chip.hpp>

namespace tintfall::viewer {

using namespace colorlib;

void CataloguePage::set_screen(const Screen& screen) {
  screen_ = screen;
  if (isVisible()) search();
}

std::vector<TaskLane*> CataloguePage::lanes() {
  return {&search_lane_, &show_lane_, &change_lane_, &add_lane_, &compare_lane_, &leave_lane_};
}

bool CataloguePage::busy() const {
  return search_lane_.busy() || show_lane_.busy() || change_lane_.busy() || add_lane_.busy() ||
         compare_lane_.busy() || leave_lane_.busy();
}

void CataloguePage::stop() {
  for (TaskLane* lane : {&search_lane_, &show_lane_, &add_lane_, &compare_lane_, &leave_lane_})
    lane->cancel();
}

void CataloguePage::say(const QString& sentence) {
  problem_of_ = nullptr;
  words_->setText(sentence);
  words_->setVisible(!sentence.isEmpty());
  if (!sentence.isEmpty()) emit said(sentence);
}

void CataloguePage::tell(const Error& error, const TaskLane& lane) {
  if (error.code == ErrorCode::cancelled) return;
  say(error_words(error));
  problem_of_ = &lane;
}

void CataloguePage::take_back_problem(const TaskLane& lane) {
  if (problem_of_ == &lane) say({});
}

void CataloguePage::search() {
  typing_.stop();
  search_lane_.start(
      [search = typed(), screen = screen_](Progress& progress) {
        return search_catalogue(search, screen, progress);
      },
      [this](Result<CatalogueAnswer> answer) {
        if (!answer) return tell(answer.error(), search_lane_);
        take_back_problem(search_lane_);
        answer_ = std::make_shared<const CatalogueAnswer>(std::move(*answer));
        hit_table_->setColumnHidden(HitModel::distance, !color_);  // no distances, no column for them
        hits_.set_answer(answer_);
        collections_.set_answer(answer_);
        lists_->setTabText(0, tr("Readings (%1)").arg(answer_->readings.size()));
        // Only readings have colours: a search by colour lists no collections.
        lists_->setTabText(
            1, color_ ? tr("Collections") : tr("Collections (%1)").arg(answer_->collections.size()));
        const QString shown_name = answer_->where.contains(QLatin1String("://"))
                                       ? answer_->where
                                       : QFileInfo(answer_->where).fileName();
        where_->setToolTip(answer_->where);
        where_->setText(
            answer_->there
                ? QStringLiteral("%1%2").arg(
                      shown_name, answer_->more ? tr(" – the first %1 of more").arg(most_shown) : QString())
                : tr("There is no catalogue at %1 yet: adding a reading makes one.").arg(answer_->where));
        // Shown, not chosen: what is chosen leaves alone.
        if (!collection_ && hits_.rowCount() > 0)
          hit_table_->selectionModel()->setCurrentIndex(hits_.index(0, 0), QItemSelectionModel::NoUpdate);
        emit found();
      });
}

void CataloguePage::look_like(const Lab& lab, const Matrix3& covariance, const QString& what) {
  color_ = lab;
  color_covariance_ = covariance;
  color_words_->setText(what);
  any_color_->setEnabled(true);
  lists_->setCurrentIndex(0);
  search();
}

void CataloguePage::look_like_the_reading() {
  const ShownReading* reading = photo_.current_reading();
  if (reading == nullptr)
    return say(tr("There is no reading to look for: read a photo on the page 'One photo' first."));
  chip_->set_color(reading->swatch.color);
  look_like(reading->reading.lab, reading->reading.lab_covariance,
            tr("like %1 of the photo: %2").arg(QString::fromStdString(reading->reading.id), reading->name));
}

void CataloguePage::look_like_the_row() {
  const bool readings = lists_->currentIndex() == 0;
  const CatalogueHitShown* row = readings ? hits_.row(hit_table_->currentIndex().row()) : nullptr;
  if (row == nullptr || !row->hit.reading.lab) return say(tr("Choose a row of readings that has a colour."));
  const CatalogueHit& hit = row->hit;
  chip_->set_color(row->swatch.color);
  look_like(*hit.reading.lab, hit.reading.lab_covariance,
            tr("like %1 of %2: %3")
                .arg(QString::fromStdString(hit.reading.region), QString::fromStdString(hit.number),
                     QString::fromStdString(hit.reading.name)));
}

void CataloguePage::any_color() {
  color_.reset();
  chip_->set_color(std::nullopt);
  color_words_->setText(tr("any colour"));
  any_color_->setEnabled(false);
  search();
}

void CataloguePage::show_chosen_row() {
  const bool readings = lists_->currentIndex() == 0;
  const QModelIndex at = (readings ? hit_table_ : collection_table_)->currentIndex();
  if (!at.isValid()) return;
  const CatalogueHitShown* hit = readings ? hits_.row(at.row()) : nullptr;
  const QString number =
      hit != nullptr ? QString::fromStdString(hit->hit.number) : collections_.number_of(at.row());
  if (!number.isEmpty() && (!collection_ || collection_->number != number)) choose(number);
}

void CataloguePage::choose(const QString& number) {
  show_lane_.start([address = preferences_.catalogue.get(),
                    number](Progress&) { return show_collection(address, number); },
                   [this](Result<CollectionShown> shown_collection) {
                     if (!shown_collection) return tell(shown_collection.error(), show_lane_);
                     take_back_problem(show_lane_);
                     collection_ = std::make_shared<const CollectionShown>(std::move(*shown_collection));
                     fields_.set_collection(collection_);
                     records_.set_collection(collection_);
                     changes_.set_collection(collection_);
                     place_->set_collection(collection_.get());
                     record_table_->resizeRowsToContents();
                     title_->setText(collection_->removed ? tr("%1 (removed)").arg(collection_->number)
                                                          : collection_->number);
                     emit shown();
                   });
}

QStringList CataloguePage::chosen_numbers() const {
  QStringList numbers;
  const bool readings = lists_->currentIndex() == 0;
  for (const QModelIndex& at :
       (readings ? hit_table_ : collection_table_)->selectionModel()->selectedRows()) {
    const CatalogueHitShown* hit = readings ? hits_.row(at.row()) : nullptr;
    const QString number =
        hit != nullptr ? QString::fromStdString(hit->hit.number) : collections_.number_of(at.row());
    if (!number.isEmpty() && !numbers.contains(number)) numbers.push_back(number);
  }
  return numbers;
}

void CataloguePage::change(const CatalogueChangeAsked& change, bool takes_back) {
  using Kind = CatalogueChangeAsked::Kind;
  change_lane_.start([address = preferences_.catalogue.get(),
                      change](Progress&) { return change_catalogue(address, change); },
                     [this, kind = change.kind, takes_back](const Result<CatalogueChangeAsked>& back) {
                       if (!back) {
                         tell(back.error(), change_lane_);
                         if (collection_) choose(collection_->number);  // shows what stands
                         return;
                       }
                       if (!takes_back) undone_by_.push_back(*back);
                       say(takes_back             ? tr("Taken back.")
                           : kind == Kind::edit   ? tr("Kept; the value before stays in the history.")
                           : kind == Kind::remove ? tr("Removed, not gone: 'Bring back' shows it again.")
                                                  : tr("It is back."));
                       show_collection_again(back->number);
                     });
}

void CataloguePage::show_collection_again(const QString& number) {
  search();
  choose(number);
}

void CataloguePage::remove_chosen() {
  if (!collection_) return;
  CatalogueChangeAsked wanted{CatalogueChangeAsked::Kind::remove, collection_->number, {}, {}};
  // On the list of records one record goes, else the collection.
  if (record_table_->hasFocus() || record_table_->viewport()->hasFocus())
    if (const RecordShown* record = records_.row(record_table_->currentIndex().row()))
      wanted.content = record->content;
  change(wanted);
}

void CataloguePage::bring_back() {
  if (!collection_) return;
  CatalogueChangeAsked wanted{CatalogueChangeAsked::Kind::restore, collection_->number, {}, {}};
  if (!collection_->removed) {
    const RecordShown* record = records_.row(record_table_->currentIndex().row());
    if (record == nullptr || !record->removed) {
      record = nullptr;
      for (int r = 0; r < records_.rowCount() && record == nullptr; ++r)
        if (records_.row(r)->removed) record = records_.row(r);
    }
    if (record == nullptr) return say(tr("Nothing of this collection was removed."));
    wanted.content = record->content;
  }
  change(wanted);
}

void CataloguePage::take_back() {
  if (undone_by_.empty()) return say(tr("Nothing was changed here since the window opened."));
  const CatalogueChangeAsked back = undone_by_.back();
  undone_by_.pop_back();
  change(back, true);
}

void CataloguePage::add_reading() {
  PhotoDocument& document = photo_.document();
  if (!document.sheet() || document.readings().empty())
    return say(tr("There is no reading to add: read a photo on the page 'One photo' first."));
  if (document.setup().subject.item.empty())
    return say(
        tr("Say the item, which is the collection's number, under 'About this photo' on the page 'One photo' "
           "first."));
  add_lane_.start(
      [address = preferences_.catalogue.get(), parameters = document.export_parameters(),
       name = document.title()](Progress& progress) {
        return add_to_catalogue(address, {{name, record_text(parameters)}}, {}, progress);
      },
      [this](const Result<AddedToCatalogue>& added) {
        if (!added) return tell(added.error(), add_lane_);
        say(added->sentence);
        show_collection_again(added->number);
      });
}

void CataloguePage::add_files(const QStringList& files) {
  if (files.isEmpty()) return;
  add_lane_.start([address = preferences_.catalogue.get(),
                   files](Progress& progress) { return add_files_to_catalogue(address, files, progress); },
                  [this](const Result<AddedToCatalogue>& added) {
                    if (!added) return tell(added.error(), add_lane_);
                    say(added->sentence);
                    show_collection_again(added->number);
                  });
}

void CataloguePage::put_side_by_side() {
  QStringList numbers = chosen_numbers();
  if (numbers.isEmpty() && collection_) numbers.push_back(collection_->number);
  if (numbers.isEmpty())
    return say(tr("Choose readings or collections first; Ctrl and Shift choose several."));
  QStringList contents;
  if (lists_->currentIndex() == 0)
    for (const QModelIndex& at : hit_table_->selectionModel()->selectedRows())
      contents.push_back(QString::fromStdString(hits_.row(at.row())->hit.content));
  compare_lane_.start([address = preferences_.catalogue.get(), numbers,
                       contents](Progress&) { return records_of(address, numbers, contents); },
                      [this](const Result<std::vector<NamedRecord>>& records) {
                        if (!records) return tell(records.error(), compare_lane_);
                        emit compare_asked(*records);
                      });
}

void CataloguePage::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  search();
}

void CataloguePage::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void CataloguePage::dropEvent(QDropEvent* event) {
  QStringList files;
  for (const QUrl& url : event->mimeData()->urls())
    if (url.isLocalFile()) files.push_back(url.toLocalFile());
  add_files(files);
}

}  // namespace tintfall::viewer
