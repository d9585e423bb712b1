#include <QApplication>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>
#include <viewer/document/document_commands.hpp>
#include <viewer/window/photo_view.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr double grab_px = 9, least_stroke_px = 3, keyboard_radius_mm = 5, nudge_mm = 0.5;

double distance(const QPointF& a, const QPointF& b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

int nearest(const std::vector<QPointF>& places, const QPointF& point) {
  for (std::size_t i = 0; i < places.size(); ++i)
    if (distance(places[i], point) <= grab_px) return static_cast<int>(i);
  return -1;
}

}  // namespace

std::array<double, 2> PhotoView::framed(const QPointF& photo) const {
  if (document_.regions().regions.frame == RegionFrame::photo_px || !document_.sheet())
    return {photo.x(), photo.y()};
  const PointMm mm = document_.sheet()->sheet.placement.mm_from_px({photo.x(), photo.y()});
  return {mm.x, mm.y};
}

QString PhotoView::region_at(const QPointF& widget) const {
  const auto place = framed(photo_from_widget(widget));
  const auto& items = document_.regions().regions.items;
  for (auto region = items.rbegin(); region != items.rend(); ++region)
    if (region->contains(place[0], place[1])) return QString::fromStdString(region->id);
  return {};
}

bool PhotoView::in_chosen_region(const QPointF& widget) const {
  const Region* region = by_person_ ? selected_region() : nullptr;
  const auto place = framed(photo_from_widget(widget));
  return region != nullptr && region->contains(place[0], place[1]);
}

bool PhotoView::begins_to_move(const QPointF& widget) {
  moving_ = moving_ || (widget - pressed_).manhattanLength() >= QApplication::startDragDistance();
  return moving_;
}

void PhotoView::point_at(const QPointF& widget) {
  if (!document_.photo()) return;
  const QPointF photo = photo_from_widget(widget);
  const auto& pyramid = document_.photo()->pyramid;
  if (photo.x() < 0 || photo.y() < 0 || photo.x() > pyramid.width_px(0) - 1 ||
      photo.y() > pyramid.height_px(0) - 1)
    return;
  pointed_ = photo;
  emit pointed_changed(photo);
  if (tool_ != DrawingTool::look) update();
}

void PhotoView::mousePressEvent(QMouseEvent* event) {
  if (!document_.photo()) return;
  pressed_ = event->position();
  ++gesture_number_;
  moving_ = false;
  const bool pan = event->button() == Qt::MiddleButton || (event->modifiers() & Qt::ControlModifier);
  if (event->button() != Qt::LeftButton && !pan) return;
  const QPointF photo = photo_from_widget(pressed_);
  if (!pan && corner_handles_) {
    std::vector<QPointF> places;
    for (const PointPx& corner : corners()) places.push_back(widget_from_photo({corner.x, corner.y}));
    grabbed_ = nearest(places, pressed_);
    if (grabbed_ >= 0) {
      dragged_corners_ = corners();
      gesture_ = Gesture::corner;
      return;
    }
  }
  if (!pan && tool_ == DrawingTool::grow) return emit grow_asked(photo);
  if (!pan && tool_ == DrawingTool::polygon) {
    drawing_.append(photo);
    return update();
  }
  if (!pan && tool_ != DrawingTool::look) {
    drawing_ = QPolygonF{photo};
    gesture_ = Gesture::draw;
    return;
  }
  if (!pan) {
    if (const Region* region = by_person_ ? selected_region() : nullptr) {
      grabbed_ = nearest(handles_of(*region), pressed_);
      if (grabbed_ >= 0) {
        grabbed_region_ = *region;
        gesture_ = Gesture::reshape;
        return;
      }
    }
    if (in_chosen_region(pressed_)) {
      grabbed_region_ = *selected_region();
      gesture_ = Gesture::move_region;
      return;
    }
  }
  gesture_ = Gesture::pan;
  setCursor(Qt::ClosedHandCursor);
}

void PhotoView::mouseMoveEvent(QMouseEvent* event) {
  point_at(event->position());
  const QPointF photo = photo_from_widget(event->position());
  switch (gesture_) {
    case Gesture::none:
      break;
    case Gesture::pan:
      if (!begins_to_move(event->position())) break;
      centre_ += photo_from_widget(pressed_) - photo;
      pressed_ = event->position();
      fitted_ = false;
      update();
      break;
    case Gesture::draw:
      if (tool_ == DrawingTool::ellipse)
        drawing_ = QPolygonF{drawing_.first(), photo};
      else if (distance(widget_from_photo(drawing_.last()), event->position()) >= least_stroke_px)
        drawing_.append(photo);
      update();
      break;
    case Gesture::move_region: {
      if (!begins_to_move(event->position())) break;
      const auto from = framed(photo_from_widget(pressed_)), to = framed(photo);
      replace_region(document_, selected_, moved(*grabbed_region_, to[0] - from[0], to[1] - from[1]),
                     EditId::move_region, gesture_number_);
      break;
    }
    case Gesture::reshape:
      if (begins_to_move(event->position())) reshape_to(event->position());
      break;
    case Gesture::corner:
      (*dragged_corners_)[static_cast<std::size_t>(grabbed_)] = {photo.x(), photo.y()};
      update();
      break;
  }
}

void PhotoView::reshape_to(const QPointF& widget) {
  Region region = *grabbed_region_;
  const auto place = framed(photo_from_widget(widget));
  if (auto* ellipse = std::get_if<EllipseShape>(&region.shape)) {
    double& radius = grabbed_ % 2 == 0 ? ellipse->radius_x : ellipse->radius_y;
    radius = std::max(0.2, std::abs(grabbed_ % 2 == 0 ? place[0] - ellipse->x : place[1] - ellipse->y));
  } else {
    auto& points = std::get<PolygonShape>(region.shape).points;
    if (handles_of(region).size() == points.size()) {
      points[static_cast<std::size_t>(grabbed_)] = place;
    } else {
      const auto [left, top, right, bottom] = region.bounds();
      const bool at_left = grabbed_ == 0 || grabbed_ == 3, at_top = grabbed_ < 2;
      const double fixed_x = at_left ? right : left, fixed_y = at_top ? bottom : top;
      const double sx = std::max(0.05, (place[0] - fixed_x) / ((at_left ? left : right) - fixed_x));
      const double sy = std::max(0.05, (place[1] - fixed_y) / ((at_top ? top : bottom) - fixed_y));
      for (auto& point : points)
        point = {fixed_x + sx * (point[0] - fixed_x), fixed_y + sy * (point[1] - fixed_y)};
    }
  }
  replace_region(document_, selected_, std::move(region), EditId::reshape_region, gesture_number_);
}

void PhotoView::mouseReleaseEvent(QMouseEvent* event) {
  const Gesture ended = gesture_;
  gesture_ = Gesture::none;
  setCursor(tool_ == DrawingTool::look ? Qt::ArrowCursor : Qt::CrossCursor);
  if (ended == Gesture::draw) finish_drawing();
  if (ended == Gesture::corner) place_corners();
  if (ended == Gesture::pan) update();
  const bool choosing =
      ended == Gesture::move_region || (ended == Gesture::pan && event->button() == Qt::LeftButton &&
                                        !(event->modifiers() & Qt::ControlModifier));
  if (const QString id = region_at(pressed_); choosing && !moving_ && !id.isEmpty()) select(id);
  grabbed_region_.reset();
  grabbed_ = -1;
}

void PhotoView::mouseDoubleClickEvent(QMouseEvent* event) {
  if (tool_ == DrawingTool::polygon && drawing_.size() >= 3) return finish_drawing();
  mousePressEvent(event);
}

void PhotoView::place_corners() {
  if (!dragged_corners_) return;
  PhotoSetup setup = document_.setup();
  setup.corners = *dragged_corners_;
  if (setup.chart.isEmpty() && setup.sheet.isEmpty()) {
    if (!document_.sheet()) {
      document_.add_issue({IssueWeight::problem,
                           QStringLiteral("bad-call"),
                           tr("Corners need to know which sheet they belong to."),
                           tr("Choose the sheet in the panel 'About this photo', then move a corner again."),
                           {},
                           {},
                           1});
      return;
    }
    setup.chart = QString::fromStdString(document_.sheet()->chart.name);
  }
  document_.undo_stack().push(new SetupCommand(document_, tr("Place sheet by hand"), setup));
}

void PhotoView::finish_drawing() {
  const QPolygonF drawn = std::exchange(drawing_, {});
  update();
  if (!document_.sheet()) {
    document_.add_issue({IssueWeight::problem,
                         QStringLiteral("chart-not-found"),
                         tr("A region needs a sheet to be read through."),
                         tr("Wait until the sheet is found, or place its corners by hand."),
                         {},
                         {},
                         1});
    return;
  }
  Region region;
  region.kind = kind_;
  if (tool_ == DrawingTool::ellipse) {
    if (drawn.size() < 2) return;
    const auto a = framed(drawn[0]), b = framed(drawn[1]);
    region.shape = EllipseShape{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, std::abs(a[0] - b[0]) / 2,
                                std::abs(a[1] - b[1]) / 2};
    const auto& ellipse = std::get<EllipseShape>(region.shape);
    if (std::min(ellipse.radius_x, ellipse.radius_y) <= 0) return;
  } else {
    PolygonShape polygon;
    for (const QPointF& point : drawn)
      if (polygon.points.empty() || polygon.points.back() != framed(point))
        polygon.points.push_back(framed(point));
    if (polygon.points.size() < 3) return;
    region.shape = std::move(polygon);
  }
  region.id = document_.free_id().toStdString();
  const QString id = QString::fromStdString(region.id);
  add_region(document_, std::move(region));
  select(id);
}

void PhotoView::wheelEvent(QWheelEvent* event) {
  if (!document_.photo()) return;
  point_at(event->position());
  zoom_by(std::pow(1.0015, event->angleDelta().y()));
  event->accept();
}

void PhotoView::use_place(const QPointF& photo) {
  if (tool_ == DrawingTool::grow) return emit grow_asked(photo);
  if (tool_ == DrawingTool::polygon) {
    drawing_.append(photo);
    return update();
  }
  if (tool_ == DrawingTool::look) return select(region_at(widget_from_photo(photo)));
  if (!document_.sheet()) return finish_drawing();
  const auto centre = framed(photo);
  Region region;
  region.kind = kind_;
  region.id = document_.free_id().toStdString();
  region.shape = EllipseShape{centre[0], centre[1], keyboard_radius_mm, keyboard_radius_mm};
  const QString id = QString::fromStdString(region.id);
  add_region(document_, std::move(region));
  select(id);
}

void PhotoView::keyPressEvent(QKeyEvent* event) {
  if (!document_.photo()) return QWidget::keyPressEvent(event);
  QPointF step;
  switch (event->key()) {
    case Qt::Key_Left:
      step = {-1, 0};
      break;
    case Qt::Key_Right:
      step = {1, 0};
      break;
    case Qt::Key_Up:
      step = {0, -1};
      break;
    case Qt::Key_Down:
      step = {0, 1};
      break;
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (tool_ == DrawingTool::polygon && (event->modifiers() & Qt::ShiftModifier)) return finish_drawing();
      return use_place(pointed_.value_or(centre_));
    case Qt::Key_Escape:
      drawing_.clear();
      set_tool(DrawingTool::look);
      return update();
    default:
      return QWidget::keyPressEvent(event);
  }
  const Region* region = selected_region();
  if (event->modifiers() & Qt::ControlModifier) {
    point_at(widget_from_photo(pointed_.value_or(centre_)) + 8 * step);
  } else if ((event->modifiers() & Qt::ShiftModifier) && region != nullptr) {
    if (!event->isAutoRepeat()) ++gesture_number_;
    replace_region(document_, selected_, moved(*region, nudge_mm * step.x(), nudge_mm * step.y()),
                   EditId::move_region, gesture_number_);
  } else if ((event->modifiers() & Qt::AltModifier) && region != nullptr) {
    Region resized = *region;
    if (!event->isAutoRepeat()) ++gesture_number_;
    const double sx = 1 + 0.05 * step.x(), sy = 1 - 0.05 * step.y();
    const auto [left, top, right, bottom] = region->bounds();
    const double cx = (left + right) / 2, cy = (top + bottom) / 2;
    if (auto* ellipse = std::get_if<EllipseShape>(&resized.shape)) {
      ellipse->radius_x *= sx;
      ellipse->radius_y *= sy;
    } else {
      for (auto& point : std::get<PolygonShape>(resized.shape).points)
        point = {cx + sx * (point[0] - cx), cy + sy * (point[1] - cy)};
    }
    replace_region(document_, selected_, std::move(resized), EditId::reshape_region, gesture_number_);
  } else {
    centre_ = photo_from_widget(QPointF(width() / 2.0, height() / 2.0) + 60 * step);
    fitted_ = false;
    emit view_changed();
    update();
  }
}

}  // namespace tintfall::viewer
