#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <colorlib/exports/overlay_canvas_internal.hpp>

namespace colorlib {
namespace {

struct Unref {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

Layout layout_of(cairo_t* context, const std::string& text, double text_px, double wrap_px) {
  Layout layout(pango_cairo_create_layout(context));
  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans");
  pango_font_description_set_absolute_size(font, text_px * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_width(layout.get(), static_cast<int>(wrap_px * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  return layout;
}

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

Surface surface_of(const Image8& picture) {
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.columns, picture.rows),
                  cairo_surface_destroy);
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) return surface;
  cairo_surface_flush(surface.get());
  const int stride = cairo_image_surface_get_stride(surface.get());
  unsigned char* rows = cairo_image_surface_get_data(surface.get());
  for (int r = 0; r < picture.rows; ++r) {
    auto* row = reinterpret_cast<std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(r) * stride);
    for (int c = 0; c < picture.columns; ++c) {
      const std::uint8_t* rgb = picture.at(r, c);
      row[c] = (std::uint32_t{rgb[0]} << 16) | (std::uint32_t{rgb[1]} << 8) | rgb[2];
    }
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

constexpr double strip_grey = 0.13, dark_margin_px = 2.0;

}  // namespace

double CanvasBox::overlap(const CanvasBox& other) const {
  const double across = std::min(x + width, other.x + other.width) - std::max(x, other.x);
  const double down = std::min(y + height, other.y + other.height) - std::max(y, other.y);
  return across > 0 && down > 0 ? across * down : 0;
}

CanvasBox bounds_of(const std::vector<PointPx>& points) {
  if (points.empty()) return {};
  const auto [left, right] = std::minmax_element(points.begin(), points.end(),
                                                 [](const auto& a, const auto& b) { return a.x < b.x; });
  const auto [top, bottom] = std::minmax_element(points.begin(), points.end(),
                                                 [](const auto& a, const auto& b) { return a.y < b.y; });
  return {left->x, top->y, right->x - left->x, bottom->y - top->y};
}

OverlayCanvas::OverlayCanvas(const Image8& picture, double enlargement, int strip_px, double text_px)
    : width_(std::round(picture.columns * enlargement)),
      picture_height_(std::round(picture.rows * enlargement)),
      text_px_(text_px),
      surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width_),
                                          static_cast<int>(picture_height_) + strip_px)),
      context_(cairo_create(surface_.get())) {
  cairo_t* context = context_.get();
  cairo_set_source_rgb(context, strip_grey, strip_grey, strip_grey);
  cairo_paint(context);
  cairo_save(context);
  cairo_scale(context, width_ / picture.columns, picture_height_ / picture.rows);
  cairo_set_source_surface(context, surface_of(picture).get(), 0, 0);
  cairo_rectangle(context, 0, 0, picture.columns, picture.rows);
  cairo_fill(context);
  cairo_restore(context);
  cairo_set_line_join(context, CAIRO_LINE_JOIN_ROUND);
}

bool OverlayCanvas::sound() const { return cairo_status(context_.get()) == CAIRO_STATUS_SUCCESS; }

void OverlayCanvas::line(const std::vector<PointPx>& points, const LineStyle& style) {
  if (points.size() < 2) return;
  cairo_t* context = context_.get();
  cairo_new_path(context);
  for (const PointPx& point : points) cairo_line_to(context, point.x, point.y);
  if (style.closed) cairo_close_path(context);
  cairo_set_dash(context, nullptr, 0, 0);
  cairo_set_source_rgba(context, 0, 0, 0, 0.8);
  cairo_set_line_width(context, style.width_px + dark_margin_px);
  cairo_stroke_preserve(context);
  const double dash[] = {4 * style.width_px, 3 * style.width_px};
  if (style.dashed) cairo_set_dash(context, dash, 2, 0);
  cairo_set_source_rgb(context, 1, 1, 1);
  cairo_set_line_width(context, style.width_px);
  cairo_stroke(context);
  cairo_set_dash(context, nullptr, 0, 0);
}

void OverlayCanvas::dot(const PointPx& place, double radius) {
  cairo_t* context = context_.get();
  constexpr double whole_turn = 6.283185307179586;
  cairo_new_path(context);
  cairo_arc(context, place.x, place.y, radius + 1, 0, whole_turn);
  cairo_set_source_rgba(context, 0, 0, 0, 0.8);
  cairo_fill(context);
  cairo_arc(context, place.x, place.y, radius, 0, whole_turn);
  cairo_set_source_rgb(context, 1, 1, 1);
  cairo_fill(context);
}

void OverlayCanvas::box(const CanvasBox& box, double grey, double opacity) {
  cairo_rectangle(context_.get(), box.x, box.y, box.width, box.height);
  cairo_set_source_rgba(context_.get(), grey, grey, grey, opacity);
  cairo_fill(context_.get());
}

void OverlayCanvas::swatch(const CanvasBox& box, const ScreenColor& color) {
  cairo_t* context = context_.get();
  cairo_rectangle(context, box.x, box.y, box.width, box.height);
  cairo_set_source_rgb(context, color.red / 255.0, color.green / 255.0, color.blue / 255.0);
  cairo_fill_preserve(context);
  cairo_set_source_rgb(context, 1, 1, 1);
  cairo_set_line_width(context, 1);
  cairo_stroke(context);
}

CanvasBox OverlayCanvas::text_size(const std::string& text, double wrap_px) const {
  int width = 0, height = 0;
  pango_layout_get_pixel_size(layout_of(context_.get(), text, text_px_, wrap_px).get(), &width, &height);
  return {0, 0, static_cast<double>(width), static_cast<double>(height)};
}

void OverlayCanvas::text(const std::string& text, const PointPx& place, double wrap_px) {
  cairo_move_to(context_.get(), place.x, place.y);
  cairo_set_source_rgb(context_.get(), 1, 1, 1);
  pango_cairo_show_layout(context_.get(), layout_of(context_.get(), text, text_px_, wrap_px).get());
  cairo_new_path(context_.get());
}

Result<std::string> OverlayCanvas::png() const {
  std::string bytes;
  cairo_status_t status = cairo_status(context_.get());
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream(surface_.get(), append, &bytes);
  if (status == CAIRO_STATUS_SUCCESS) return bytes;
  return fail(ErrorCode::cannot_write,
              fmt::format("Drawing the overlay failed: {}.", cairo_status_to_string(status)),
              "Make room in memory and try again, or leave the overlay out.");
}

}  // namespace colorlib
