#pragma once
/// A page for diagrams: SVG, PDF or PNG from one set of strokes and words. For .cpp files only.

#include <cairo/cairo.h>

#include <colorlib/base/image.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/geometry.hpp>
#include <colorlib/exports/picture_format.hpp>
#include <memory>
#include <string>
#include <vector>

namespace colorlib {

/// sRGB, each in [0, 1].
struct Ink {
  double red = 0, green = 0, blue = 0, opacity = 1;
};

enum class TextAlign { left, centre, right };

/// Coordinates in points (1/72 inch), (0, 0) at the top left; a PNG has two pixels a point.
class VectorCanvas {
 public:
  VectorCanvas(double width_pt, double height_pt, PictureFormat format);
  /// Draws on a page of somebody else, as that one's context is scaled; there is no file to finish.
  explicit VectorCanvas(cairo_t* context);

  double width() const { return width_; }
  double height() const { return height_; }
  void line(const std::vector<PointPx>& points, const Ink& ink, double width_pt, bool dashed = false);
  void fill(double x, double y, double width, double height, const Ink& ink);
  void frame(double x, double y, double width, double height, const Ink& ink, double width_pt);
  void area(const std::vector<PointPx>& points, const Ink& ink);
  void dot(const PointPx& place, double radius_pt, const Ink& ink, bool filled = true);
  /// 8-bit sRGB into a rectangle, pixels kept sharp.
  void picture(const Image8& picture, double x, double y, double width, double height);
  /// Text with its top at y; wrapped at `wrap_pt` when that is above 0. Returns its height.
  double text(const std::string& text, double x, double y, double size_pt, TextAlign align = TextAlign::left,
              double wrap_pt = 0, const Ink& ink = {0.1, 0.1, 0.1});
  double text_width(const std::string& text, double size_pt) const;
  /// The whole file. Errors: cannot_write.
  Result<std::string> finish();

 private:
  struct Free {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  };
  void set(const Ink& ink);

  double width_ = 0, height_ = 0;
  PictureFormat format_ = PictureFormat::pdf;
  std::unique_ptr<std::string> bytes_;  // outlives the surface that writes into it
  std::unique_ptr<cairo_surface_t, Free> surface_;
  std::unique_ptr<cairo_t, Free> context_;
};

}  // namespace colorlib
