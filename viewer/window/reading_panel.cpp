#include <QCoreApplication>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/error_words.hpp>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/reading_panel.hpp>

namespace tintfall::viewer {

namespace {

constexpr int bar_row = 34;

QLabel* text_label(const QString& accessible_name) {
  auto* label = new QLabel;
  label->setWordWrap(true);
  label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  label->setAccessibleName(accessible_name);
  return label;
}

/// "L* 42.1 ± 0.4   a* 20.5 ± 1.4   b* 29.6 ± 1.3"
template <class Shown>
QString lab_line(const Shown& shown) {
  return QStringLiteral("L* %1 ± %2   a* %3 ± %4   b* %5 ± %6")
      .arg(shown.lab[0], shown.expanded[0], shown.lab[1], shown.expanded[1], shown.lab[2], shown.expanded[2]);
}

struct PartWords {
  const char *part, *word, *cure;
};
constexpr PartWords part_words[] = {
    {"lack-of-fit", QT_TRANSLATE_NOOP("Budget", "printed colours against grown ones"),
     QT_TRANSLATE_NOOP("Budget", "daylight or lamps of high colour rendering")},
    {"light", QT_TRANSLATE_NOOP("Budget", "light across the sheet"),
     QT_TRANSLATE_NOOP("Budget", "even light, clean paper round the opening")},
    {"coefficients", QT_TRANSLATE_NOOP("Budget", "fit of the camera"),
     QT_TRANSLATE_NOOP("Budget", "keep every patch usable")},
    {"reference", QT_TRANSLATE_NOOP("Budget", "values of the sheet"),
     QT_TRANSLATE_NOOP("Budget", "have the sheet measured")},
    {"glint", QT_TRANSLATE_NOOP("Budget", "glints"),
     QT_TRANSLATE_NOOP("Budget", "soft light from both sides")},
    {"black-level", QT_TRANSLATE_NOOP("Budget", "black level"),
     QT_TRANSLATE_NOOP("Budget", "more light for dark specimens")},
    {"noise", QT_TRANSLATE_NOOP("Budget", "noise of the region"),
     QT_TRANSLATE_NOOP("Budget", "a larger region, a closer photo")},
    {"off-plane", QT_TRANSLATE_NOOP("Budget", "height above the sheet"),
     QT_TRANSLATE_NOOP("Budget", "level with the paper, or say the height")},
    {"edge", QT_TRANSLATE_NOOP("Budget", "edge of the deposit"),
     QT_TRANSLATE_NOOP("Budget", "a sharper or closer photo")},
    {"foreign-matter", QT_TRANSLATE_NOOP("Budget", "soil or another deposit on it"),
     QT_TRANSLATE_NOOP("Budget", "brush it off, or draw the region clear of it")},
    {"light-rest", QT_TRANSLATE_NOOP("Budget", "shadow or soil near the reading"),
     QT_TRANSLATE_NOOP("Budget", "no shadow's edge over the sheet, clean paper")},
    {"paper-glow", QT_TRANSLATE_NOOP("Budget", "glow of the paper"),
     QT_TRANSLATE_NOOP("Budget", "paper without optical brightener")},
    {"local-tone", QT_TRANSLATE_NOOP("Budget", "brightness changed by the camera"),
     QT_TRANSLATE_NOOP("Budget", "HDR and scene modes off, or raw")},
    {"masstone", QT_TRANSLATE_NOOP("Budget", "thin layer"),
     QT_TRANSLATE_NOOP("Budget", "a thicker deposit, or two backings")},
};

}  // namespace

QString budget_part_word(const QString& part) {
  for (const auto& each : part_words)
    if (part == QLatin1String(each.part)) return QCoreApplication::translate("Budget", each.word);
  return part;
}

QString budget_part_cure(const QString& part, bool sheet_measured) {
  if (!sheet_measured && (part == QLatin1String("lack-of-fit") || part == QLatin1String("reference")))
    return QCoreApplication::translate("Budget", "measured values of this sheet, which are missing");
  for (const auto& each : part_words)
    if (part == QLatin1String(each.part)) return QCoreApplication::translate("Budget", each.cure);
  return {};
}

SwatchField::SwatchField(QWidget* parent) : QWidget(parent) {
  setMinimumHeight(96);
  setAccessibleName(tr("Colour of the reading"));
}

void SwatchField::set_swatch(const ScreenSwatch* swatch) {
  shown_ = swatch != nullptr;
  if (shown_) swatch_ = *swatch;
  setAccessibleDescription(!shown_ ? tr("No reading")
                           : swatch_.clipped
                               ? tr("%1; duller on this screen than it is").arg(swatch_.color.name())
                               : swatch_.color.name());
  update();
}

void SwatchField::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  if (!shown_) return;
  const QRect field = rect().adjusted(14, 12, -14, -12);
  painter.fillRect(field, swatch_.color);
  if (!swatch_.clipped) return;
  painter.setPen(swatch_.color.lightness() > 120 ? Qt::black : Qt::white);
  painter.drawText(field.adjusted(6, 4, -6, -4), Qt::AlignBottom | Qt::AlignLeft | Qt::TextWordWrap,
                   tr("duller on this screen than it is"));
}

BudgetBars::BudgetBars(QWidget* parent) : QWidget(parent) {
  setAccessibleName(tr("Parts of the uncertainty"));
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

void BudgetBars::set_bars(std::vector<BudgetBar> bars, bool sheet_measured) {
  bars_ = std::move(bars);
  sheet_measured_ = sheet_measured;
  QStringList words;
  for (const auto& bar : bars_)
    words.push_back(QStringLiteral("%1 %2").arg(budget_part_word(bar.part), figure(bar.de00, 2)));
  setAccessibleDescription(words.join(QStringLiteral("; ")));
  updateGeometry();
  update();
}

QSize BudgetBars::sizeHint() const { return {260, static_cast<int>(bars_.size()) * bar_row + 4}; }

void BudgetBars::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const double longest = bars_.empty() ? 1 : std::max(0.01, bars_.front().de00);
  const int value_width = 44;
  QFont small = font();
  small.setPointSizeF(small.pointSizeF() * 0.85);
  for (std::size_t i = 0; i < bars_.size(); ++i) {
    const int top = static_cast<int>(i) * bar_row;
    painter.setFont(font());
    painter.setPen(palette().color(QPalette::WindowText));
    painter.drawText(QRect(0, top, width() - value_width, 16), Qt::AlignLeft | Qt::AlignVCenter,
                     budget_part_word(bars_[i].part));
    painter.drawText(QRect(width() - value_width, top, value_width, 16), Qt::AlignRight | Qt::AlignVCenter,
                     figure(bars_[i].de00, 2));
    const int length = std::max(1, static_cast<int>((width() - 2) * bars_[i].de00 / longest));
    painter.fillRect(QRect(0, top + 17, length, 4), palette().color(QPalette::WindowText));
    painter.setFont(small);
    painter.setPen(palette().color(QPalette::PlaceholderText));
    if (i < 3)
      painter.drawText(QRect(0, top + 20, width(), 14), Qt::AlignLeft | Qt::AlignVCenter,
                       painter.fontMetrics().elidedText(
                           tr("shorter with: %1").arg(budget_part_cure(bars_[i].part, sheet_measured_)),
                           Qt::ElideRight, width()));
  }
}

ReadingPanel::ReadingPanel(QWidget* parent) : QWidget(parent) {
  setAccessibleName(tr("Reading"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  swatch_ = new SwatchField;
  name_ = text_label(tr("Name of the colour"));
  QFont large = name_->font();
  large.setPointSizeF(large.pointSizeF() * 1.45);
  large.setBold(true);
  name_->setFont(large);
  alternatives_ = text_label(tr("Other names"));
  lab_ = text_label(tr("Lab values with expanded uncertainty"));
  QFont numbers = lab_->font();
  numbers.setPointSizeF(numbers.pointSizeF() * 1.15);
  lab_->setFont(numbers);
  facts_ = text_label(tr("Munsell notation, trade terms and size"));
  flags_ = text_label(tr("Flags of this reading"));
  layer_swatch_ = new SwatchField;
  layer_swatch_->setAccessibleName(tr("Colour of the masstone"));
  layer_swatch_->set_low();
  layer_ = text_label(tr("Masstone: the colour of a layer thick enough to hide its ground"));
  budget_title_ = text_label(tr("What the uncertainty is made of"));
  bars_ = new BudgetBars;
  for (QWidget* part :
       {static_cast<QWidget*>(swatch_), static_cast<QWidget*>(name_), static_cast<QWidget*>(alternatives_),
        static_cast<QWidget*>(lab_), static_cast<QWidget*>(facts_), static_cast<QWidget*>(layer_swatch_),
        static_cast<QWidget*>(layer_), static_cast<QWidget*>(flags_), static_cast<QWidget*>(budget_title_),
        static_cast<QWidget*>(bars_)})
    column->addWidget(part);
  set_reading(nullptr);
}

void ReadingPanel::set_reading(const ShownReading* shown, bool sheet_measured) {
  const bool refused = shown != nullptr && shown->reading.refused;
  const bool stands = shown != nullptr && !refused;
  swatch_->set_swatch(stands ? &shown->swatch : nullptr);
  for (QWidget* part :
       {static_cast<QWidget*>(alternatives_), static_cast<QWidget*>(lab_), static_cast<QWidget*>(flags_),
        static_cast<QWidget*>(budget_title_), static_cast<QWidget*>(bars_)})
    part->setVisible(stands);
  const bool layered = stands && shown->layer.has_value();
  layer_->setVisible(layered);
  layer_swatch_->setVisible(layered && !shown->layer->refused);
  if (!stands) {
    name_->setText(refused ? tr("No reading") : tr("Nothing read yet"));
    facts_->setText(refused ? error_words(*shown->reading.refused) : QString());
    bars_->set_bars({}, true);
    return;
  }
  name_->setText(QStringLiteral("%1 (%2)").arg(shown->name, shown->probability));
  alternatives_->setText(tr("otherwise %1").arg(shown->alternatives.join(QStringLiteral(", "))));
  alternatives_->setVisible(!shown->alternatives.isEmpty());
  lab_->setText(lab_line(*shown));
  QStringList facts{tr("CIELAB, D50, 2°; ± is k = 2"),
                    tr("within ΔE00 %1 of the true colour (95 %)").arg(shown->de00),
                    tr("Munsell %1").arg(shown->munsell)};
  if (!shown->trade.isEmpty()) facts.push_back(tr("in the trade's words: %1").arg(shown->trade));
  facts.push_back(
      tr("%L1 pixels, %2 mm²").arg(shown->reading.pixels).arg(figure(shown->reading.area_mm2, 0)));
  if (const auto& share = shown->reading.coverage_share; share && *share < colorlib::full_coverage)
    facts.push_back(tr("%1 % covered by the deposit, bare ground between").arg(figure(100 * *share, 0)));
  if (const double share = shown->reading.foreign_share.value_or(0); share > 0)
    facts.push_back(tr("%1 % neither deposit nor ground, left out").arg(figure(100 * share, 1)));
  if (const auto& tenth = shown->tenth)
    facts.push_back(tr("Thickest tenth: %1, ΔE00 %2 from the mean").arg(tenth->name, tenth->from_mean) +
                    QStringLiteral("\n") + lab_line(*tenth) + QStringLiteral("\n") +
                    tr("within ΔE00 %1 of the true colour (95 %)").arg(tenth->de00));
  facts_->setText(facts.join(QStringLiteral("\n")));
  if (layered) show_layer(*shown->layer);
  QStringList flags;
  for (const auto& flag : shown->reading.flags)
    flags.push_back(QStringLiteral("• %1: %2")
                        .arg(QString::fromStdString(flag.code),
                             QCoreApplication::translate("colorlib", flag.advice.c_str())));
  flags_->setText(flags.join(QStringLiteral("\n")));
  flags_->setVisible(!flags.isEmpty());
  budget_title_->setText(tr("What ± %1 is made of (ΔE00, 95 %)").arg(shown->de00));
  bars_->set_bars(shown->budget, sheet_measured);
}

void ReadingPanel::show_layer(const ShownLayer& layer) {
  layer_swatch_->set_swatch(layer.refused ? nullptr : &layer.swatch);
  const QString hides = layer.contrast.isEmpty() ? QString() : tr("contrast ratio %1 %").arg(layer.contrast);
  if (layer.refused) {
    QStringList said{tr("No masstone: %1 %2").arg(layer.problem, layer.advice)};
    if (!hides.isEmpty()) said.push_back(hides);
    return layer_->setText(said.join(QStringLiteral("\n")));
  }
  QStringList said{
      tr("Masstone, of a layer that hides its ground: %1").arg(layer.name), lab_line(layer),
      tr("within ΔE00 %1 of the true masstone (95 %), Munsell %2").arg(layer.de00, layer.munsell)};
  const QString from = layer.method == QLatin1String("uneven-thickness")
                           ? tr("from its uneven thickness over one ground")
                       : layer.with.isEmpty() ? tr("from two grounds")
                                              : tr("from two grounds, with %1").arg(layer.with);
  said.push_back(hides.isEmpty() ? from : hides + QStringLiteral(", ") + from);
  layer_->setText(said.join(QStringLiteral("\n")));
}

QString ReadingPanel::layer_text() const { return layer_->isVisibleTo(this) ? layer_->text() : QString(); }
QString ReadingPanel::lab_text() const { return lab_->text(); }
QString ReadingPanel::name_text() const { return name_->text(); }

}  // namespace tintfall::viewer
