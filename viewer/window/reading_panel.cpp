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

constexpr int bar_row = 34, advice_top = 20;  ///< px: least height of a row, its advice below its top

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

QString budget_part_cure(const QString& part, const ReadingGrounds& grounds) {
  const bool lack_of_fit = part == QLatin1String("lack-of-fit");
  if (!grounds.sheet_measured && (lack_of_fit || part == QLatin1String("reference")))
    return QCoreApplication::translate("Budget", "measured values of this sheet, which are missing");
  if (!grounds.light_known && lack_of_fit)
    return QCoreApplication::translate(
        "Budget", "the photo's light stated; daylight or lamps of high colour rendering");
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
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

void BudgetBars::set_bars(std::vector<BudgetBar> bars, const ReadingGrounds& grounds) {
  bars_ = std::move(bars);
  grounds_ = grounds;
  QStringList words;
  for (std::size_t i = 0; i < bars_.size(); ++i) {
    QString said = QStringLiteral("%1 %2").arg(budget_part_word(bars_[i].part), figure(bars_[i].de00, 2));
    if (const QString cure = advice(i); !cure.isEmpty()) said += QStringLiteral(", ") + cure;
    words.push_back(said);
  }
  setAccessibleDescription(words.join(QStringLiteral("; ")));
  updateGeometry();
  update();
}

QFont BudgetBars::small_font() const {
  QFont small = font();
  small.setPointSizeF(small.pointSizeF() * 0.85);
  return small;
}

QString BudgetBars::advice(std::size_t index) const {
  constexpr std::size_t advised = 3;
  const QString cure = index < advised ? budget_part_cure(bars_[index].part, grounds_) : QString();
  return cure.isEmpty() ? cure : tr("shorter with: %1").arg(cure);
}

int BudgetBars::row_height(std::size_t index, int width) const {
  const QString words = advice(index);
  if (words.isEmpty()) return bar_row;
  const QRect room(0, 0, width, 1000);
  const int needed = QFontMetrics(small_font()).boundingRect(room, Qt::TextWordWrap, words).height();
  return std::max(bar_row, advice_top + needed);
}

int BudgetBars::heightForWidth(int width) const {
  int height = 4;
  for (std::size_t i = 0; i < bars_.size(); ++i) height += row_height(i, width);
  return height;
}

QSize BudgetBars::sizeHint() const { return {260, heightForWidth(std::max(260, width()))}; }

void BudgetBars::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  const double longest = bars_.empty() ? 1 : std::max(0.01, bars_.front().de00);
  const int value_width = 44;
  int top = 0;
  for (std::size_t i = 0; i < bars_.size(); ++i) {
    painter.setFont(font());
    painter.setPen(palette().color(QPalette::WindowText));
    painter.drawText(QRect(0, top, width() - value_width, 16), Qt::AlignLeft | Qt::AlignVCenter,
                     budget_part_word(bars_[i].part));
    painter.drawText(QRect(width() - value_width, top, value_width, 16), Qt::AlignRight | Qt::AlignVCenter,
                     figure(bars_[i].de00, 2));
    const int length = std::max(1, static_cast<int>((width() - 2) * bars_[i].de00 / longest));
    painter.fillRect(QRect(0, top + 17, length, 4), palette().color(QPalette::WindowText));
    const int height = row_height(i, width());
    painter.setFont(small_font());
    painter.setPen(palette().color(QPalette::PlaceholderText));
    painter.drawText(QRect(0, top + advice_top, width(), height - advice_top),
                     Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, advice(i));
    top += height;
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

void ReadingPanel::set_reading(const ShownReading* shown, const ReadingGrounds& grounds) {
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
    bars_->set_bars({}, {});
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
  bars_->set_bars(shown->budget, grounds);
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
