#include <QCheckBox>
#include <QComboBox>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/add_sheet_dialog.hpp>

namespace tintfall::viewer {

AddSheetDialog::AddSheetDialog(const std::vector<ChartEntry>& charts, QWidget* parent)
    : QDialog(parent), lane_(QStringLiteral("adding a sheet")) {
  setWindowTitle(tr("Add a printed sheet"));
  setAccessibleName(windowTitle());
  setMinimumWidth(480);
  const auto named = [](auto* widget, const QString& name) {
    widget->setAccessibleName(name);
    return widget;
  };
  label_ = named(new QLineEdit, tr("Label of the sheet"));
  label_->setPlaceholderText(tr("as written on it"));
  chart_ = named(new QComboBox, tr("Chart of the sheet"));
  for (const ChartEntry& chart : charts)
    chart_->addItem(QStringLiteral("%1 – %2").arg(chart.name, chart.title), chart.name);
  reference_ = named(new QLineEdit, tr("File of measured values"));
  reference_->setPlaceholderText(tr("nominal colours"));
  auto* choose = named(new QPushButton(tr("Choose …")), tr("Choose the file of measured values"));
  connect(choose, &QPushButton::clicked, this, [this] {
    const QString file = QFileDialog::getOpenFileName(
        this, tr("File of measured values"), {}, tr("CGATS or table (*.txt *.csv *.it8 *);;All files (*)"));
    if (!file.isEmpty()) reference_->setText(file);
  });
  auto* beside = new QHBoxLayout;
  beside->addWidget(reference_);
  beside->addWidget(choose);
  printed_ = named(new QLineEdit, tr("Day of printing"));
  printed_->setPlaceholderText(tr("year-month-day, or empty"));
  replace_ =
      named(new QCheckBox(tr("replace the sheet of this label")), tr("Replace the sheet of this label"));
  words_ = named(new QLabel, tr("Why it could not be added"));
  words_->setWordWrap(true);
  words_->hide();
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
  buttons->button(QDialogButtonBox::Ok)->setText(tr("Add"));
  connect(buttons, &QDialogButtonBox::accepted, this, &AddSheetDialog::add);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  auto* form = new QFormLayout(this);
  form->addRow(tr("Label"), label_);
  form->addRow(tr("Sheet"), chart_);
  form->addRow(tr("Measured values"), beside);
  form->addRow(tr("Printed on"), printed_);
  form->addRow(QString(), replace_);
  form->addRow(words_);
  form->addRow(buttons);
}

void AddSheetDialog::add() {
  lane_.start([typed = SheetTyped{label_->text(), chart_->currentData().toString(),
                                  reference_->text().trimmed(), printed_->text(), replace_->isChecked()}](
                  colorlib::Progress&) { return add_printed_sheet(typed); },
              [this](const colorlib::Result<QString>& label) {
                words_->setVisible(!label);
                if (!label) {
                  words_->setText(error_words(label.error()));
                  return adjustSize();  // shows all of it
                }
                emit added(*label);
                accept();
              });
}

QString AddSheetDialog::words() const { return words_->text(); }

}  // namespace tintfall::viewer
