#pragma once
/// The photo, and over it what was found and drawn.

#include <QPainterPath>
#include <QTimer>
#include <QTransform>
#include <QWidget>
#include <optional>
#include <viewer/document/photo_document.hpp>
#include <viewer/tasks/tile_store.hpp>
#include <viewer/window/photo_ground.hpp>

namespace tintfall::viewer {

/// What can be shown over the photo.
struct PhotoLayers {
  bool sheet = true, patches = true, opening = true, regions = true, paper = false;
};

enum class DrawingTool { look, ellipse, polygon, freehand, grow };

class PhotoView : public QWidget {
  Q_OBJECT
 public:
  PhotoView(PhotoDocument& document, QWidget* parent = nullptr);

  void set_rendering(colorlib::PhotoRendering rendering);
  colorlib::PhotoRendering rendering() const { return rendering_; }
  void set_layers(const PhotoLayers& layers);
  const PhotoLayers& layers() const { return layers_; }
  void set_tool(DrawingTool tool);
  DrawingTool tool() const { return tool_; }
  void set_kind(colorlib::RegionKind kind) { kind_ = kind; }
  void set_screen(const Screen& screen, bool mark_clipped);
  void set_difference_full(double de00);
  double difference_full() const { return difference_full_; }
  void set_corner_handles(bool shown);
  bool corner_handles() const { return corner_handles_; }
  /// A person chooses a region: it shows its handles, and a drag moves it.
  void select(const QString& region);
  const QString& selected() const { return selected_; }

  void fit();
  void zoom_by(double factor);
  void zoom_to_pixels();
  void rotate_by(double degrees);
  void show_place(const QRectF& place_px);
  double zoom() const { return zoom_; }
  double rotation_deg() const { return rotation_deg_; }
  QPointF photo_from_widget(const QPointF& point) const;
  QPointF widget_from_photo(const QPointF& point) const;
  /// Where the keyboard's crosshair or the pointer stands, in px of the photo.
  std::optional<QPointF> pointed() const { return pointed_; }
  /// `count` x `count` pixels round a place as they are shown; grey where they are not there yet.
  QImage pixels_around(const QPointF& place_px, int count);
  TileStore& tiles() { return tiles_; }
  /// What is written beside each region, and where, widget px; regions that lie nowhere in the photo are left
  /// out.
  struct RegionLabel {
    QString text;
    QRectF box;
  };
  std::vector<RegionLabel> region_labels() const;
  bool complete() const {
    return missing_tiles_ == 0 && !rest_.isActive();
  }  ///< the last paint had every tile it wanted

  QSize sizeHint() const override { return {820, 560}; }

 signals:
  void selected_changed(const QString& region);
  void pointed_changed(const QPointF& place_px);
  void view_changed();
  void grow_asked(const QPointF& place_px);
  void tool_changed(tintfall::viewer::DrawingTool tool);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void mouseReleaseEvent(QMouseEvent* event) override;
  void mouseDoubleClickEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  enum class Gesture { none, pan, draw, move_region, reshape, corner };
  void renew_source();
  QTransform view() const;  ///< photo px -> widget
  void paint_ground(QPainter& painter);
  void paint_layers(QPainter& painter);
  void paint_drawing(QPainter& painter);
  void paint_message(QPainter& painter, const QString& text);
  std::optional<colorlib::PointMm> sheet_place(const QPointF& photo) const;
  QPolygonF outline_of(const colorlib::Region& region) const;  ///< the outer loop, widget coordinates
  std::vector<QPolygonF> loops_of(const colorlib::Region& region) const;
  QPainterPath path_of(const colorlib::Region& region) const;  ///< every loop, widget coordinates
  QString region_at(const QPointF& widget) const;
  std::vector<QPointF> handles_of(const colorlib::Region& region) const;
  const colorlib::Region* selected_region() const;
  void
  choose_first();  ///< when none is chosen; as no person chose it, a drag that begins on it moves the photo
  void show_choice(const QString& region);
  bool in_chosen_region(const QPointF& widget) const;
  bool begins_to_move(const QPointF& widget);
  void finish_drawing();
  void reshape_to(const QPointF& widget);
  void point_at(const QPointF& widget);
  std::array<colorlib::PointPx, 4> corners() const;
  void place_corners();
  void use_place(const QPointF& photo);                      ///< what Enter does at the crosshair
  std::array<double, 2> framed(const QPointF& photo) const;  ///< px of the photo -> the regions' frame

  PhotoDocument& document_;
  TileStore tiles_;
  PhotoGround ground_;
  QTimer rest_;  ///< runs while the view is in motion
  PhotoLayers layers_;
  colorlib::PhotoRendering rendering_ = colorlib::PhotoRendering::as_taken;
  Screen screen_;
  bool mark_clipped_ = true;
  double difference_full_ = 10;
  DrawingTool tool_ = DrawingTool::look;
  colorlib::RegionKind kind_ = colorlib::RegionKind::deposit;
  bool corner_handles_ = false;
  QString selected_;
  bool by_person_ = false;  ///< `selected_` was chosen by a person

  QPointF centre_;   ///< of the view, in px of the photo
  double zoom_ = 1;  ///< widget pixels a photo pixel
  double rotation_deg_ = 0;
  bool fitted_ = true;

  Gesture gesture_ = Gesture::none;
  int gesture_number_ = 0;
  bool moving_ = false;  ///< the gesture has left the place it began at: it is no click
  int grabbed_ = -1;
  QPointF pressed_;
  std::optional<colorlib::Region> grabbed_region_;
  std::optional<std::array<colorlib::PointPx, 4>> dragged_corners_;
  QPolygonF drawing_;  ///< px of the photo
  std::optional<QPointF> pointed_;
  int missing_tiles_ = 0;
};

}  // namespace tintfall::viewer
