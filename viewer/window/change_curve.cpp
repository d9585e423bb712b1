#include <QAreaSeries>
#include <QChart>
#include <QEvent>
#include <QLegend>
#include <QLegendMarker>
#include <QLineSeries>
#include <QLocale>
#include <QMouseEvent>
#include <QScatterSeries>
#include <QValueAxis>
#include <algorithm>
#include <cmath>
#include <viewer/settings/figures.hpp>
#include <viewer/window/change_curve.hpp>

namespace tintfall::viewer {

namespace {

/// Ticks at round numbers, labelled with the decimals that these numbers have.
void make_round(QValueAxis& axis) {
  axis.applyNiceNumbers();
  const double step = (axis.max() - axis.min()) / (axis.tickCount() - 1);
  int decimals = 0;
  for (double left = step; decimals < 6 && std::abs(left - std::round(left)) > 1e-6 * left; left *= 10)
    ++decimals;
  axis.setLabelFormat(QStringLiteral("%.%1f").arg(decimals));
}

}  // namespace

ChangeCurve::ChangeCurve(QWidget* parent) : QChartView(new QChart, parent) {
  setRenderHint(QPainter::Antialiasing);
  setMinimumSize(260, 180);
  setFrameShape(QFrame::NoFrame);
  setAccessibleName(tr("Curve of change"));
  chart()->legend()->setAlignment(Qt::AlignTop);
  chart()->setLocalizeNumbers(true);
  chart()->setLocale(QLocale());
  chart()->setMargins(QMargins(4, 4, 4, 4));
  chart()->setTitleFont(font());
  viewport()->setFocusPolicy(Qt::NoFocus);  // the curve itself, which has a name, takes the keys
  renew_colors();
}

void ChangeCurve::renew_colors() {
  const QPalette colors = palette();
  setBackgroundBrush(colors.color(QPalette::Window));
  chart()->setBackgroundBrush(colors.color(QPalette::Window));
  chart()->setTitleBrush(colors.color(QPalette::WindowText));
  chart()->legend()->setLabelColor(colors.color(QPalette::WindowText));
}

void ChangeCurve::changeEvent(QEvent* event) {
  QChartView::changeEvent(event);
  if (event->type() != QEvent::PaletteChange) return;
  renew_colors();
  set_outcome(outcome_);
}

void ChangeCurve::set_outcome(std::shared_ptr<const SeriesOutcome> outcome) {
  outcome_ = std::move(outcome);
  chart()->removeAllSeries();
  for (QAbstractAxis* axis : chart()->axes()) {
    chart()->removeAxis(axis);
    delete axis;
  }
  chart()->setTitle({});
  if (!outcome_ || outcome_->lines.empty()) return setAccessibleDescription(tr("No spot or bruise yet."));
  const QColor ink = palette().color(QPalette::WindowText);
  QColor grid = ink;
  grid.setAlpha(60);
  auto* time = new QValueAxis;
  time->setTitleText(counts_from_first_photo(*outcome_) ? tr("seconds from the first photo")
                                                        : tr("seconds from the application"));
  auto* change = new QValueAxis;
  // Over the chart, not along the axis: there it is cut off where the window is low.
  chart()->setTitle(tr("change ΔE00 (± k = 2)"));
  for (QValueAxis* axis : {time, change}) {
    axis->setLabelsColor(ink);
    axis->setTitleBrush(ink);
    axis->setLinePenColor(ink);
    axis->setGridLineColor(grid);
  }
  chart()->addAxis(time, Qt::AlignBottom);
  chart()->addAxis(change, Qt::AlignLeft);
  double most = 1, first = 0, last = 1;
  const Qt::PenStyle styles[] = {Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine};
  QStringList said;
  for (std::size_t i = 0; i < outcome_->lines.size(); ++i) {
    const CourseLine& line = outcome_->lines[i];
    auto* upper = new QLineSeries(this);
    auto* lower = new QLineSeries(this);
    auto* middle = new QLineSeries;
    auto* marks = new QScatterSeries;
    for (const CourseMark& mark : line.marks) {
      upper->append(mark.seconds, mark.change_de00 + mark.change_expanded);
      lower->append(mark.seconds, std::max(0.0, mark.change_de00 - mark.change_expanded));
      middle->append(mark.seconds, mark.change_de00);
      marks->append(mark.seconds, mark.change_de00);
      most = std::max(most, mark.change_de00 + mark.change_expanded);
      first = std::min(first, mark.seconds);
      last = std::max(last, mark.seconds);
    }
    auto* band = new QAreaSeries(upper, lower);
    QColor shade = ink;
    shade.setAlpha(50);
    band->setBrush(shade);
    band->setPen(Qt::NoPen);
    band->setName(tr("%1: readings, interval").arg(line.id));
    // A fit is drawn as the line; without one the readings are only joined up.
    const bool fitted = !line.fit.empty();
    if (fitted) {
      middle->clear();
      for (const auto& [seconds, de00] : line.fit) {
        middle->append(seconds, de00);
        most = std::max(most, de00);
      }
    }
    middle->setPen(QPen(ink, fitted ? 2 : 1.2, styles[i % 4]));
    middle->setName(fitted ? tr("%1: fit").arg(line.id) : line.id);
    marks->setMarkerSize(7);
    marks->setColor(ink);
    marks->setBorderColor(palette().color(QPalette::Window));
    for (QAbstractSeries* series :
         {static_cast<QAbstractSeries*>(band), static_cast<QAbstractSeries*>(middle),
          static_cast<QAbstractSeries*>(marks)}) {
      chart()->addSeries(series);
      series->attachAxis(time);
      series->attachAxis(change);
    }
    for (QLegendMarker* marker : chart()->legend()->markers(marks)) marker->setVisible(false);
    for (const auto& [time, name] :
         {std::pair{line.onset, tr("%1: onset %2 s (%3 to %4 s, 95 %)")},
          std::pair{line.half_time, tr("%1: half done at %2 s (%3 to %4 s, 95 %)")}})
      if (time)
        said.push_back(name.arg(line.id)
                           .arg(figure(time->seconds, 1))
                           .arg(figure(time->low_s, 1))
                           .arg(figure(time->high_s, 1)));
    if (!line.marks.empty())
      said.push_back(tr("%1: ΔE00 %2 after %3 s")
                         .arg(line.id)
                         .arg(figure(line.marks.back().change_de00, 1))
                         .arg(figure(line.marks.back().seconds, 0)));
  }
  time->setRange(first, last);
  change->setRange(0, 1.08 * most);
  for (QValueAxis* axis : {time, change}) make_round(*axis);
  setAccessibleDescription(said.join(QStringLiteral("; ")));
}

void ChangeCurve::set_moment(double seconds) {
  moment_s_ = seconds;
  viewport()->update();
  scene()->update();
}

void ChangeCurve::mousePressEvent(QMouseEvent* event) {
  if (outcome_ && !outcome_->lines.empty())
    emit moment_picked(
        chart()->mapToValue(chart()->mapFromScene(mapToScene(event->position().toPoint()))).x());
}

/// Onset and half time on the fit, each with its interval as a bar along time.
void ChangeCurve::paint_times(QPainter& painter, const QRectF& area) {
  const QColor ink = palette().color(QPalette::WindowText);
  const auto place = [this](double seconds, double de00) {
    return chart()->mapToScene(chart()->mapToPosition(QPointF(seconds, de00)));
  };
  painter.save();
  painter.setClipRect(area);
  for (const CourseLine& line : outcome_->lines)
    for (const auto& [time, word] :
         {std::pair{line.onset, tr("onset %1 s")}, std::pair{line.half_time, tr("half at %1 s")}}) {
      if (!time) continue;
      const QPointF at = place(time->seconds, time->change_de00), low = place(time->low_s, time->change_de00),
                    high = place(time->high_s, time->change_de00);
      painter.setPen(QPen(ink, 2));
      painter.drawLine(low, high);
      for (const QPointF& end : {low, high}) painter.drawLine(end - QPointF(0, 4), end + QPointF(0, 4));
      painter.setBrush(palette().color(QPalette::Window));
      painter.drawEllipse(at, 4, 4);
      painter.drawText(QRectF(high.x() + 6, at.y() - 2 - (time->change_de00 < 1 ? 16 : 0), 150, 16),
                       Qt::AlignLeft | Qt::AlignVCenter, word.arg(figure(time->seconds, 1)));
    }
  painter.restore();
}

void ChangeCurve::drawForeground(QPainter* painter, const QRectF& rect) {
  QChartView::drawForeground(painter, rect);
  if (!outcome_ || outcome_->lines.empty()) return;
  const QRectF area = chart()->mapRectToScene(chart()->plotArea());
  paint_times(*painter, area);
  const double x = chart()->mapToScene(chart()->mapToPosition(QPointF(moment_s_, 0))).x();
  if (x < area.left() - 1 || x > area.right() + 1) return;
  painter->setPen(QPen(palette().color(QPalette::WindowText), 1, Qt::DashLine));
  painter->drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()));
}

}  // namespace tintfall::viewer
