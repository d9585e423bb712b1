#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QHeaderView>
#include <QLabel>
#include <QMimeData>
#include <QScrollArea>
#include <QTabWidget>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>
#include <colorlib/base/cautions.hpp>
#include <viewer/models/remark_words.hpp>
#include <viewer/window/caution_label.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/compare_page.hpp>
#include <viewer/window/side_by_side.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

using namespace colorlib;

ComparePage::ComparePage(QWidget* parent) : QWidget(parent), lane_(QStringLiteral("compare")) {
  setAcceptDrops(true);
  setAccessibleName(tr("Side by side"));
  const auto action = [this](const QString& text, const QString& key, const QString& hint, auto what) {
    auto* made = new QAction(text, this);
    made->setShortcut(QKeySequence(key));
    made->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    made->setToolTip(
        QStringLiteral("%1 (%2)").arg(hint, made->shortcut().toString(QKeySequence::NativeText)));
    connect(made, &QAction::triggered, this, what);
    addAction(made);
    actions_.actions.push_back(made);
    return made;
  };
  actions_.title = tr("Side by side");
  auto* add = action(tr("Add records …"), tr("Ctrl+Shift+A"), tr("Add readings from record files"), [this] {
    add_files(QFileDialog::getOpenFileNames(this, tr("Records"), {}, tr("Records (*.json)")));
  });
  auto* clear = action(tr("Take all away"), tr("Ctrl+Shift+X"), tr("Empty the page"), [this] {
    files_.clear();
    records_.clear();
    renew();
  });
  auto* bar = new WrappingRow;
  for (QAction* each : {add, clear}) {
    auto* button = new QToolButton;
    button->setDefaultAction(each);
    button->setAccessibleName(each->text());
    bar->addWidget(button);
  }
  bar->add_stretch();
  order_ = new QComboBox;
  order_->setAccessibleName(tr("Order of the readings"));
  for (const QString& name :
       {tr("as given"), tr("by item"), tr("by collector"), tr("light to dark"), tr("by hue")})
    order_->addItem(name);
  connect(order_, &QComboBox::currentIndexChanged, this, &ComparePage::renew);
  auto* order_label = new QLabel(tr("Order"));
  order_label->setBuddy(order_);
  bar->add_together({order_label, order_});
  tolerance_ = new QDoubleSpinBox;
  tolerance_->setRange(0, 20);
  tolerance_->setSingleStep(0.5);
  tolerance_->setDecimals(1);
  tolerance_->setPrefix(tr("ΔE00 "));
  tolerance_->setSpecialValueText(tr("no difference at all"));
  tolerance_->setAccessibleName(tr("Difference that still counts as the same"));
  connect(tolerance_, &QDoubleSpinBox::valueChanged, this, &ComparePage::renew);
  auto* tolerance_label = new QLabel(tr("Same means"));
  tolerance_label->setBuddy(tolerance_);
  bar->add_together({tolerance_label, tolerance_});
  grouped_ = new QCheckBox(tr("Keep together what cannot be told apart"));
  grouped_->setAccessibleName(grouped_->text());
  connect(grouped_, &QCheckBox::toggled, this, &ComparePage::show_outcome);
  bar->addWidget(grouped_);

  swatches_ = new SwatchRow;
  auto* swatch_area = new QScrollArea;
  swatch_area->setWidget(swatches_);
  swatch_area->setWidgetResizable(true);
  swatch_area->setFrameShape(QFrame::NoFrame);
  swatch_area->setAccessibleName(tr("Colours side by side"));
  swatch_area->setMinimumHeight(190);
  const auto table = [](QAbstractItemModel* model, const QString& name) {
    auto* view = new QTableView;
    view->setModel(model);
    view->setAccessibleName(name);
    view->setTabKeyNavigation(false);
    return view;
  };
  auto* pairs = table(&pairs_, tr("Verdicts of all pairs"));
  pairs->horizontalHeader()->setDefaultSectionSize(124);
  pairs->verticalHeader()->setDefaultSectionSize(42);
  auto* consensus = table(&consensus_, tr("What all say, and how far each is from it"));
  consensus->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  consensus->horizontalHeader()->setStretchLastSection(true);
  consensus->verticalHeader()->hide();
  bias_ = new BiasPlot;
  auto* bias_area = new QScrollArea;
  bias_area->setWidget(bias_);
  bias_area->setWidgetResizable(true);
  bias_area->setFrameShape(QFrame::NoFrame);
  bias_area->setAccessibleName(tr("Bias of each collector"));
  plane_ = new ColorPlane;
  tabs_ = new QTabWidget;
  tabs_->setAccessibleName(tr("Ways to compare"));
  tabs_->addTab(pairs, tr("Pairs"));
  tabs_->addTab(consensus, tr("Consensus"));
  tabs_->addTab(bias_area, tr("Bias"));
  tabs_->addTab(plane_, tr("Diagram"));
  remarks_ = new QLabel;
  remarks_->setWordWrap(true);
  remarks_->setAccessibleName(tr("What to know about these records"));
  remarks_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addLayout(bar);
  column->addWidget(swatch_area, 2);
  column->addWidget(tabs_, 3);
  column->addWidget(remarks_);
  column->addWidget(caution_label({caution_safety}));
  show_outcome();
}

void ComparePage::add_files(const QStringList& files) {
  for (const QString& file : files)
    if (!files_.contains(file)) files_.push_back(file);
  if (!files.isEmpty()) renew();
}

void ComparePage::add_records(const std::vector<NamedRecord>& records) {
  for (const NamedRecord& record : records)
    if (std::find(records_.begin(), records_.end(), record) == records_.end()) records_.push_back(record);
  if (!records.empty()) renew();
}

void ComparePage::set_screen(const Screen& screen) {
  screen_ = screen;
  renew();
}

void ComparePage::renew() {
  lane_.start(
      [parameters =
           CompareParameters{files_, records_, screen_, static_cast<SideOrder>(order_->currentIndex()),
                             tolerance_->value() > 0 ? std::optional(tolerance_->value()) : std::nullopt}](
          Progress& progress) { return compare_records(parameters, progress); },
      [this](Result<CompareOutcome> outcome) {
        if (!outcome) return;
        outcome_ = std::make_shared<const CompareOutcome>(std::move(*outcome));
        show_outcome();
        emit compared();
      });
}

void ComparePage::show_outcome() {
  pairs_.set_outcome(outcome_);
  consensus_.set_outcome(outcome_);
  swatches_->set_outcome(outcome_, grouped_->isChecked());
  bias_->set_outcome(outcome_);
  std::vector<ShownReading> readings;
  if (outcome_)
    for (const SideReading& each : outcome_->readings) readings.push_back(each.shown);
  plane_->set_readings(std::move(readings), 0);
  QStringList said = outcome_ ? outcome_->problems : QStringList();
  if (outcome_)
    for (const colorlib::LeftOut& left : outcome_->left_out)
      said.push_back(QString::fromStdString(left.what) + QStringLiteral(": ") +
                     remark_words(QString::fromStdString(left.why)));
  if (outcome_)
    for (const QString& remark : outcome_->remarks) said.push_back(remark_words(remark));
  remarks_->setText(said.join(QStringLiteral("\n")));
  remarks_->setVisible(!remarks_->text().isEmpty());
}

void ComparePage::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void ComparePage::dropEvent(QDropEvent* event) {
  QStringList files;
  for (const QUrl& url : event->mimeData()->urls())
    if (url.isLocalFile()) files.push_back(url.toLocalFile());
  add_files(files);
}

}  // namespace tintfall::viewer
