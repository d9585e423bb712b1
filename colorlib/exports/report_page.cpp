#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <colorlib/exports/report_page_internal.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <cstdint>
#include <exception>

namespace colorlib {
namespace {

constexpr double points_per_mm = 72 / 25.4;

struct Unref {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, Unref>;

/// Laid out in points and scaled back: letters keep their shapes at any size.
Layout layout_of(cairo_t* context, const std::string& words, double wrap_mm, const TextStyle& style) {
  Layout layout(pango_cairo_create_layout(context));
  PangoFontDescription* font =
      pango_font_description_from_string(style.bold ? "DejaVu Sans Bold" : "DejaVu Sans");
  pango_font_description_set_absolute_size(font, style.size_mm * points_per_mm * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_width(layout.get(), static_cast<int>(wrap_mm * points_per_mm * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
  return layout;
}

double height_mm_of(PangoLayout* layout) {
  int height = 0;
  pango_layout_get_size(layout, nullptr, &height);
  return static_cast<double>(height) / PANGO_SCALE / points_per_mm;
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  try {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  } catch (const std::exception&) {
    return CAIRO_STATUS_WRITE_ERROR;
  }
}

}  // namespace

ReportPages::ReportPages(std::string_view title)
    : surface_(cairo_pdf_surface_create_for_stream(append, bytes_.get(), width_mm * points_per_mm,
                                                   height_mm * points_per_mm)),
      context_(cairo_create(surface_.get())) {
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_TITLE, std::string(title).c_str());
  // Not the clock's: the same call gives the same bytes.
  cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
}

ReportPages::ReportPages(double px_per_mm, std::size_t most)
    : most_pictures_(most),
      surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(width_mm * px_per_mm),
                                          static_cast<int>(height_mm * px_per_mm))),
      context_(cairo_create(surface_.get())) {
  cairo_scale(context_.get(), px_per_mm / points_per_mm, px_per_mm / points_per_mm);
  blank();
}

void ReportPages::blank() {
  cairo_set_source_rgb(context_.get(), 1, 1, 1);
  cairo_paint(context_.get());
}

double ReportPages::text(const std::string& words, double x_mm, double y_mm, double wrap_mm,
                         const TextStyle& style) {
  cairo_t* context = context_.get();
  cairo_set_source_rgb(context, style.grey, style.grey, style.grey);
  cairo_move_to(context, x_mm * points_per_mm, y_mm * points_per_mm);
  const Layout layout = layout_of(context, words, wrap_mm, style);
  pango_cairo_show_layout(context, layout.get());
  return height_mm_of(layout.get());
}

double ReportPages::text_height(const std::string& words, double wrap_mm, const TextStyle& style) {
  return height_mm_of(layout_of(context_.get(), words, wrap_mm, style).get());
}

void ReportPages::swatch(const Lab& lab, double x_mm, double y_mm, double w_mm, double h_mm) {
  const ScreenColor color = screen_color_from_lab(lab);
  cairo_t* context = context_.get();
  cairo_set_source_rgb(context, color.red / 255.0, color.green / 255.0, color.blue / 255.0);
  cairo_rectangle(context, x_mm * points_per_mm, y_mm * points_per_mm, w_mm * points_per_mm,
                  h_mm * points_per_mm);
  cairo_fill_preserve(context);
  cairo_set_source_rgb(context, 0.6, 0.6, 0.6);
  cairo_set_line_width(context, 0.3);
  cairo_stroke(context);
}

void ReportPages::box(double x_mm, double y_mm, double w_mm, double h_mm, double grey) {
  cairo_t* context = context_.get();
  cairo_set_source_rgb(context, grey, grey, grey);
  cairo_rectangle(context, x_mm * points_per_mm, y_mm * points_per_mm, w_mm * points_per_mm,
                  h_mm * points_per_mm);
  cairo_fill(context);
}

void ReportPages::line(double x0_mm, double y0_mm, double x1_mm, double y1_mm, double width, double grey) {
  cairo_t* context = context_.get();
  cairo_set_source_rgb(context, grey, grey, grey);
  cairo_set_line_width(context, width * points_per_mm);
  cairo_move_to(context, x0_mm * points_per_mm, y0_mm * points_per_mm);
  cairo_line_to(context, x1_mm * points_per_mm, y1_mm * points_per_mm);
  cairo_stroke(context);
}

double ReportPages::picture(const Image8& picture, double x_mm, double y_mm, double w_mm, double h_mm) {
  if (picture.empty()) return 0;
  const std::unique_ptr<cairo_surface_t, SurfaceDeleter> image(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.columns, picture.rows));
  if (cairo_surface_status(image.get()) != CAIRO_STATUS_SUCCESS) return 0;
  cairo_surface_flush(image.get());
  const int stride = cairo_image_surface_get_stride(image.get());
  for (int r = 0; r < picture.rows; ++r) {
    auto* row = reinterpret_cast<std::uint32_t*>(cairo_image_surface_get_data(image.get()) +
                                                 static_cast<std::ptrdiff_t>(r) * stride);
    for (int c = 0; c < picture.columns; ++c) {
      const std::uint8_t* rgb = picture.at(r, c);
      row[c] = (std::uint32_t{rgb[0]} << 16) | (std::uint32_t{rgb[1]} << 8) | rgb[2];
    }
  }
  cairo_surface_mark_dirty(image.get());
  const double mm_per_px = std::min(w_mm / picture.columns, h_mm / picture.rows);
  cairo_t* context = context_.get();
  cairo_save(context);
  cairo_translate(context, x_mm * points_per_mm, y_mm * points_per_mm);
  cairo_scale(context, mm_per_px * points_per_mm, mm_per_px * points_per_mm);
  cairo_set_source_surface(context, image.get(), 0, 0);
  cairo_paint(context);
  cairo_restore(context);
  return mm_per_px * picture.rows;
}

double ReportPages::diagram(double width_pt, double height_pt, double x_mm, double y_mm, double w_mm,
                            const std::function<void(VectorCanvas&)>& draw) {
  cairo_t* context = context_.get();
  const double scale = w_mm * points_per_mm / width_pt;
  cairo_save(context);
  cairo_translate(context, x_mm * points_per_mm, y_mm * points_per_mm);
  cairo_scale(context, scale, scale);
  VectorCanvas canvas(context);
  draw(canvas);
  cairo_restore(context);
  return height_pt * scale / points_per_mm;
}

void ReportPages::next_page() {
  if (most_pictures_ == 0) return cairo_show_page(context_.get());
  cairo_surface_flush(surface_.get());
  if (pictures_.size() < most_pictures_ && cairo_status(context_.get()) == CAIRO_STATUS_SUCCESS) {
    Image8 page(cairo_image_surface_get_height(surface_.get()), cairo_image_surface_get_width(surface_.get()),
                3);
    const int stride = cairo_image_surface_get_stride(surface_.get());
    for (int r = 0; r < page.rows; ++r) {
      const auto* row = reinterpret_cast<const std::uint32_t*>(cairo_image_surface_get_data(surface_.get()) +
                                                               static_cast<std::ptrdiff_t>(r) * stride);
      for (int c = 0; c < page.columns; ++c) {
        std::uint8_t* rgb = page.at(r, c);
        for (int k = 0; k < 3; ++k) rgb[k] = static_cast<std::uint8_t>(row[c] >> (16 - 8 * k));
      }
    }
    pictures_.push_back(std::move(page));
  }
  blank();
}

Result<std::vector<Image8>> ReportPages::finish_pictures() {
  if (const auto status = cairo_status(context_.get()); status != CAIRO_STATUS_SUCCESS)
    return fail(ErrorCode::cannot_write,
                fmt::format("Drawing the report failed: {}.", cairo_status_to_string(status)),
                "Show fewer collections at once.");
  return std::move(pictures_);
}

Result<std::string> ReportPages::finish() {
  const auto drawn = cairo_status(context_.get());
  context_.reset();
  cairo_surface_finish(surface_.get());
  const auto status = drawn != CAIRO_STATUS_SUCCESS ? drawn : cairo_surface_status(surface_.get());
  if (status != CAIRO_STATUS_SUCCESS)
    return fail(ErrorCode::cannot_write,
                fmt::format("Drawing the report failed: {}.", cairo_status_to_string(status)),
                "Export fewer collections at once.");
  return std::move(*bytes_);
}

}  // namespace colorlib
