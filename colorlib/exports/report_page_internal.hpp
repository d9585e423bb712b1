#pragma once
/// A PDF page that counts in millimetres: text, boxes, pictures. For .cpp files only.

#include <cairo/cairo.h>

#include <colorlib/base/image.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/exports/vector_canvas_internal.hpp>
#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace colorlib {

struct TextStyle {
  double size_mm = 3.2;
  bool bold = false;
  double grey = 0.1;
};

/// A4 upright, drawn from top to bottom.
class ReportPages {
 public:
  static constexpr double width_mm = 210, height_mm = 297, margin_mm = 18;
  static constexpr double text_width_mm = width_mm - 2 * margin_mm;

  explicit ReportPages(std::string_view title);
  /// The same pages as pictures, for looking at: at most `most` are kept.
  ReportPages(double px_per_mm, std::size_t most);
  /// Height of the text that was written, wrapped to `wrap_mm`.
  double text(const std::string& words, double x_mm, double y_mm, double wrap_mm,
              const TextStyle& style = {});
  double text_height(const std::string& words, double wrap_mm, const TextStyle& style = {});
  void swatch(const Lab& lab, double x_mm, double y_mm, double w_mm, double h_mm);
  void box(double x_mm, double y_mm, double w_mm, double h_mm, double grey);
  void line(double x0_mm, double y0_mm, double x1_mm, double y1_mm, double width_mm, double grey);
  /// Fits the picture into the box, keeping its shape; the height that it takes.
  double picture(const Image8& picture, double x_mm, double y_mm, double w_mm, double h_mm);
  /// Calls `draw` with a canvas of `width_pt` x `height_pt` that is scaled to `w_mm`; the height that it
  /// takes.
  double diagram(double width_pt, double height_pt, double x_mm, double y_mm, double w_mm,
                 const std::function<void(VectorCanvas&)>& draw);
  void next_page();
  /// Errors: cannot_write.
  Result<std::string> finish();
  /// Of pages that are pictures. Errors: cannot_write.
  Result<std::vector<Image8>> finish_pictures();

 private:
  struct SurfaceDeleter {
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  };
  struct ContextDeleter {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
  };
  void blank();

  std::vector<Image8> pictures_;
  std::size_t most_pictures_ = 0;
  std::unique_ptr<std::string> bytes_ = std::make_unique<std::string>();
  std::unique_ptr<cairo_surface_t, SurfaceDeleter> surface_;
  std::unique_ptr<cairo_t, ContextDeleter> context_;
};

}  // namespace colorlib
