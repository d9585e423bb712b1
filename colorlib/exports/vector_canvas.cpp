#include <cairo/cairo-pdf.h>
#include <cairo/cairo-svg.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <colorlib/exports/vector_canvas_internal.hpp>

namespace colorlib {
namespace {

constexpr double png_px_per_pt = 2;

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

cairo_surface_t* surface_for(PictureFormat format, double width, double height, std::string* bytes) {
  switch (format) {
    case PictureFormat::svg: {
      cairo_surface_t* surface = cairo_svg_surface_create_for_stream(append, bytes, width, height);
      cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PT);
      return surface;
    }
    case PictureFormat::pdf: {
      cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, bytes, width, height);
      // A fixed date: the same series gives the same file.
      cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
      return surface;
    }
    case PictureFormat::png:
      break;
  }
  return cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(width * png_px_per_pt)),
                                    static_cast<int>(std::ceil(height * png_px_per_pt)));
}

struct Unref {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

Layout layout_of(cairo_t* context, const std::string& text, double size_pt, double wrap_pt) {
  Layout layout(pango_cairo_create_layout(context));
  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans");
  pango_font_description_set_absolute_size(font, size_pt * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  if (wrap_pt > 0) {
    pango_layout_set_width(layout.get(), static_cast<int>(wrap_pt * PANGO_SCALE));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  return layout;
}

}  // namespace

Result<PictureFormat> picture_format_of(std::string_view file, std::string_view option) {
  std::string ending(file.substr(std::min(file.find_last_of('.'), file.size())));
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return std::tolower(c); });
  if (ending == ".svg") return PictureFormat::svg;
  if (ending == ".pdf") return PictureFormat::pdf;
  if (ending == ".png") return PictureFormat::png;
  return fail(ErrorCode::bad_call,
              fmt::format("{} names '{}', whose ending says no kind of picture.", option, file),
              "End it in .svg, .pdf or .png.");
}

VectorCanvas::VectorCanvas(double width_pt, double height_pt, PictureFormat format)
    : width_(width_pt),
      height_(height_pt),
      format_(format),
      bytes_(std::make_unique<std::string>()),
      surface_(surface_for(format, width_pt, height_pt, bytes_.get())),
      context_(cairo_create(surface_.get())) {
  if (format == PictureFormat::png) cairo_scale(context_.get(), png_px_per_pt, png_px_per_pt);
  cairo_set_line_join(context_.get(), CAIRO_LINE_JOIN_ROUND);
  fill(0, 0, width_pt, height_pt, {1, 1, 1});
}

VectorCanvas::VectorCanvas(cairo_t* context) : context_(cairo_reference(context)) {}

void VectorCanvas::set(const Ink& ink) {
  cairo_set_source_rgba(context_.get(), ink.red, ink.green, ink.blue, ink.opacity);
}

void VectorCanvas::line(const std::vector<PointPx>& points, const Ink& ink, double width_pt, bool dashed) {
  if (points.size() < 2) return;
  cairo_t* context = context_.get();
  cairo_new_path(context);
  for (const PointPx& point : points) cairo_line_to(context, point.x, point.y);
  const double dash[] = {3, 2.5};
  cairo_set_dash(context, dash, dashed ? 2 : 0, 0);
  set(ink);
  cairo_set_line_width(context, width_pt);
  cairo_stroke(context);
  cairo_set_dash(context, nullptr, 0, 0);
}

void VectorCanvas::fill(double x, double y, double width, double height, const Ink& ink) {
  cairo_rectangle(context_.get(), x, y, width, height);
  set(ink);
  cairo_fill(context_.get());
}

void VectorCanvas::frame(double x, double y, double width, double height, const Ink& ink, double width_pt) {
  cairo_rectangle(context_.get(), x, y, width, height);
  set(ink);
  cairo_set_line_width(context_.get(), width_pt);
  cairo_stroke(context_.get());
}

void VectorCanvas::area(const std::vector<PointPx>& points, const Ink& ink) {
  if (points.size() < 3) return;
  cairo_new_path(context_.get());
  for (const PointPx& point : points) cairo_line_to(context_.get(), point.x, point.y);
  cairo_close_path(context_.get());
  set(ink);
  cairo_fill(context_.get());
}

void VectorCanvas::dot(const PointPx& place, double radius_pt, const Ink& ink, bool filled) {
  constexpr double whole_turn = 6.283185307179586;
  cairo_new_path(context_.get());
  cairo_arc(context_.get(), place.x, place.y, radius_pt, 0, whole_turn);
  if (!filled) {
    set({1, 1, 1});
    cairo_fill_preserve(context_.get());
  }
  set(ink);
  cairo_set_line_width(context_.get(), 0.8);
  filled ? cairo_fill(context_.get()) : cairo_stroke(context_.get());
}

void VectorCanvas::picture(const Image8& picture, double x, double y, double width, double height) {
  if (picture.empty()) return;
  const std::unique_ptr<cairo_surface_t, Free> pixels(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.columns, picture.rows));
  if (cairo_surface_status(pixels.get()) != CAIRO_STATUS_SUCCESS) return;
  const int stride = cairo_image_surface_get_stride(pixels.get());
  unsigned char* rows = cairo_image_surface_get_data(pixels.get());
  for (int r = 0; r < picture.rows; ++r) {
    auto* row = reinterpret_cast<std::uint32_t*>(rows + static_cast<std::ptrdiff_t>(r) * stride);
    for (int c = 0; c < picture.columns; ++c) {
      const std::uint8_t* rgb = picture.at(r, c);
      row[c] = (std::uint32_t{rgb[0]} << 16) | (std::uint32_t{rgb[1]} << 8) | rgb[2];
    }
  }
  cairo_surface_mark_dirty(pixels.get());
  cairo_t* context = context_.get();
  cairo_save(context);
  cairo_translate(context, x, y);
  cairo_scale(context, width / picture.columns, height / picture.rows);
  cairo_set_source_surface(context, pixels.get(), 0, 0);
  cairo_pattern_set_filter(cairo_get_source(context), CAIRO_FILTER_BILINEAR);
  cairo_rectangle(context, 0, 0, picture.columns, picture.rows);
  cairo_fill(context);
  cairo_restore(context);
}

double VectorCanvas::text(const std::string& text, double x, double y, double size_pt, TextAlign align,
                          double wrap_pt, const Ink& ink) {
  const Layout layout = layout_of(context_.get(), text, size_pt, wrap_pt);
  int width = 0, height = 0;
  pango_layout_get_size(layout.get(), &width, &height);
  const double wide = static_cast<double>(width) / PANGO_SCALE;
  const double left = align == TextAlign::left ? x : align == TextAlign::centre ? x - wide / 2 : x - wide;
  set(ink);
  cairo_move_to(context_.get(), left, y);
  pango_cairo_show_layout(context_.get(), layout.get());
  cairo_new_path(context_.get());
  return static_cast<double>(height) / PANGO_SCALE;
}

double VectorCanvas::text_width(const std::string& text, double size_pt) const {
  int width = 0, height = 0;
  pango_layout_get_size(layout_of(context_.get(), text, size_pt, 0).get(), &width, &height);
  return static_cast<double>(width) / PANGO_SCALE;
}

Result<std::string> VectorCanvas::finish() {
  cairo_status_t status = cairo_status(context_.get());
  if (status == CAIRO_STATUS_SUCCESS) {
    if (format_ == PictureFormat::png) {
      status = cairo_surface_write_to_png_stream(surface_.get(), append, bytes_.get());
    } else {
      cairo_show_page(context_.get());
      cairo_surface_finish(surface_.get());
      status = cairo_surface_status(surface_.get());
    }
  }
  if (status == CAIRO_STATUS_SUCCESS) return std::move(*bytes_);
  return fail(ErrorCode::cannot_write,
              fmt::format("Drawing the picture failed: {}.", cairo_status_to_string(status)),
              "Make room in memory and try again, or leave the picture out.");
}

}  // namespace colorlib
