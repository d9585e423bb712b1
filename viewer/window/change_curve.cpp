#include <QAreaSeries>
#include <QChart>
#include <QEvent>
#include <QLegend>
#include <QLegendMarker>
#include <QLineSeries>
#include <QMouseEvent>
#include <QScatterSeries>
#include <QValueAxis>
#include <algorithm>
#include <viewer/window/change_curve.hpp>

namespace tintfall::viewer {

ChangeCurve::ChangeCurve(QWidget* parent) : QChartView(new QChart, parent) {
  setRenderHint(QPainter::Antialiasing);
  setMinimumSize(260, 180);
  setFrameShape(QFrame::NoFrame);
  setAccessibleName(tr("Curve of change"));
  chart()->legend()->setAlignment(Qt::AlignTop);
  chart()->setMargins(QMargins(4, 4, 4, 4));
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
  if (!outcome_ || outcome_->lines.empty()) return setAccessibleDescription(tr("No spot or bruise yet."));
  const QColor ink = palette().color(QPalette::WindowText);
  auto* time = new QValueAxis;
  time->setTitleText(tr("seconds from the application"));
  auto* change = new QValueAxis;
  change->setTitleText(tr("change ΔE00 (± k = 2)"));
  for (QValueAxis* axis : {time, change}) {
    axis->setLabelsColor(ink);
    axis->setTitleBrush(ink);
    axis->setLinePenColor(ink);
    axis->setGridLineColor(palette().color(QPalette::Mid));
    axis->setLabelFormat(QStringLiteral("%.0f"));
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
    band->setName(tr("%1: interval").arg(line.id));
    middle->setPen(QPen(ink, 1.6, styles[i % 4]));
    middle->setName(line.id);
    marks->setMarkerSize(7);
    marks->setColor(ink);
    marks->setBorderColor(palette().color(QPalette::Window));
    for (QAbstractSeries* series : {static_cast<QAbstractSeries*>(band), static_cast<QAbstractSeries*>(middle), static_cast<QAbstractSeries*>(marks)}) {
      chart()->addSeries(series);
      series->attachAxis(time);
      series->attachAxis(change);
    }
    for (QLegendMarker* marker : chart()->legend()->markers(marks)) marker->setVisible(false);
    if (!line.marks.empty())
      said.push_back(tr("%1: ΔE00 %2 after %3 s").arg(line.id).arg(line.marks.back().change_de00, 0, 'f', 1).arg(line.marks.back().seconds, 0, 'f', 0));
  }
  time->setRange(first, last);
  change->setRange(0, 1.08 * most);
  time->applyNiceNumbers();
  setAccessibleDescription(said.join(QStringLiteral("; ")));
}

void ChangeCurve::set_moment(double seconds) {
  moment_s_ = seconds;
  viewport()->update();
  scene()->update();
}

void ChangeCurve::mousePressEvent(QMouseEvent* event) {
  if (outcome_ && !outcome_->lines.empty())
    emit moment_picked(chart()->mapToValue(chart()->mapFromScene(mapToScene(event->position().toPoint()))).x());
}

void ChangeCurve::drawForeground(QPainter* painter, const QRectF& rect) {
  QChartView::drawForeground(painter, rect);
  if (!outcome_ || outcome_->lines.empty()) return;
  const QRectF area = chart()->mapRectToScene(chart()->plotArea());
  const double x = chart()->mapToScene(chart()->mapToPosition(QPointF(moment_s_, 0))).x();
  if (x < area.left() - 1 || x > area.right() + 1) return;
  painter->setPen(QPen(palette().color(QPalette::WindowText), 1, Qt::DashLine));
  painter->drawLine(QPointF(x, area.top()), QPointF(x, area.bottom()));
}

}  // namespace tintfall::viewer
