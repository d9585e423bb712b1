#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>
#include <viewer/settings/figures.hpp>
#include <viewer/tasks/diagram_jobs.hpp>
#include <viewer/window/color_plane.hpp>
#include <viewer/window/neutral_ground.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr double scale_width = 78, edge = 30, least_half_width = 16;
constexpr int nodes = 128;

QColor ink() { return QColor(245, 245, 245); }

}  // namespace

ColorPlane::ColorPlane(QWidget* parent) : QWidget(parent), lane_(QStringLiteral("names")) {
  setMinimumSize(260, 220);
  setAccessibleName(tr("Diagram of a* and b* with a scale of L*"));
}

void ColorPlane::set_readings(std::vector<ShownReading> readings, int main) {
  readings_ = std::move(readings);
  std::erase_if(readings_, [](const ShownReading& each) { return each.reading.refused.has_value(); });
  main_ = std::clamp(main, 0, std::max(0, static_cast<int>(readings_.size()) - 1));
  renew();
}

void ColorPlane::set_others(std::vector<ShownReading> others) {
  others_ = std::move(others);
  std::erase_if(others_, [](const ShownReading& each) { return each.reading.refused.has_value(); });
  renew();
}

void ColorPlane::set_show_names(bool shown) {
  show_names_ = shown;
  update();
}

void ColorPlane::renew() {
  update();
  std::vector<const ShownReading*> all;
  for (const auto& each : readings_) all.push_back(&each);
  for (const auto& each : others_) all.push_back(&each);
  if (all.empty()) return setAccessibleDescription(tr("No reading yet."));
  const auto& main = readings_.empty() ? *all.front() : readings_[static_cast<std::size_t>(main_)];
  centre_ = main.reading.lab;
  half_width_ = least_half_width;
  for (const auto* each : all)
    half_width_ =
        std::max({half_width_, std::abs(each->reading.lab.a - centre_.a) + 1.3 * each->ellipse.long_axis,
                  std::abs(each->reading.lab.b - centre_.b) + 1.3 * each->ellipse.long_axis});
  half_width_ *= 1.1;
  setAccessibleDescription(tr("%1 readings; the chosen one at L* %2, a* %3, b* %4, %5.")
                               .arg(all.size())
                               .arg(main.lab[0], main.lab[1], main.lab[2], main.name));
  lane_.start([centre = centre_, half = half_width_](Progress&) { return names_round(centre, half, nodes); },
              [this](NameMap map) {
                map_ = std::move(map);
                update();
              });
}

QRectF ColorPlane::plane() const {
  const double side = std::max(50.0, std::min(width() - scale_width - 2 * edge + 16, height() - 1.6 * edge));
  return {edge + 4, 8, side, side};
}

QPointF ColorPlane::place(double a, double b) const {
  const QRectF box = plane();
  return {box.center().x() + (a - centre_.a) / half_width_ * box.width() / 2,
          box.center().y() - (b - centre_.b) / half_width_ * box.height() / 2};
}

void ColorPlane::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), neutral_ground());
  painter.setRenderHint(QPainter::Antialiasing);
  if (readings_.empty() && others_.empty()) {
    painter.setPen(ink());
    painter.drawText(rect(), Qt::AlignCenter, tr("No reading yet"));
    return;
  }
  painter.save();
  painter.setClipRect(plane());
  if (show_names_) paint_names(painter);
  for (const auto& each : others_) paint_reading(painter, each, false);
  for (std::size_t i = 0; i < readings_.size(); ++i)
    if (static_cast<int>(i) != main_) paint_reading(painter, readings_[i], false);
  if (!readings_.empty()) paint_reading(painter, readings_[static_cast<std::size_t>(main_)], true);
  painter.restore();
  paint_axes(painter);
  paint_scale(painter);
}

void ColorPlane::paint_names(QPainter& painter) {
  if (map_.name.empty()) return;
  const auto name_at = [&](int r, int c) {
    return map_.name[static_cast<std::size_t>(r * map_.columns + c)];
  };
  const auto corner = [&](double c, double r) {
    return place(map_.a_low + c * map_.step, map_.b_low + r * map_.step);
  };
  painter.setPen(QPen(QColor(255, 255, 255, 110), 1));
  QPainterPath borders;
  for (int r = 0; r < map_.rows; ++r)
    for (int c = 0; c < map_.columns; ++c) {
      if (c + 1 < map_.columns && name_at(r, c) != name_at(r, c + 1)) {
        borders.moveTo(corner(c + 0.5, r - 0.5));
        borders.lineTo(corner(c + 0.5, r + 0.5));
      }
      if (r + 1 < map_.rows && name_at(r, c) != name_at(r + 1, c)) {
        borders.moveTo(corner(c - 0.5, r + 0.5));
        borders.lineTo(corner(c + 0.5, r + 0.5));
      }
    }
  painter.drawPath(borders);
  QFont small = font();
  small.setPointSizeF(std::max(6.5, small.pointSizeF() * 0.75));
  painter.setFont(small);
  painter.setPen(QColor(255, 255, 255, 200));
  constexpr double cell_px = 5.2;  // of a letter, roughly
  // Large regions first: a name that would lie on another is left out.
  std::vector<QRectF> taken;
  auto labels = map_.labels;
  std::stable_sort(labels.begin(), labels.end(),
                   [](const auto& a, const auto& b) { return a.nodes > b.nodes; });
  for (const auto& label : labels) {
    const double room =
        std::sqrt(static_cast<double>(label.nodes)) * map_.step / half_width_ * plane().width() / 2;
    if (room < 34) continue;
    QRectF box(0, 0, std::max(room, 44.0), 40);
    box.moveCenter(place(label.a, label.b));
    box.moveLeft(std::clamp(box.left(), plane().left() + 2,
                            std::max(plane().left() + 2, plane().right() - box.width() - 2)));
    if (static_cast<double>(label.text.size()) * cell_px > 3.2 * box.width()) continue;
    const QString text = QString::fromStdString(label.text);
    const QRectF words = painter.boundingRect(box, Qt::AlignCenter | Qt::TextWordWrap, text);
    if (std::any_of(taken.begin(), taken.end(), [&](const QRectF& other) { return other.intersects(words); }))
      continue;
    taken.push_back(words);
    painter.drawText(box, Qt::AlignCenter | Qt::TextWordWrap, text);
  }
  painter.setFont(font());
}

void ColorPlane::paint_axes(QPainter& painter) {
  const QRectF box = plane();
  painter.setPen(QPen(ink(), 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(box);
  const double raw = half_width_ / 2.5;
  const double power = std::pow(10, std::floor(std::log10(raw)));
  const double step = power * (raw / power >= 5 ? 5 : raw / power >= 2 ? 2 : 1);
  for (double v = std::ceil((centre_.a - half_width_) / step) * step; v <= centre_.a + half_width_;
       v += step) {
    const QPointF p = place(v, centre_.b);
    painter.drawLine(QPointF(p.x(), box.bottom()), QPointF(p.x(), box.bottom() + 4));
    painter.drawText(QRectF(p.x() - 20, box.bottom() + 4, 40, 16), Qt::AlignHCenter, short_figure(v));
  }
  for (double v = std::ceil((centre_.b - half_width_) / step) * step; v <= centre_.b + half_width_;
       v += step) {
    const QPointF p = place(centre_.a, v);
    painter.drawLine(QPointF(box.left() - 4, p.y()), QPointF(box.left(), p.y()));
    painter.drawText(QRectF(0, p.y() - 8, box.left() - 6, 16), Qt::AlignRight | Qt::AlignVCenter,
                     short_figure(v));
  }
  painter.drawText(QRectF(box.right() - 30, box.bottom() + 16, 40, 16), Qt::AlignRight, QStringLiteral("a*"));
  painter.drawText(QRectF(2, box.top() - 6, box.left() - 6, 16), Qt::AlignLeft, QStringLiteral("b*"));
}

void ColorPlane::paint_reading(QPainter& painter, const ShownReading& shown, bool main) {
  painter.save();
  painter.translate(place(shown.reading.lab.a, shown.reading.lab.b));
  const double unit = plane().width() / 2 / half_width_;
  painter.rotate(-shown.ellipse.angle_rad * 180 / M_PI);
  const QRectF box(-shown.ellipse.long_axis * unit, -shown.ellipse.short_axis * unit,
                   2 * shown.ellipse.long_axis * unit, 2 * shown.ellipse.short_axis * unit);
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(Qt::black, main ? 4 : 2.5));
  painter.drawEllipse(box);
  painter.setPen(QPen(Qt::white, main ? 2 : 1));
  painter.drawEllipse(box);
  painter.setPen(QPen(Qt::black, 1));
  painter.setBrush(shown.swatch.color);
  const double r = main ? 6 : 4;
  painter.drawEllipse(QRectF(-r, -r, 2 * r, 2 * r));
  painter.restore();
  painter.setPen(ink());
  painter.drawText(place(shown.reading.lab.a, shown.reading.lab.b) + QPointF(9, -7),
                   QString::fromStdString(shown.reading.id));
}

void ColorPlane::paint_scale(QPainter& painter) {
  const QRectF box(plane().right() + 38, plane().top(), 16, plane().height());
  const auto y_of = [&](double l) { return box.bottom() - std::clamp(l, 0.0, 100.0) / 100 * box.height(); };
  painter.setPen(QPen(ink(), 1));
  painter.drawText(QRectF(box.left() - 12, box.bottom() + 4, 40, 16), Qt::AlignHCenter, QStringLiteral("L*"));
  for (int l = 0; l <= 100; l += 20) {
    painter.drawLine(QPointF(box.left() - 4, y_of(l)), QPointF(box.left(), y_of(l)));
    painter.drawText(QRectF(box.left() - 32, y_of(l) - 8, 26, 16), Qt::AlignRight | Qt::AlignVCenter,
                     QString::number(l));
  }
  painter.drawRect(box);
  const auto mark = [&](const ShownReading& shown, bool main) {
    const double l = shown.reading.lab.l, u = shown.reading.lab_expanded[0];
    const QRectF span(box.left() + (main ? 1 : 4), y_of(l + u), box.width() - (main ? 2 : 8),
                      y_of(l - u) - y_of(l + u));
    painter.setPen(QPen(Qt::black, 1));
    painter.setBrush(shown.swatch.color);
    painter.drawRect(span.height() < 3 ? QRectF(span.left(), y_of(l) - 1.5, span.width(), 3) : span);
    painter.setPen(ink());
    if (main) painter.drawText(QPointF(box.right() + 3, y_of(l) + 4), QStringLiteral("%1").arg(shown.lab[0]));
  };
  for (const auto& each : others_) mark(each, false);
  for (std::size_t i = 0; i < readings_.size(); ++i) mark(readings_[i], static_cast<int>(i) == main_);
}

}  // namespace tintfall::viewer
