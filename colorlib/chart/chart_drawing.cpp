#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>
#include <fmt/format.h>
#include <glib.h>
#include <png.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/image.hpp>
#include <colorlib/chart/chart_drawing.hpp>
#include <colorlib/chart/sheet_words_internal.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <memory>
#include <variant>
#include <vector>

extern "C" {
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
}

namespace colorlib {
namespace {

constexpr double mm_per_inch = 25.4;
constexpr double points_per_mm = 72 / mm_per_inch;
/// A4 at 1200 dots an inch has 139 million dots; four bytes each stay well under 1 GiB.
constexpr double most_pixels = 150e6;
constexpr int least_dots_per_inch = 72, most_dots_per_inch = 1200;
constexpr std::size_t longest_label_bytes = 120;

struct SurfaceDeleter {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceDeleter>;
struct ContextDeleter {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
};
using Context = std::unique_ptr<cairo_t, ContextDeleter>;
struct FamilyDeleter {
  void operator()(apriltag_family_t* family) const { tag36h11_destroy(family); }
};
using Family = std::unique_ptr<apriltag_family_t, FamilyDeleter>;

void set_source(cairo_t* context, const Lab& lab_d50) {
  const Xyz xyz = adapted(xyz_from_lab(lab_d50, white_d50), white_d50, white_d65, AdaptationMethod::bradford);
  const LinearRgb rgb = linear_srgb_from_xyz(xyz);
  const auto encoded = [](double linear) { return srgb_from_linear(std::clamp(linear, 0.0, 1.0)); };
  cairo_set_source_rgb(context, encoded(rgb.r), encoded(rgb.g), encoded(rgb.b));
}

void fill(cairo_t* context, const RectangleMm& place, const Lab& lab_d50) {
  set_source(context, lab_d50);
  cairo_rectangle(context, place.x, place.y, place.width, place.height);
  cairo_fill(context);
}

/// The black cells of a marker, row by row: 8 x 8 true or false.
std::vector<bool> black_cells(const apriltag_family_t& family, int id) {
  const int side = family.width_at_border;
  std::vector<bool> black(static_cast<std::size_t>(side * side), true);
  const std::uint64_t code = family.codes[id];
  for (std::uint32_t bit = 0; bit < family.nbits; ++bit)
    if (code >> (family.nbits - bit - 1) & 1)
      black[family.bit_y[bit] * static_cast<std::uint32_t>(side) + family.bit_x[bit]] = false;
  return black;
}

/// Only black is printed; the white cells and the quiet zone are bare paper. All cells are one path, so that
/// no seam shows between neighbours.
void draw_marker(cairo_t* context, const apriltag_family_t& family, const Marker& marker) {
  const int side = family.width_at_border;
  const double cell_mm = marker.side_mm / side;
  const auto black = black_cells(family, marker.id);
  const auto is_black = [&](int row, int column) {
    return black[static_cast<std::size_t>(row * side + column)];
  };
  cairo_set_source_rgb(context, 0, 0, 0);
  for (int row = 0; row < side; ++row)
    for (int column = 0; column < side;) {
      int end = column;
      while (end < side && is_black(row, end)) ++end;
      if (end > column)
        cairo_rectangle(context, marker.x_mm + column * cell_mm, marker.y_mm + row * cell_mm,
                        (end - column) * cell_mm, cell_mm);
      column = std::max(end, column + 1);
    }
  cairo_fill(context);
}

/// A fine line that touches the opening from outside; broken where it may be cut.
void draw_outline(cairo_t* context, const RectangleMm& place, bool broken) {
  constexpr double line_mm = 0.15, grey = 0.5;
  const double dashes_mm[] = {1.5, 1.0};
  cairo_save(context);
  cairo_set_source_rgb(context, grey, grey, grey);
  cairo_set_line_width(context, line_mm);
  if (broken) cairo_set_dash(context, dashes_mm, 2, 0.75);
  cairo_rectangle(context, place.x - line_mm / 2, place.y - line_mm / 2, place.width + line_mm,
                  place.height + line_mm);
  cairo_stroke(context);
  cairo_restore(context);
}

/// A backing like the paper itself stays bare: ink would only make it darker.
bool is_paper(const ChartDefinition& chart, const Backing& backing) {
  return chart.paper_lab && *chart.paper_lab == backing.nominal_lab;
}

/// Everything, on a context that counts millimetres.
void draw(cairo_t* context, const ChartDefinition& chart, const SheetPrint& print) {
  for (const Backing& backing : chart.backings)
    if (!is_paper(chart, backing)) fill(context, backing.place, backing.nominal_lab);
  for (const ChartWindow& window : chart.windows) draw_outline(context, window.place, chart.backings.empty());
  for (const Patch& patch : chart.patches) fill(context, patch.place, patch.nominal_lab);
  const Family family(tag36h11_create());
  for (const Marker& marker : chart.markers) draw_marker(context, *family, marker);
  draw_sheet_words(context, chart, print.label, print.print_date);
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  try {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  } catch (const std::exception&) {
    return CAIRO_STATUS_WRITE_ERROR;
  }
}

tl::unexpected<Error> drawing_failure(const ChartDefinition& chart, std::string_view reason) {
  return fail(ErrorCode::cannot_write, fmt::format("Drawing the sheet '{}': {}.", chart.name, reason),
              "Free some memory, or ask for fewer dots per inch.");
}

/// Draws on a PDF or SVG surface whose units are `units_per_mm`, and closes it.
cairo_status_t draw_on(cairo_surface_t* surface, double units_per_mm, const ChartDefinition& chart,
                       const SheetPrint& print) {
  {
    const Context context(cairo_create(surface));
    cairo_scale(context.get(), units_per_mm, units_per_mm);
    draw(context.get(), chart, print);
    if (const auto status = cairo_status(context.get()); status != CAIRO_STATUS_SUCCESS) return status;
  }
  cairo_surface_finish(surface);
  return cairo_surface_status(surface);
}

Result<std::string> draw_pdf(const ChartDefinition& chart, const SheetPrint& print) {
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, chart.width_mm * points_per_mm,
                                                            chart.height_mm * points_per_mm));
  // A date of the call, not of the clock: the same call gives the same bytes.
  const std::string date = print.print_date.empty() ? "2000-01-01" : print.print_date;
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE,
                                 (date + "T00:00:00Z").c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, chart.title.c_str());
  if (const auto status = draw_on(surface.get(), points_per_mm, chart, print); status != CAIRO_STATUS_SUCCESS)
    return drawing_failure(chart, cairo_status_to_string(status));
  return bytes;
}

/// Cairo names the drawing after a counter of the process; a fixed name keeps equal calls equal.
void name_drawing(std::string& svg) {
  constexpr std::string_view counted = "id=\"surface";
  const auto begin = svg.find(counted);
  if (begin == std::string::npos) return;
  const auto end = svg.find('"', begin + counted.size());
  if (end != std::string::npos) svg.replace(begin, end - begin, "id=\"sheet");
}

Result<std::string> draw_svg(const ChartDefinition& chart, const SheetPrint& print) {
  std::string bytes;
  const Surface surface(cairo_svg_surface_create_for_stream(append, &bytes, chart.width_mm, chart.height_mm));
  cairo_svg_surface_set_document_unit(surface.get(), CAIRO_SVG_UNIT_MM);
  if (const auto status = draw_on(surface.get(), 1, chart, print); status != CAIRO_STATUS_SUCCESS)
    return drawing_failure(chart, cairo_status_to_string(status));
  name_drawing(bytes);
  return bytes;
}

void append_png(png_structp png, png_bytep data, png_size_t length) {
  const auto status = append(png_get_io_ptr(png), data, static_cast<unsigned int>(length));
  if (status != CAIRO_STATUS_SUCCESS) png_error(png, "out of memory");
}

/// Plain C inside: nothing here has a destructor that a jump could skip. False when libpng gave up.
bool write_png(const unsigned char* rgb, int width, int height, int dots_per_inch, std::string* bytes) {
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  if (!png) return false;
  png_infop info = png_create_info_struct(png);
  if (!info || setjmp(png_jmpbuf(png))) {
    png_destroy_write_struct(&png, &info);
    return false;
  }
  png_set_write_fn(png, bytes, append_png, nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(width), static_cast<png_uint_32>(height), 8,
               PNG_COLOR_TYPE_RGB, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  const auto dots_per_metre = static_cast<png_uint_32>(dots_per_inch / 0.0254 + 0.5);
  png_set_pHYs(png, info, dots_per_metre, dots_per_metre, PNG_RESOLUTION_METER);
  png_set_sRGB_gAMA_and_cHRM(png, info, PNG_sRGB_INTENT_RELATIVE);
  png_write_info(png, info);
  for (int row = 0; row < height; ++row)
    png_write_row(png, rgb + static_cast<std::size_t>(row) * static_cast<std::size_t>(width) * 3);
  png_write_end(png, info);
  png_destroy_write_struct(&png, &info);
  return true;
}

Result<std::string> draw_png(const ChartDefinition& chart, const SheetPrint& print) {
  const double px_per_mm = print.png_dots_per_inch / mm_per_inch;
  const double columns = std::max(1.0, std::round(chart.width_mm * px_per_mm));
  const double rows = std::max(1.0, std::round(chart.height_mm * px_per_mm));
  if (columns * rows > most_pixels || columns > 32000 || rows > 32000)
    return fail(
        ErrorCode::bad_call,
        fmt::format(
            "Drawing the sheet '{}' as PNG: {} x {} dots were asked for, at most {:.0f} million are drawn.",
            chart.name, columns, rows, most_pixels / 1e6),
        "Ask for fewer dots per inch, or for a PDF.");
  const Surface surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(columns), static_cast<int>(rows)));
  {
    const Context context(cairo_create(surface.get()));
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    cairo_scale(context.get(), px_per_mm, px_per_mm);
    draw(context.get(), chart, print);
    if (const auto status = cairo_status(context.get()); status != CAIRO_STATUS_SUCCESS)
      return drawing_failure(chart, cairo_status_to_string(status));
  }
  cairo_surface_flush(surface.get());
  const unsigned char* pixels = cairo_image_surface_get_data(surface.get());
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface.get()));
  Image8 rgb(static_cast<int>(rows), static_cast<int>(columns), 3);
  for (int row = 0; row < rgb.rows; ++row) {
    const auto* from =
        reinterpret_cast<const std::uint32_t*>(pixels + stride * static_cast<std::size_t>(row));
    std::uint8_t* to = rgb.at(row, 0);
    for (int column = 0; column < rgb.columns; ++column, to += 3) {
      to[0] = static_cast<std::uint8_t>(from[column] >> 16);
      to[1] = static_cast<std::uint8_t>(from[column] >> 8);
      to[2] = static_cast<std::uint8_t>(from[column]);
    }
  }
  std::string bytes;
  if (!write_png(rgb.data.data(), rgb.columns, rgb.rows, print.png_dots_per_inch, &bytes))
    return drawing_failure(chart, "the PNG writer ran out of memory");
  return bytes;
}

bool is_iso_date(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i)
    if (i != 4 && i != 7 && !(text[i] >= '0' && text[i] <= '9')) return false;
  const auto year = static_cast<GDateYear>(std::stoi(text.substr(0, 4)));
  return g_date_valid_dmy(static_cast<GDateDay>(std::stoi(text.substr(8))),
                          static_cast<GDateMonth>(std::stoi(text.substr(5, 2))), year);
}

Result<std::monostate> check(const SheetPrint& print) {
  const bool controls =
      std::any_of(print.label.begin(), print.label.end(), [](unsigned char c) { return c < 32 || c == 127; });
  if (print.label.size() > longest_label_bytes || controls ||
      !g_utf8_validate(print.label.data(), static_cast<gssize>(print.label.size()), nullptr))
    return fail(
        ErrorCode::bad_call,
        fmt::format(
            "Drawing a sheet: the label must be one line of UTF-8 text of at most {} bytes, it has {}.",
            longest_label_bytes, print.label.size()),
        "Give a short label such as 'A5-03'.");
  if (!print.print_date.empty() && !is_iso_date(print.print_date))
    return fail(ErrorCode::bad_call,
                fmt::format("Drawing a sheet: the print date '{}' is no date of the form YYYY-MM-DD.",
                            print.print_date.substr(0, 40)),
                "Write the date like 2031-04-09, or leave it out.");
  if (print.png_dots_per_inch < least_dots_per_inch || print.png_dots_per_inch > most_dots_per_inch)
    return fail(ErrorCode::bad_call,
                fmt::format("Drawing a sheet: {} dots per inch were asked for, {} to {} can be drawn.",
                            print.png_dots_per_inch, least_dots_per_inch, most_dots_per_inch),
                "300 suits most printers.");
  return std::monostate{};
}

}  // namespace

Result<std::string> draw_sheet(const ChartDefinition& chart, const SheetPrint& print) {
  if (const auto sound = check(print); !sound) return fail(sound.error());
  switch (print.format) {
    case SheetFormat::pdf:
      return draw_pdf(chart, print);
    case SheetFormat::svg:
      return draw_svg(chart, print);
    case SheetFormat::png:
      return draw_png(chart, print);
  }
  return fail(ErrorCode::bad_call, "Drawing a sheet: unknown format.", "Ask for PDF, SVG or PNG.");
}

bool label_is_shortened(const ChartDefinition& chart, const std::string& label) {
  constexpr double px_per_mm = 300 / mm_per_inch;
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1));
  const Context context(cairo_create(surface.get()));
  cairo_scale(context.get(), px_per_mm, px_per_mm);
  return label_is_cut(context.get(), chart, label);
}

}  // namespace colorlib
