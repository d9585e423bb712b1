#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTabWidget>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>
#include <colorlib/base/cautions.hpp>
#include <viewer/models/region_model.hpp>
#include <viewer/window/catalogue_page.hpp>
#include <viewer/window/caution_label.hpp>
#include <viewer/window/column_widths.hpp>
#include <viewer/window/elided_label.hpp>
#include <viewer/window/photo_page.hpp>
#include <viewer/window/place_field.hpp>
#include <viewer/window/report_preview.hpp>
#include <viewer/window/swatch_chip.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int typing_pause_ms = 300;  // a search for every word, not for every letter

QToolButton* button_of(QAction* action) {
  auto* button = new QToolButton;
  button->setDefaultAction(action);
  button->setAccessibleName(action->text());
  return button;
}

QTableView* table_of(QAbstractItemModel* model, const QString& name) {
  auto* table = new QTableView;
  table->setModel(model);
  table->setAccessibleName(name);
  table->setTabKeyNavigation(false);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->verticalHeader()->hide();
  table->setWordWrap(false);
  table->horizontalHeader()->setStretchLastSection(true);
  table->horizontalHeader()->setHighlightSections(false);
  table->horizontalHeader()->setTextElideMode(Qt::ElideRight);
  table->setIconSize(QSize(40, 22));
  return table;
}

}  // namespace

CataloguePage::CataloguePage(PhotoPage& photo, QWidget* parent)
    : QWidget(parent),
      photo_(photo),
      search_lane_(QStringLiteral("catalogue")),
      show_lane_(QStringLiteral("collection")),
      change_lane_(QStringLiteral("catalogue change"), TaskLane::Order::one_after_another),
      add_lane_(QStringLiteral("catalogue adding"), TaskLane::Order::one_after_another),
      compare_lane_(QStringLiteral("catalogue records")),
      leave_lane_(QStringLiteral("catalogue export")) {
  setAcceptDrops(true);
  setAccessibleName(tr("Catalogue"));
  make_actions();
  words_ = new QLabel;
  words_->setWordWrap(true);
  words_->setAccessibleName(tr("What was done"));
  words_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  words_->hide();
  auto* split = new QSplitter(Qt::Horizontal);
  split->setAccessibleName(tr("Readings and one collection"));
  split->addWidget(list_column());
  split->addWidget(detail_column());
  split->setSizes({760, 480});
  stack_ = new QStackedWidget;
  stack_->addWidget(split);
  stack_->addWidget(report_column());
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(button_row());
  search_rows_ = search_rows();
  column->addWidget(search_rows_);
  column->addWidget(stack_, 1);
  column->addWidget(words_);
  column->addWidget(caution_label({caution_safety}));
  typing_.setSingleShot(true);
  typing_.setInterval(typing_pause_ms);
  connect(&typing_, &QTimer::timeout, this, &CataloguePage::search);
  connect(&fields_, &FieldModel::edit_asked, this, [this](const QString& name, const QString& value) {
    if (collection_) change({CatalogueChangeAsked::Kind::edit, collection_->number, {}, {{name, value}}});
  });
  connect(place_, &PlaceField::keep_asked, this,
          [this](const std::vector<std::pair<QString, QString>>& fields) {
            if (collection_) change({CatalogueChangeAsked::Kind::edit, collection_->number, {}, fields});
          });
}

QAction* CataloguePage::action(const QString& text, const QString& key, const QString& hint,
                               std::function<void()> what) {
  auto* made = new QAction(text, this);
  made->setShortcut(QKeySequence(key));
  made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
  made->setToolTip(QStringLiteral("%1 (%2)").arg(hint, made->shortcut().toString(QKeySequence::NativeText)));
  connect(made, &QAction::triggered, this, std::move(what));
  addAction(made);
  actions_.actions.push_back(made);
  return made;
}

void CataloguePage::make_actions() {
  actions_.title = tr("Catalogue");
  bar_ = {
      action(tr("Like the reading"), tr("Ctrl+Alt+N"),
             tr("Find what has the colour of the reading on the page 'One photo'"),
             [this] { look_like_the_reading(); }),
      action(tr("Like this row"), tr("Ctrl+Alt+M"), tr("Find what has the colour of the chosen row"),
             [this] { look_like_the_row(); }),
      nullptr,
      action(tr("Add the reading"), tr("Ctrl+Alt+A"),
             tr("Add the record of the photo on the page 'One photo'; its item is the number"),
             [this] { add_reading(); }),
      action(tr("Add records …"), tr("Ctrl+Alt+Shift+A"), tr("Add record files to the catalogue"),
             [this] {
               add_files(QFileDialog::getOpenFileNames(this, tr("Records"), {}, tr("Records (*.json)")));
             }),
      nullptr,
      action(tr("Side by side"), tr("Ctrl+Alt+B"), tr("Put what is chosen on the page 'Side by side'"),
             [this] { put_side_by_side(); }),
      action(tr("Report …"), tr("Ctrl+Alt+P"),
             tr("See the report of the chosen rows, or of all that matches, and write it"),
             [this] { show_report(); }),
      action(tr("Export …"), tr("Ctrl+Alt+W"),
             tr("Write the chosen rows, or all that matches, for other programs"),
             [this] {
               ask_and_export(
                   tr("Export"), QStringLiteral("collections.csv"),
                   tr("Table (*.csv);;CGATS (*.cgats);;Darwin Core archive (*.zip);;Text for notes "
                      "(*.txt);;Everything, one line a collection (*.jsonl);;Report (*.pdf)"));
             }),
      nullptr,
      action(tr("Remove"), tr("Shift+Del"), tr("Put the collection, or the chosen record, out of sight"),
             [this] { remove_chosen(); }),
      action(tr("Bring back"), tr("Ctrl+Alt+Y"), tr("Show what was removed again"), [this] { bring_back(); }),
      action(tr("Take back"), tr("Ctrl+Alt+Z"), tr("Undo the last change made on this page"),
             [this] { take_back(); }),
  };
  any_color_ =
      action(tr("Any colour"), tr("Ctrl+Alt+U"), tr("Look for every colour again"), [this] { any_color(); });
  any_color_->setEnabled(false);
  action(tr("Choose no row"), tr("Ctrl+Alt+Shift+N"),
         tr("Leave every row unchosen, so that a report or an export takes all that matches"),
         [this] { choose_no_row(); });
  action(tr("Back to the list"), tr("Ctrl+Backspace"), tr("Leave the report's pages"),
         [this] { show_list(); });
}

QWidget* CataloguePage::button_row() {
  auto* bar = new QWidget;
  auto* row = new WrappingRow(bar);
  for (QAction* each : bar_) each == nullptr ? row->add_gap(2) : row->addWidget(button_of(each));
  row->add_stretch();
  places_ = new QComboBox;
  places_->setAccessibleName(tr("Places in what leaves"));
  places_->addItem(tr("no places"), static_cast<int>(PlaceDetail::none));
  places_->addItem(tr("coarse places"), static_cast<int>(PlaceDetail::coarse));
  places_->addItem(tr("exact places"), static_cast<int>(PlaceDetail::exact));
  places_->setCurrentIndex(1);
  places_->setToolTip(tr("How much of the places an export or a report tells"));
  connect(places_, &QComboBox::activated, this, [this] {
    if (stack_->currentIndex() == 1) show_report();
  });
  row->addWidget(places_);
  return bar;
}

QWidget* CataloguePage::search_rows() {
  auto* rows = new QWidget;
  auto* column = new QVBoxLayout(rows);
  column->setContentsMargins(0, 0, 0, 0);
  auto* first = new WrappingRow;
  const auto field = [&](const QString& label, const QString& hint, int width) {
    auto* edit = new QLineEdit;
    edit->setAccessibleName(label);
    edit->setPlaceholderText(hint);
    edit->setClearButtonEnabled(true);
    if (width > 0) edit->setMaximumWidth(width);
    auto* name = new QLabel(label);
    name->setBuddy(edit);
    first->add_together({name, edit});
    connect(edit, &QLineEdit::textEdited, &typing_, QOverload<>::of(&QTimer::start));
    connect(edit, &QLineEdit::returnPressed, this, &CataloguePage::search);
    return edit;
  };
  text_ = field(tr("Words"), tr("number, working name or colour"), 0);
  text_->setMinimumWidth(220);
  collector_ = field(tr("Collector"), {}, 140);
  tissue_ = field(tr("Tissue"), {}, 110);
  from_ = field(tr("From"), tr("year-month-day"), 124);
  to_ = field(tr("to"), tr("year-month-day"), 124);
  kind_ = new QComboBox;
  kind_->setAccessibleName(tr("Kind of region"));
  kind_->addItem(tr("every kind"), -1);
  for (const RegionKind each : region_kinds()) kind_->addItem(kind_word(each), static_cast<int>(each));
  connect(kind_, &QComboBox::activated, this, &CataloguePage::search);
  first->addWidget(kind_);
  removed_ = new QCheckBox(tr("Removed ones"));
  removed_->setAccessibleName(tr("List what was removed instead"));
  connect(removed_, &QCheckBox::toggled, this, &CataloguePage::search);
  first->addWidget(removed_);
  column->addLayout(first);
  auto* second = new WrappingRow;
  chip_ = new SwatchChip;
  color_words_ = new QLabel(tr("any colour"));
  color_words_->setAccessibleName(tr("Colour looked for, in words"));
  within_ = new QDoubleSpinBox;
  within_->setRange(0.5, 100);
  within_->setSingleStep(0.5);
  within_->setDecimals(1);
  within_->setValue(5);
  within_->setPrefix(tr("within ΔE00 "));
  within_->setAccessibleName(tr("How near a colour has to be"));
  connect(within_, &QDoubleSpinBox::valueChanged, this, [this] {
    if (color_) typing_.start();
  });
  where_ = new ElidedLabel;
  where_->setAccessibleName(tr("Which catalogue"));
  where_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
  where_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  for (QWidget* part : {static_cast<QWidget*>(chip_), static_cast<QWidget*>(color_words_),
                        static_cast<QWidget*>(within_), static_cast<QWidget*>(button_of(any_color_))})
    second->addWidget(part);
  second->addWidget(where_);
  column->addLayout(second);
  return rows;
}

QWidget* CataloguePage::list_column() {
  hit_table_ = table_of(&hits_, tr("Readings found"));
  hit_table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  new ColumnWidths(*hit_table_, HitModel::name,
                   {HitModel::collector, HitModel::kind, HitModel::collected, HitModel::number});
  collection_table_ = table_of(&collections_, tr("Collections found"));
  collection_table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  new ColumnWidths(*collection_table_, CollectionModel::working_name,
                   {CollectionModel::readings, CollectionModel::collector, CollectionModel::collected,
                    CollectionModel::number, CollectionModel::working_name});
  lists_ = new QTabWidget;
  lists_->setAccessibleName(tr("Lists"));
  lists_->addTab(hit_table_, tr("Readings"));
  lists_->addTab(collection_table_, tr("Collections"));
  for (QTableView* table : {hit_table_, collection_table_})
    connect(table->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
            &CataloguePage::show_chosen_row);
  return lists_;
}

QWidget* CataloguePage::detail_column() {
  auto* holder = new QWidget;
  auto* column = new QVBoxLayout(holder);
  column->setContentsMargins(0, 0, 0, 0);
  title_ = new QLabel(tr("No collection chosen"));
  title_->setAccessibleName(tr("Collection"));
  QFont large = title_->font();
  large.setPointSizeF(large.pointSizeF() * 1.3);
  large.setBold(true);
  title_->setFont(large);
  title_->setWordWrap(true);
  column->addWidget(title_);
  field_table_ = table_of(&fields_, tr("Fields of the collection; F2 or a double click changes a value"));
  field_table_->setColumnWidth(FieldModel::field, 170);
  record_table_ = table_of(&records_, tr("Records of the collection"));
  record_table_->setSelectionMode(QAbstractItemView::SingleSelection);
  record_table_->setWordWrap(true);
  new ColumnWidths(*record_table_, RecordModel::readings,
                   {RecordModel::read_by, RecordModel::captured, RecordModel::photo, RecordModel::readings});
  change_table_ = table_of(&changes_, tr("History of the collection"));
  place_ = new PlaceField;
  details_ = new QTabWidget;
  details_->setAccessibleName(tr("About the collection"));
  details_->addTab(field_table_, tr("Fields"));
  details_->addTab(place_, tr("Place"));
  details_->addTab(record_table_, tr("Records"));
  details_->addTab(change_table_, tr("History"));
  column->addWidget(details_, 1);
  return holder;
}

QWidget* CataloguePage::report_column() {
  auto* holder = new QWidget;
  auto* column = new QVBoxLayout(holder);
  column->setContentsMargins(0, 0, 0, 0);
  auto* bar = new WrappingRow;
  const auto button = [&](const QString& text, auto what) {
    auto* made = new QPushButton(text);
    made->setAccessibleName(text);
    connect(made, &QPushButton::clicked, this, what);
    bar->addWidget(made);
  };
  button(tr("Back to the list"), [this] { show_list(); });
  button(tr("Write as PDF …"),
         [this] { ask_and_export(tr("Report"), QStringLiteral("collections.pdf"), tr("Report (*.pdf)")); });
  button(tr("Pictures from a folder …"), [this] {
    const QString folder =
        QFileDialog::getExistingDirectory(this, tr("Folder with the photographs, or their overlays"));
    if (folder.isEmpty()) return;
    pictures_ = folder;
    pictures_label_->setText(tr("pictures from %1").arg(folder));
    show_report();
  });
  pictures_label_ = new ElidedLabel(tr("no pictures"));
  pictures_label_->setAccessibleName(tr("Pictures in the report"));
  bar->addWidget(pictures_label_);
  column->addLayout(bar);
  // Said where the window speaks another language than the report does.
  const char* in_english = QT_TR_NOOP("The report is in English, whatever the window speaks.");
  if (const QString note = tr(in_english); note != QLatin1String(in_english)) {
    auto* words = new QLabel(note);
    words->setWordWrap(true);
    words->setAccessibleName(note);
    column->addWidget(words);
  }
  report_ = new ReportPreview;
  column->addWidget(report_, 1);
  return holder;
}

CatalogueSearch CataloguePage::typed() const {
  CatalogueSearch search;
  search.address = preferences_.catalogue.get();
  search.text = text_->text();
  search.collector = collector_->text();
  search.tissue = tissue_->text();
  search.from = from_->text();
  search.to = to_->text();
  if (const int kind = kind_->currentData().toInt(); kind >= 0) search.kind = static_cast<RegionKind>(kind);
  search.removed = removed_->isChecked();
  search.color = color_;
  search.color_covariance = color_covariance_;
  search.within_de00 = within_->value();
  return search;
}

}  // namespace tintfall::viewer
