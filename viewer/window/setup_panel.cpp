#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <array>
#include <colorlib/calibration/light_kind.hpp>
#include <viewer/document/document_commands.hpp>
#include <viewer/tasks/sheet_jobs.hpp>
#include <viewer/window/add_sheet_dialog.hpp>
#include <viewer/window/setup_panel.hpp>

namespace tintfall::viewer {

SetupPanel::SetupPanel(PhotoDocument& document, QWidget* parent)
    : QWidget(parent), document_(document), lists_lane_(QStringLiteral("lists")) {
  setAccessibleName(tr("About this photo"));
  auto* form = new QFormLayout(this);
  form->setRowWrapPolicy(QFormLayout::WrapLongRows);
  const auto named = [](auto* widget, const QString& name) {
    widget->setAccessibleName(name);
    return widget;
  };
  chart_ = named(new QComboBox, tr("Sheet in the photo"));
  chart_->addItem(tr("told by its markers"), QString());
  sheet_ = named(new QComboBox, tr("Printed sheet from your list"));
  sheet_->addItem(tr("none of my list"), QString());
  auto* add_sheet = named(new QPushButton(tr("Add …")), tr("Add a printed sheet to your list"));
  for (QComboBox* box : {chart_, sheet_}) {
    box->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(8);
  }
  add_sheet->setToolTip(tr("Put a printed sheet on your list: its label, its chart, its measured values"));
  reference_ = named(new QLineEdit, tr("File of measured values"));
  reference_->setReadOnly(true);
  reference_->setPlaceholderText(tr("nominal colours"));
  auto* choose = named(new QPushButton(tr("Choose …")), tr("Choose the file of measured values"));
  auto* clear = named(new QPushButton(tr("None")), tr("Use nominal colours"));
  height_known_ = named(new QCheckBox(tr("known")), tr("The specimen's height above the sheet is known"));
  height_ = named(new QDoubleSpinBox, tr("Height above the sheet"));
  height_->setRange(0, 300);
  height_->setDecimals(1);
  height_->setSuffix(tr(" mm"));
  light_ = named(new QComboBox, tr("Light of the photo"));
  light_->setToolTip(
      tr("The tolerance then fits the light. A photo alone does not tell every lamp from daylight."));
  const std::array words{tr("not said"), tr("daylight"), tr("lamp: bulb or LED"), tr("fluorescent tube"),
                         tr("daylight and a lamp")};
  static_assert(words.size() == colorlib::light_kind_names.size());
  for (std::size_t kind = 0; kind < words.size(); ++kind)
    light_->addItem(words[kind], QString::fromUtf8(colorlib::light_kind_names[kind]));
  masstone_ = named(new QCheckBox(tr("also over one ground")),
                    tr("Masstone of a thin deposit over one ground, from its uneven thickness"));
  masstone_->setToolTip(
      tr("The colour of a layer thick enough to hide its ground. For deposits known to be thin, on matt card "
         "or glass: all "
         "unevenness is taken for thickness. On a sheet with a black and a white ground it is computed "
         "anyway."));
  item_ = named(new QLineEdit, tr("Item"));
  collector_ = named(new QLineEdit, tr("Collector"));
  tissue_ = named(new QLineEdit, tr("Tissue"));
  state_ = named(new QLineEdit, tr("State"));
  surface_ = named(new QLineEdit, tr("Surface"));
  item_->setPlaceholderText(tr("the collection's number"));
  tissue_->setPlaceholderText(tr("cap, stem, flesh …"));
  state_->setPlaceholderText(tr("fresh, air-dried …"));
  surface_->setPlaceholderText(tr("foil, card, glass …"));
  const auto beside = [&](std::initializer_list<QWidget*> widgets) {
    auto* row = new QHBoxLayout;
    for (QWidget* widget : widgets) row->addWidget(widget);
    return row;
  };
  form->addRow(tr("Sheet"), chart_);
  form->addRow(tr("From my list"), beside({sheet_, add_sheet}));
  form->addRow(tr("Measured values"), beside({reference_, choose, clear}));
  form->addRow(tr("Light"), light_);
  form->addRow(tr("Height"), beside({height_known_, height_}));
  form->addRow(tr("Masstone"), masstone_);
  form->addRow(tr("Item"), item_);
  form->addRow(tr("Collector"), collector_);
  form->addRow(tr("Tissue"), tissue_);
  form->addRow(tr("State"), state_);
  form->addRow(tr("Surface"), surface_);

  connect(add_sheet, &QPushButton::clicked, this, &SetupPanel::ask_for_sheet);
  connect(choose, &QPushButton::clicked, this, &SetupPanel::choose_reference);
  connect(clear, &QPushButton::clicked, this, [this] {
    PhotoSetup setup = document_.setup();
    setup.reference.clear();
    push(tr("Use nominal colours"), setup, false);
  });
  connect(chart_, &QComboBox::activated, this, [this] {
    PhotoSetup setup = document_.setup();
    setup.chart = chart_->currentData().toString();
    push(tr("Choose sheet"), setup, false);
  });
  connect(sheet_, &QComboBox::activated, this, [this] {
    PhotoSetup setup = document_.setup();
    setup.sheet = sheet_->currentData().toString();
    push(tr("Choose printed sheet"), setup, false);
  });
  connect(light_, &QComboBox::activated, this, [this] {
    PhotoSetup setup = document_.setup();
    setup.subject.light = light_->currentData().toString().toStdString();
    push(tr("Say light"), setup, false);
  });
  const auto height_changed = [this] {
    height_->setEnabled(height_known_->isChecked());
    if (filling_) return;
    PhotoSetup setup = document_.setup();
    setup.height_mm = height_known_->isChecked() ? std::optional(height_->value()) : std::nullopt;
    push(tr("Say height"), setup, false);
  };
  connect(height_known_, &QCheckBox::toggled, this, height_changed);
  connect(height_, &QDoubleSpinBox::editingFinished, this, height_changed);
  connect(masstone_, &QCheckBox::toggled, this, [this](bool wanted) {
    if (filling_) return;
    PhotoSetup setup = document_.setup();
    setup.masstone = wanted;
    push(tr("Ask for masstones"), setup, false);
  });
  const auto subject_field = [this](QLineEdit* edit, std::string colorlib::Subject::*place) {
    connect(edit, &QLineEdit::editingFinished, this, [this, edit, place] {
      PhotoSetup setup = document_.setup();
      const std::string said = edit->text().trimmed().toStdString();
      if (setup.subject.*place == said) return;
      setup.subject.*place = said;
      push(tr("Describe subject"), setup, true);
    });
  };
  subject_field(item_, &colorlib::Subject::item);
  subject_field(collector_, &colorlib::Subject::collector);
  subject_field(tissue_, &colorlib::Subject::tissue);
  subject_field(state_, &colorlib::Subject::state);
  subject_field(surface_, &colorlib::Subject::surface);
  connect(&document_, &PhotoDocument::setup_changed, this, &SetupPanel::show_setup);
  load_lists({});
  show_setup();
}

void SetupPanel::load_lists(const QString& added) {
  lists_lane_.start([](colorlib::Progress&) { return sheets_to_choose_from(); },
                    [this, added](const SheetLists& lists) {
                      charts_ = lists.charts;
                      for (QComboBox* box : {chart_, sheet_})
                        while (box->count() > 1) box->removeItem(1);
                      for (const ChartEntry& chart : lists.charts)
                        chart_->addItem(QStringLiteral("%1 – %2").arg(chart.name, chart.title), chart.name);
                      for (const QString& label : lists.labels) sheet_->addItem(label, label);
                      show_setup();
                      if (added.isEmpty()) return;
                      PhotoSetup setup = document_.setup();
                      setup.sheet = added;
                      push(tr("Choose printed sheet"), setup, false);
                    });
}

void SetupPanel::ask_for_sheet() {
  auto* dialog = new AddSheetDialog(charts_, this);
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  connect(dialog, &AddSheetDialog::added, this, &SetupPanel::load_lists);
  dialog->open();
}

void SetupPanel::push(const QString& text, const PhotoSetup& setup, bool subject_only) {
  if (filling_) return;
  document_.undo_stack().push(
      new SetupCommand(document_, text, setup, subject_only ? EditId::subject : EditId::none));
}

void SetupPanel::choose_reference() {
  const QString file = QFileDialog::getOpenFileName(
      this, tr("File of measured values"), {}, tr("CGATS or table (*.txt *.csv *.it8 *);;All files (*)"));
  if (file.isEmpty()) return;
  PhotoSetup setup = document_.setup();
  setup.reference = file;
  push(tr("Choose measured values"), setup, false);
}

void SetupPanel::show_setup() {
  filling_ = true;
  const PhotoSetup& setup = document_.setup();
  chart_->setCurrentIndex(std::max(0, chart_->findData(setup.chart)));
  sheet_->setCurrentIndex(std::max(0, sheet_->findData(setup.sheet)));
  reference_->setText(setup.reference);
  height_known_->setChecked(setup.height_mm.has_value());
  height_->setEnabled(setup.height_mm.has_value());
  height_->setValue(setup.height_mm.value_or(0));
  masstone_->setChecked(setup.masstone);
  light_->setCurrentIndex(std::max(0, light_->findData(QString::fromStdString(setup.subject.light))));
  item_->setText(QString::fromStdString(setup.subject.item));
  collector_->setText(QString::fromStdString(setup.subject.collector));
  tissue_->setText(QString::fromStdString(setup.subject.tissue));
  state_->setText(QString::fromStdString(setup.subject.state));
  surface_->setText(QString::fromStdString(setup.subject.surface));
  filling_ = false;
}

}  // namespace tintfall::viewer
