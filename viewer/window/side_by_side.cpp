#include <QPainter>
#include <algorithm>
#include <cmath>
#include <numeric>
#include <viewer/settings/figures.hpp>
#include <viewer/window/neutral_ground.hpp>
#include <viewer/window/side_by_side.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int least_swatch_px = 96, group_gap_px = 22, words_px = 66, bias_row_px = 46;

}  // namespace

SwatchRow::SwatchRow(QWidget* parent) : QWidget(parent) {
  setMinimumHeight(150);
  setAccessibleName(tr("Colours side by side"));
}

void SwatchRow::set_outcome(std::shared_ptr<const CompareOutcome> outcome, bool grouped) {
  outcome_ = std::move(outcome);
  grouped_ = grouped;
  order_.resize(outcome_ ? outcome_->readings.size() : 0);
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  if (grouped_)
    std::stable_sort(order_.begin(), order_.end(), [this](std::size_t a, std::size_t b) {
      return outcome_->readings[a].group < outcome_->readings[b].group;
    });
  QStringList names;
  for (const std::size_t i : order_)
    names.push_back(
        QStringLiteral("%1: %2").arg(outcome_->readings[i].label, outcome_->readings[i].shown.name));
  setAccessibleDescription(names.join(QStringLiteral("; ")));
  setMinimumWidth(sizeHint().width());
  update();
}

QSize SwatchRow::sizeHint() const {
  const int groups = grouped_ && outcome_ && outcome_->comparison
                         ? static_cast<int>(outcome_->comparison->groups.size())
                         : 1;
  return {std::max(300, static_cast<int>(order_.size()) * least_swatch_px + groups * group_gap_px + 24), 200};
}

void SwatchRow::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  painter.setPen(Qt::white);
  if (order_.empty()) {
    painter.drawText(rect().adjusted(16, 0, -16, 0), Qt::AlignCenter | Qt::TextWordWrap,
                     tr("Add records, or drop them here: readings stand side by side under one white."));
    return;
  }
  int gaps = 0;
  for (std::size_t i = 1; i < order_.size(); ++i)
    gaps += grouped_ && outcome_->readings[order_[i]].group != outcome_->readings[order_[i - 1]].group;
  const int side = std::min(220, (width() - 24 - gaps * group_gap_px) / static_cast<int>(order_.size()));
  int left = 12;
  for (std::size_t i = 0; i < order_.size(); ++i) {
    const SideReading& each = outcome_->readings[order_[i]];
    if (i > 0 && grouped_ && each.group != outcome_->readings[order_[i - 1]].group) left += group_gap_px;
    painter.fillRect(QRect(left, 12, side, height() - words_px - 12), each.shown.swatch.color);
    const QString lab =
        QStringLiteral("%1  %2  %3").arg(each.shown.lab[0], each.shown.lab[1], each.shown.lab[2]);
    painter.drawText(QRect(left + 2, height() - words_px + 2, side - 4, words_px - 4),
                     Qt::AlignTop | Qt::AlignHCenter | Qt::TextWordWrap,
                     QStringLiteral("%1  %2\n").arg(order_[i] + 1).arg(each.short_label) + each.shown.name +
                         QStringLiteral("\n") + lab);
    left += side;
  }
}

BiasPlot::BiasPlot(QWidget* parent) : QWidget(parent) { setAccessibleName(tr("Bias of each collector")); }

void BiasPlot::set_outcome(std::shared_ptr<const CompareOutcome> outcome) {
  outcome_ = std::move(outcome);
  QStringList said;
  if (outcome_ && outcome_->comparison)
    for (const CollectorBias& bias : outcome_->comparison->biases) {
      QStringList directions;
      for (const std::string& word : bias.words) directions.push_back(QString::fromStdString(word));
      said.push_back(
          QStringLiteral("%1: ΔL* %2, Δa* %3, Δb* %4 %5")
              .arg(QString::fromStdString(outcome_->comparison->table.participants[bias.participant].name))
              .arg(figure(bias.bias[0], 1))
              .arg(figure(bias.bias[1], 1))
              .arg(figure(bias.bias[2], 1))
              .arg(directions.join(QStringLiteral(", "))));
    }
  setAccessibleDescription(said.join(QStringLiteral("; ")));
  setMinimumHeight(40 + static_cast<int>(said.size()) * bias_row_px);
  update();
}

void BiasPlot::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(palette().color(QPalette::WindowText));
  if (!outcome_ || !outcome_->comparison || outcome_->comparison->biases.empty()) {
    painter.drawText(
        rect(), Qt::AlignCenter | Qt::TextWordWrap,
        tr("Records of two collectors or more, named in them, show here how each reads against the others."));
    return;
  }
  const auto& biases = outcome_->comparison->biases;
  double extent = 1;
  for (const CollectorBias& bias : biases)
    for (std::size_t k = 0; k < 3; ++k)
      extent = std::max(extent, std::abs(bias.bias[k]) + bias.half_width[k]);
  const double left = 150, right = width() - 12, middle = (left + right) / 2,
               unit = (right - left) / 2 / extent;
  painter.drawText(QRectF(left, 0, right - left, 16), Qt::AlignCenter,
                   tr("reads lower or higher than the value to compare with, 95 % interval"));
  painter.drawLine(QPointF(middle, 18), QPointF(middle, height() - 22));
  const double step = extent > 8 ? 4 : extent > 3 ? 2 : 0.5;
  for (double v = -std::floor(extent / step) * step; v <= extent; v += step)
    painter.drawText(QRectF(middle + v * unit - 20, height() - 20, 40, 16), Qt::AlignCenter, short_figure(v));
  const char* names[] = {"ΔL*", "Δa*", "Δb*"};
  for (std::size_t i = 0; i < biases.size(); ++i) {
    const CollectorBias& bias = biases[i];
    const double top = 20 + static_cast<double>(i) * bias_row_px;
    painter.drawText(QRectF(4, top, left - 44, bias_row_px),
                     Qt::AlignVCenter | Qt::AlignLeft | Qt::TextWordWrap,
                     QString::fromStdString(outcome_->comparison->table.participants[bias.participant].name));
    for (std::size_t k = 0; k < 3; ++k) {
      const double y = top + 8 + 13 * static_cast<double>(k), x = middle + bias.bias[k] * unit;
      painter.drawText(QRectF(left - 38, y - 8, 34, 16), Qt::AlignRight | Qt::AlignVCenter,
                       QString::fromUtf8(names[k]));
      painter.drawLine(QPointF(x - bias.half_width[k] * unit, y), QPointF(x + bias.half_width[k] * unit, y));
      painter.setBrush(
          palette().color(bias.basis == BiasBasis::too_few ? QPalette::Window : QPalette::WindowText));
      painter.drawEllipse(QPointF(x, y), 3.5, 3.5);
    }
  }
}

}  // namespace tintfall::viewer
