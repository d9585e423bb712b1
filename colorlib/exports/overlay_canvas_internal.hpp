#pragma once
/// The surface an overlay is drawn on: lines of two tones, dots, wrapped text. For .cpp files only.

#include <cairo/cairo.h>

#include <colorlib/base/image.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/geometry.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <memory>
#include <string>
#include <vector>

namespace colorlib {

/// An upright rectangle in canvas pixels.
struct CanvasBox {
  double x = 0, y = 0, width = 0, height = 0;
  PointPx centre() const { return {x + width / 2, y + height / 2}; }
  /// Area shared with `other`, px^2.
  double overlap(const CanvasBox& other) const;
};

/// The smallest box around `points`.
CanvasBox bounds_of(const std::vector<PointPx>& points);

struct LineStyle {
  double width_px = 1.5;  ///< of the light line; the dark one below is 2 px wider
  bool dashed = false;
  bool closed = true;
};

class OverlayCanvas {
 public:
  /// `picture` enlarged by `enlargement` (>= 1) with an empty strip of `strip_px` under it. `text_px` is the
  /// height of text.
  OverlayCanvas(const Image8& picture, double enlargement, int strip_px, double text_px);

  double width() const { return width_; }
  double picture_height() const { return picture_height_; }
  double text_px() const { return text_px_; }
  bool sound() const;

  /// Canvas coordinates throughout: (0, 0) is the canvas' top-left corner.
  void line(const std::vector<PointPx>& points, const LineStyle& style);
  void dot(const PointPx& place, double radius);
  void box(const CanvasBox& box, double grey, double opacity);
  void swatch(const CanvasBox& box, const ScreenColor& color);
  /// Width and height of `markup`-free text wrapped at `wrap_px`.
  CanvasBox text_size(const std::string& text, double wrap_px) const;
  /// Light text with its top-left corner at `place`.
  void text(const std::string& text, const PointPx& place, double wrap_px);

  Result<std::string> png() const;

 private:
  struct Free {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  };
  double width_, picture_height_, text_px_;
  std::unique_ptr<cairo_surface_t, Free> surface_;
  std::unique_ptr<cairo_t, Free> context_;
};

}  // namespace colorlib
