#include <QComboBox>
#include <QCoreApplication>
#include <QDate>
#include <QDoubleSpinBox>
#include <QFileDialog>
#include <QFormLayout>
#include <QGridLayout>
#include <QGroupBox>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <colorlib/base/cautions.hpp>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/guide_drawing.hpp>
#include <viewer/window/guide_page.hpp>
#include <viewer/window/wrapping_row.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int print_dots_per_inch = 600;

QLabel* paragraph(const QString& text) {
  auto* label = new QLabel(text);
  label->setWordWrap(true);
  label->setAccessibleName(text);
  return label;
}

/// A picture with words under it.
QWidget* picture(const char* name, const QString& words) {
  auto* card = new QWidget;
  auto* column = new QVBoxLayout(card);
  QWidget* drawing = guide_drawing(QLatin1String(name));
  drawing->setAccessibleName(words);
  column->addWidget(drawing);
  column->addWidget(paragraph(words));
  column->addStretch(1);
  return card;
}

}  // namespace

GuidePage::GuidePage(QWidget* parent)
    : QWidget(parent),
      lists_lane_(QStringLiteral("lists")),
      draw_lane_(QStringLiteral("sheet drawing")),
      check_lane_(QStringLiteral("scale check")) {
  setAccessibleName(tr("Guide"));
  auto* inner = new QWidget;
  auto* column = new QVBoxLayout(inner);
  column->setSpacing(10);
  auto* title = paragraph(tr("From a sheet of paper to a colour you can quote"));
  QFont large = title->font();
  large.setPointSizeF(large.pointSizeF() * 1.5);
  title->setFont(large);
  column->addWidget(title);
  auto* paper = new QHBoxLayout;
  paper->addWidget(printing(), 3);
  paper->addWidget(scale_check(), 2);
  column->addLayout(paper);

  auto* light = new QGroupBox(tr("3  Light and camera"));
  auto* grid = new QGridLayout(light);
  grid->addWidget(
      picture("sheet_flat", tr("Flat on a board: a curled sheet stands nearer to the lamp at its rims.")), 0,
      0);
  grid->addWidget(picture("specimen_in_plane",
                          tr("The specimen level with the paper: what stands higher gets more light.")),
                  0, 1);
  grid->addWidget(picture("light_from_two_sides",
                          tr("A window from one side, white card on the other. One kind of light only.")),
                  1, 0);
  grid->addWidget(picture("no_shadow", tr("Keep your shadow, coloured sleeves and leaves out of the light.")),
                  1, 1);
  grid->addWidget(picture("phone_parallel", tr("Camera parallel to the sheet, 30 to 40 cm away, main lens.")),
                  2, 0);
  grid->addWidget(
      paragraph(
          tr("Avoid: flash, patches of sun, lamp and window together, glossy paper, foil that mirrors the "
             "window, glass over the deposit, filters and beauty modes, sending the photo through messengers "
             "that shrink it.")),
      2, 1);
  column->addWidget(light);

  auto* safety = new QGroupBox(tr("4  Before you open a reagent"));
  auto* words = new QVBoxLayout(safety);
  words->addWidget(paragraph(
      tr("Potassium hydroxide and ammonia burn skin and eyes; acids too; phenol and aniline are poisonous "
         "through the skin. Read the label and the safety data sheet, wear goggles and gloves, air the "
         "room, keep children and animals away, and take waste to a collection point. Where label, law or "
         "an expert say otherwise, they are right.")));
  words->addWidget(
      paragraph(tr("What a reagent has touched is waste: never eat or keep it. A drop or a bruise is no test "
                   "for poison.")));
  words->addWidget(paragraph(QCoreApplication::translate("colorlib", std::string(caution_safety).c_str())));
  words->addWidget(paragraph(QCoreApplication::translate("colorlib", std::string(caution_names).c_str())));
  column->addWidget(safety);
  auto* go = new QPushButton(tr("Open a photo"));
  go->setAccessibleName(go->text());
  connect(go, &QPushButton::clicked, this, &GuidePage::photo_wanted);
  column->addWidget(go, 0, Qt::AlignLeft);
  column->addStretch(1);

  auto* area = new QScrollArea;
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setAccessibleName(tr("Guide"));
  area->setWidget(inner);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(area);
  lists_lane_.start([](Progress&) { return sheets_to_choose_from(); },
                    [this](const SheetLists& lists) {
                      charts_ = lists.charts;
                      for (const ChartEntry& chart : charts_)
                        chart_->addItem(tr("%1 – %2 (%3 × %4 mm)")
                                            .arg(chart.name, chart.title)
                                            .arg(chart.size_mm.width())
                                            .arg(chart.size_mm.height()),
                                        chart.name);
                      chart_->setCurrentIndex(std::max(0, chart_->findData(QStringLiteral("frame-a5"))));
                    });
}

QWidget* GuidePage::printing() {
  auto* box = new QGroupBox(tr("1  Print a sheet"));
  auto* column = new QVBoxLayout(box);
  auto* form = new QFormLayout;
  chart_ = new QComboBox;
  chart_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);  // the names may be long
  chart_->setMinimumContentsLength(16);
  chart_->setAccessibleName(tr("Sheet to print"));
  label_ = new QLineEdit;
  label_->setAccessibleName(tr("Label of this print"));
  label_->setPlaceholderText(tr("for example A5-03; empty leaves a line to write on"));
  date_ = new QLineEdit(QDate::currentDate().toString(Qt::ISODate));
  date_->setAccessibleName(tr("Date of this print"));
  form->addRow(tr("Sheet"), chart_);
  form->addRow(tr("Label"), label_);
  form->addRow(tr("Date"), date_);
  column->addLayout(form);
  column->addWidget(paragraph(
      tr("Matt white paper, best quality, every 'enhancement' off, scale 100 % or 'actual size'.")));
  auto* row = new WrappingRow;
  auto* print = new QPushButton(tr("Print …"));
  print->setAccessibleName(tr("Print the sheet"));
  auto* save = new QPushButton(tr("Save as PDF, SVG or PNG …"));
  save->setAccessibleName(tr("Save the sheet as a file"));
  row->addWidget(print);
  row->addWidget(save);
  column->addLayout(row);
  answer_ = paragraph({});
  answer_->setAccessibleName(tr("What became of the sheet"));
  column->addWidget(answer_);
  connect(print, &QPushButton::clicked, this, &GuidePage::print_sheet);
  connect(save, &QPushButton::clicked, this, &GuidePage::save_sheet);
  return box;
}

QWidget* GuidePage::scale_check() {
  auto* box = new QGroupBox(tr("2  Check its size"));
  auto* column = new QVBoxLayout(box);
  column->addWidget(paragraph(tr("Lay a good ruler along the printed one. How long are its 50 mm?")));
  ruler_ = new QDoubleSpinBox;
  ruler_->setRange(10, 120);
  ruler_->setDecimals(1);
  ruler_->setSingleStep(0.1);
  ruler_->setSuffix(tr(" mm"));
  ruler_->setValue(50);
  ruler_->setAccessibleName(tr("Measured length of the printed 50 mm"));
  column->addWidget(ruler_, 0, Qt::AlignLeft);
  scale_answer_ = paragraph({});
  scale_answer_->setAccessibleName(tr("Is the print true to size?"));
  column->addWidget(scale_answer_);
  column->addWidget(paragraph(
      tr("Then let it dry for a day, cut the opening, fix it to stiff board. If somebody can measure its "
         "patches with a spectrophotometer, the readings gain more than from anything else.")));
  column->addStretch(1);
  connect(ruler_, &QDoubleSpinBox::valueChanged, this, [this](double measured) {
    check_lane_.start([measured](Progress&) { return printed_scale(measured); },
                      [this](const PrintScale& found) {
                        scale_answer_->setText(found.true_to_size
                                                   ? tr("True to size.")
                                                   : tr("Printed at %1 % of its size: print again with "
                                                        "'actual size' or 100 %, or set %2 % where the "
                                                        "printer allows it.")
                                                         .arg(figure(100 * found.scale, 1))
                                                         .arg(figure(found.set_percent, 1)));
                      });
  });
  return box;
}

QString GuidePage::answer() const { return answer_->text() + scale_answer_->text(); }

DrawSheetParameters GuidePage::parameters(SheetFormat format) const {
  DrawSheetParameters wanted;
  wanted.chart = chart_->currentData().toString();
  wanted.print.format = format;
  wanted.print.label = label_->text().trimmed().toStdString();
  wanted.print.print_date = date_->text().trimmed().toStdString();
  wanted.print.png_dots_per_inch = print_dots_per_inch;
  return wanted;
}

void GuidePage::save_sheet() {
  const QString file = QFileDialog::getSaveFileName(this, tr("Save the sheet"),
                                                    chart_->currentData().toString() + QStringLiteral(".pdf"),
                                                    tr("PDF (*.pdf);;SVG (*.svg);;PNG (*.png)"));
  if (file.isEmpty()) return;
  const SheetFormat format = file.endsWith(QLatin1String(".svg"), Qt::CaseInsensitive)   ? SheetFormat::svg
                             : file.endsWith(QLatin1String(".png"), Qt::CaseInsensitive) ? SheetFormat::png
                                                                                         : SheetFormat::pdf;
  draw_lane_.start([wanted = parameters(format), file](Progress&) { return write_sheet(file, wanted); },
                   [this, file](Result<DrawnSheet> written) {
                     answer_->setText(written ? with_note_on_label(tr("Saved: %1").arg(file), *written)
                                              : error_words(written.error()));
                   });
}

QString GuidePage::with_note_on_label(const QString& text, const DrawnSheet& sheet) {
  if (!sheet.label_shortened) return text;
  return QStringLiteral("%1 %2").arg(
      text, tr("The label is too long for its field; the sheet shows only its beginning."));
}

void GuidePage::print_sheet() {
  answer_->setText(tr("Drawing the sheet …"));
  draw_lane_.start(
      [wanted = parameters(SheetFormat::png)](Progress&) { return draw_sheet_of(wanted); },
      [this](Result<DrawnSheet> sheet) {
        if (!sheet) return answer_->setText(error_words(sheet.error()));
        answer_->setText(with_note_on_label({}, *sheet).trimmed());  // before paper is used
        QPrinter printer(QPrinter::HighResolution);
        printer.setFullPage(true);
        printer.setResolution(print_dots_per_inch);
        QPrintDialog dialog(&printer, this);
        if (dialog.exec() != QDialog::Accepted) return;
        const QImage image = QImage::fromData(sheet->bytes);
        const double dots_per_mm = printer.resolution() / 25.4;
        const QSizeF size = sheet->size_mm * dots_per_mm;
        const QRectF page = printer.pageRect(QPrinter::DevicePixel);
        if (size.width() > page.width() || size.height() > page.height())
          return answer_->setText(
              tr("The sheet is larger than the page; it was not printed. Choose larger paper or a smaller "
                 "sheet."));
        QPainter painter(&printer);
        painter.drawImage(
            QRectF(QPointF((page.width() - size.width()) / 2, (page.height() - size.height()) / 2), size),
            image);
        answer_->setText(with_note_on_label(tr("Sent to the printer at 100 %. Check its size now."), *sheet));
      });
}

}  // namespace tintfall::viewer
