/// What leaves the catalogue page: the report and the export, of what is chosen, else of all that matches.
#include <QComboBox>
#include <QFileDialog>
#include <QStackedWidget>
#include <QTableView>
#include <viewer/settings/figures.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/report_preview.hpp>

namespace tintfall::viewer {

using namespace colorlib;

CatalogueExport CataloguePage::wanted_export(const QStringList& numbers) const {
  CatalogueExport wanted;
  wanted.address = preferences_.catalogue.get();
  wanted.numbers = numbers;
  wanted.places = static_cast<PlaceDetail>(places_->currentData().toInt());
  wanted.pictures = pictures_;
  return wanted;
}

void CataloguePage::with_what_leaves(std::function<void(const QStringList&)> then) {
  say({});
  if (const QStringList chosen = chosen_numbers(); !chosen.isEmpty()) return then(chosen);
  leave_lane_.start([search = typed()](Progress& progress) { return numbers_that_match(search, progress); },
                    [this, then = std::move(then)](const Result<QStringList>& numbers) {
                      if (!numbers) return tell(numbers.error(), leave_lane_);
                      if (numbers->isEmpty())
                        return say(tr("No collection matches, so there is nothing to write."));
                      then(*numbers);
                    });
}

void CataloguePage::show_report() {
  with_what_leaves([this](const QStringList& numbers) {
    leave_lane_.start(
        [wanted = wanted_export(numbers)](Progress& progress) { return preview_report(wanted, progress); },
        [this](Result<std::vector<QImage>> pages) {
          if (!pages) return tell(pages.error(), leave_lane_);
          report_->set_pages(std::move(*pages));
          stack_->setCurrentIndex(1);
          search_rows_->hide();
          report_->setFocus();
          emit shown();
        });
  });
}

void CataloguePage::show_list() {
  stack_->setCurrentIndex(0);
  search_rows_->show();
}

void CataloguePage::choose_no_row() {
  for (QTableView* table : {hit_table_, collection_table_}) table->clearSelection();
}

void CataloguePage::ask_and_export(const QString& title, const QString& proposed_name, const QString& kinds) {
  const bool chosen = !chosen_numbers().isEmpty();
  const auto ask = [this, chosen, title, proposed_name, kinds](const QStringList& numbers) {
    const QString told = (chosen ? tr("%1: %2 chosen collection(s)")
                                 : tr("%1: all %2 collection(s) that match, as no row is chosen"))
                             .arg(title, count_figure(numbers.size()));
    const QString file = ask_file_ ? ask_file_(told, proposed_name, kinds)
                                   : QFileDialog::getSaveFileName(this, told, proposed_name, kinds);
    if (!file.isEmpty()) write(numbers, file);
  };
  with_what_leaves([this, ask](const QStringList& numbers) {
    // After the lane is done: the question may stand for long.
    QMetaObject::invokeMethod(
        this, [ask, numbers] { ask(numbers); }, Qt::QueuedConnection);
  });
}

void CataloguePage::export_to(const QString& file) {
  with_what_leaves([this, file](const QStringList& numbers) { write(numbers, file); });
}

void CataloguePage::write(const QStringList& numbers, const QString& file) {
  CatalogueExport wanted = wanted_export(numbers);
  wanted.file = file;
  leave_lane_.start([wanted](Progress& progress) { return export_catalogue(wanted, progress); },
                    [this](const Result<QString>& sentence) {
                      if (!sentence) return tell(sentence.error(), leave_lane_);
                      say(*sentence);
                    });
}

}  // namespace tintfall::viewer
