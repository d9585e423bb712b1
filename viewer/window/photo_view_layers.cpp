#include <QPainter>
#include <QPainterPath>
#include <cmath>
#include <viewer/models/region_model.hpp>
#include <viewer/window/label_boxes.hpp>
#include <viewer/window/photo_view.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr int ellipse_corners = 72, most_vertex_handles = 24;

/// A line that reads on any ground: white on black. Opaque, since blending costs more than all of the photo
/// under it.
void draw_outline(QPainter& painter, const QPainterPath& path, double width,
                  Qt::PenStyle style = Qt::SolidLine) {
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(Qt::black, width + 2));
  painter.drawPath(path);
  painter.setPen(QPen(Qt::white, width, style));
  painter.drawPath(path);
}

/// The same for straight lines. Each by itself and with square ends, which is drawn without an outline of its
/// own.
void draw_lines(QPainter& painter, const QList<QLineF>& lines, double width,
                Qt::PenStyle style = Qt::SolidLine) {
  painter.setPen(QPen(Qt::black, width + 2, Qt::SolidLine, Qt::SquareCap));
  painter.drawLines(lines);
  painter.setPen(QPen(Qt::white, width, style, style == Qt::SolidLine ? Qt::SquareCap : Qt::FlatCap));
  painter.drawLines(lines);
}

/// The box of a label whose first letter stands at `place`.
QRectF label_box(const QFontMetrics& metrics, const QPointF& place, const QString& text) {
  return metrics.boundingRect(text).translated(place.toPoint()).adjusted(-4, -2, 4, 2);
}

void draw_label(QPainter& painter, const QRectF& box, const QString& text) {
  painter.setPen(Qt::NoPen);
  painter.setBrush(QColor(32, 32, 32, 220));
  painter.drawRect(box);
  painter.setPen(Qt::white);
  painter.drawText(box, Qt::AlignCenter | Qt::TextSingleLine, text);
}

void draw_handle(QPainter& painter, const QPointF& place, bool square) {
  painter.setPen(QPen(Qt::black, 1));
  painter.setBrush(Qt::white);
  const QRectF box(place.x() - 4.5, place.y() - 4.5, 9, 9);
  square ? painter.drawRect(box) : painter.drawEllipse(box);
}

}  // namespace

std::vector<QPolygonF> PhotoView::loops_of(const Region& region) const {
  const bool on_sheet = document_.regions().regions.frame == RegionFrame::chart_mm;
  if (on_sheet && !document_.sheet()) return {};
  const QTransform to_widget = view();
  const auto at = [&](double x, double y) {
    if (!on_sheet) return to_widget.map(QPointF(x, y));
    const PointPx px = document_.sheet()->sheet.placement.px_from_mm({x, y});
    return to_widget.map(QPointF(px.x, px.y));
  };
  std::vector<QPolygonF> loops;
  if (const auto* ellipse = std::get_if<EllipseShape>(&region.shape)) {
    loops.emplace_back();
    for (int i = 0; i < ellipse_corners; ++i) {
      const double t = 2 * M_PI * i / ellipse_corners;
      loops.back().append(
          at(ellipse->x + ellipse->radius_x * std::cos(t), ellipse->y + ellipse->radius_y * std::sin(t)));
    }
    return loops;
  }
  for (const auto& loop : std::get<PolygonShape>(region.shape).loops()) {
    loops.emplace_back();
    for (const auto& point : loop) loops.back().append(at(point[0], point[1]));
  }
  return loops;
}

QPainterPath PhotoView::path_of(const Region& region) const {
  QPainterPath path;
  for (const QPolygonF& loop : loops_of(region)) {
    path.addPolygon(loop);
    path.closeSubpath();
  }
  return path;
}

std::vector<PhotoView::RegionLabel> PhotoView::region_labels() const {
  std::vector<RegionLabel> labels;
  std::vector<LabelWanted> wanted;
  for (const Region& region : document_.regions().regions.items) {
    const QPainterPath path = path_of(region);
    if (path.isEmpty()) continue;
    labels.push_back(
        {QStringLiteral("%1 · %2").arg(QString::fromStdString(region.id), kind_word(region.kind)), {}});
    wanted.push_back({path.boundingRect(), label_box(fontMetrics(), {}, labels.back().text).size()});
  }
  const std::vector<QRectF> boxes = label_boxes(wanted, rect());
  for (std::size_t i = 0; i < labels.size(); ++i) labels[i].box = boxes[i];
  return labels;
}

QPolygonF PhotoView::outline_of(const Region& region) const {
  const auto loops = loops_of(region);
  return loops.empty() ? QPolygonF() : loops.front();
}

std::vector<QPointF> PhotoView::handles_of(const Region& region) const {
  const auto* polygon = std::get_if<PolygonShape>(&region.shape);
  std::vector<QPointF> handles;
  if (polygon != nullptr && polygon->points.size() <= most_vertex_handles) {
    for (const QPointF& corner : outline_of(region)) handles.push_back(corner);
    return handles;
  }
  if (polygon == nullptr) {
    const QPolygonF outline = outline_of(region);
    for (int i = 0; i < 4 && !outline.isEmpty(); ++i) handles.push_back(outline[i * ellipse_corners / 4]);
    return handles;
  }
  const auto [left, top, right, bottom] = region.bounds();
  Region box;
  box.shape = PolygonShape{{{left, top}, {right, top}, {right, bottom}, {left, bottom}}};
  for (const QPointF& corner : outline_of(box)) handles.push_back(corner);
  return handles;
}

std::array<PointPx, 4> PhotoView::corners() const {
  if (dragged_corners_) return *dragged_corners_;
  if (document_.setup().corners) return *document_.setup().corners;
  if (document_.sheet()) return document_.sheet()->sheet.corners_px;
  const auto& pyramid = document_.photo()->pyramid;
  const double w = pyramid.width_px(0), h = pyramid.height_px(0);
  return {PointPx{0.1 * w, 0.1 * h}, {0.9 * w, 0.1 * h}, {0.9 * w, 0.9 * h}, {0.1 * w, 0.9 * h}};
}

void PhotoView::paint_layers(QPainter& painter) {
  const QTransform to_widget = view();
  if (document_.sheet()) {
    const PhotoReading& found = *document_.sheet();
    const auto at = [&](double x, double y) {
      const PointPx px = found.sheet.placement.px_from_mm({x, y});
      return to_widget.map(QPointF(px.x, px.y));
    };
    const auto add_box = [&](const RectangleMm& place, QList<QLineF>& lines) {
      const QPointF corners[] = {at(place.x, place.y), at(place.x + place.width, place.y),
                                 at(place.x + place.width, place.y + place.height),
                                 at(place.x, place.y + place.height)};
      for (int i = 0; i < 4; ++i) lines.append({corners[i], corners[(i + 1) % 4]});
    };
    if (layers_.paper)
      for (const PaperSample& sample : found.samples.paper)
        draw_handle(painter, at(sample.place.x, sample.place.y), false);
    if (layers_.patches) {
      QList<QLineF> used, dropped;
      for (const PatchSample& sample : found.samples.patches) {
        const RectangleMm& place = found.chart.patches[sample.patch].place;
        add_box(place, sample.dropped ? dropped : used);
        if (!sample.dropped) continue;
        dropped.append({at(place.x, place.y), at(place.x + place.width, place.y + place.height)});
        dropped.append({at(place.x + place.width, place.y), at(place.x, place.y + place.height)});
      }
      draw_lines(painter, used, 1);
      draw_lines(painter, dropped, 1.6);
    }
    if (layers_.sheet) {
      QList<QLineF> edges;
      add_box({0, 0, found.chart.width_mm, found.chart.height_mm}, edges);
      draw_lines(painter, edges, 2);
    }
    if (layers_.opening) {
      QList<QLineF> edges;
      for (const ChartWindow& window : found.chart.windows) add_box(window.place, edges);
      draw_lines(painter, edges, 1.4, Qt::DashLine);
    }
  }
  if (layers_.regions) {
    for (const Region& region : document_.regions().regions.items) {
      const QString id = QString::fromStdString(region.id);
      const QPainterPath path = path_of(region);
      if (path.isEmpty()) continue;
      const ShownReading* reading = document_.reading_of(id);
      const bool refused = reading != nullptr && reading->reading.refused;
      draw_outline(painter, path, id == selected_ ? 2.6 : 1.4, refused ? Qt::DotLine : Qt::SolidLine);
      if (id == selected_ && by_person_)
        for (const QPointF& handle : handles_of(region)) draw_handle(painter, handle, true);
    }
    for (const RegionLabel& label : region_labels()) draw_label(painter, label.box, label.text);
  }
  if (corner_handles_) {
    QPolygonF sheet;
    for (const PointPx& corner : corners()) sheet.append(to_widget.map(QPointF(corner.x, corner.y)));
    QPainterPath path;
    path.addPolygon(sheet);
    path.closeSubpath();
    draw_outline(painter, path, 1.6, Qt::DashDotLine);
    for (int i = 0; i < 4; ++i) {
      draw_handle(painter, sheet[i], true);
      const QString number = QString::number(i + 1);
      draw_label(painter, label_box(painter.fontMetrics(), sheet[i] + QPointF(8, -8), number), number);
    }
  }
}

void PhotoView::paint_drawing(QPainter& painter) {
  const QTransform to_widget = view();
  if (!drawing_.isEmpty()) {
    QPainterPath path;
    if (tool_ == DrawingTool::ellipse && drawing_.size() == 2) {
      Region region;
      const auto a = framed(drawing_[0]), b = framed(drawing_[1]);
      region.shape = EllipseShape{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, std::abs(a[0] - b[0]) / 2,
                                  std::abs(a[1] - b[1]) / 2};
      path.addPolygon(outline_of(region));
      path.closeSubpath();
    } else {
      QPolygonF line = to_widget.map(drawing_);
      if (tool_ == DrawingTool::polygon && pointed_) line.append(to_widget.map(*pointed_));
      path.addPolygon(line);
    }
    draw_outline(painter, path, 1.6, Qt::DashLine);
  }
  if (pointed_ && hasFocus() && tool_ != DrawingTool::look) {
    const QPointF p = to_widget.map(*pointed_);
    QPainterPath cross;
    for (const QPointF& arm : {QPointF(12, 0), QPointF(-12, 0), QPointF(0, 12), QPointF(0, -12)}) {
      cross.moveTo(p + arm / 3);
      cross.lineTo(p + arm);
    }
    draw_outline(painter, cross, 1);
  }
}

}  // namespace tintfall::viewer
