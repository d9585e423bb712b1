#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <colorlib/chart/sheet_words_internal.hpp>
#include <memory>
#include <utility>
#include <vector>

namespace colorlib {
namespace {

/// Pango places glyphs on whole units; a hundredth of a millimetre keeps its rounding out of sight.
constexpr double text_units_per_mm = 100;
/// 1.5 mm is the smallest print that most people read at arm's length; 2 mm is ordinary small print.
constexpr double least_text_mm = 1.5, most_text_mm = 2.0;
/// Ink of words and rules: dark enough to read, thin enough not to disturb.
constexpr double ink = 0.2;

struct LayoutDeleter {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, LayoutDeleter>;

struct TextStyle {
  double size_mm = most_text_mm;
  bool bold = false;
  double width_mm = 0;  ///< 0 for one line without wrapping
  bool ellipsis = false;
};

Layout layout_of(cairo_t* context, const std::string& text, const TextStyle& style) {
  // Made under the scale that `show` draws with, so that the font is built in its final size.
  cairo_save(context);
  cairo_scale(context, 1 / text_units_per_mm, 1 / text_units_per_mm);
  Layout layout(pango_cairo_create_layout(context));
  cairo_restore(context);
  PangoContext* pango = pango_layout_get_context(layout.get());
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(pango, options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(pango, FALSE);
  pango_layout_context_changed(layout.get());
  PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans");
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, style.size_mm * text_units_per_mm * PANGO_SCALE);
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  if (style.width_mm > 0) {
    pango_layout_set_width(layout.get(), static_cast<int>(style.width_mm * text_units_per_mm * PANGO_SCALE));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  if (style.ellipsis) {
    pango_layout_set_height(layout.get(), -1);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
  }
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  return layout;
}

struct SizeMm {
  double width = 0, height = 0;
};
SizeMm size_of(const Layout& layout) {
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return {logical.width / (text_units_per_mm * PANGO_SCALE),
          logical.height / (text_units_per_mm * PANGO_SCALE)};
}

/// `place` is the top-left corner of the text.
void show(cairo_t* context, const Layout& layout, const PointMm& place) {
  cairo_save(context);
  cairo_translate(context, place.x, place.y);
  cairo_scale(context, 1 / text_units_per_mm, 1 / text_units_per_mm);
  cairo_set_source_rgb(context, ink, ink, ink);
  cairo_move_to(context, 0, 0);
  pango_cairo_show_layout(context, layout.get());
  cairo_restore(context);
}

void line(cairo_t* context, const PointMm& from, const PointMm& to, double width_mm) {
  cairo_set_source_rgb(context, ink, ink, ink);
  cairo_set_line_width(context, width_mm);
  cairo_move_to(context, from.x, from.y);
  cairo_line_to(context, to.x, to.y);
  cairo_stroke(context);
}

/// 100 mm where there is room, else 50 mm, in whole, half and full centimetres; numerals under it.
void draw_ruler(cairo_t* context, const RectangleMm& place) {
  const int length_mm = place.width >= 100 ? 100 : place.width >= 50 ? 50 : 0;
  if (length_mm == 0) return;
  constexpr double line_mm = 0.15;
  const double x0 = place.x + (place.width - length_mm) / 2;
  const double base = place.y + 2.4;
  for (int mm = 0; mm <= length_mm; ++mm) {
    const double tick_mm = mm % 10 == 0 ? 2.2 : mm % 5 == 0 ? 1.6 : 1.0;
    line(context, {x0 + mm, base}, {x0 + mm, base - tick_mm}, line_mm);
  }
  line(context, {x0 - line_mm / 2, base}, {x0 + length_mm + line_mm / 2, base}, line_mm);
  for (int mm = 0; mm <= length_mm; mm += 10) {
    const Layout text =
        layout_of(context, mm == length_mm ? fmt::format("{} mm", mm) : fmt::format("{}", mm), {1.6});
    const double width = size_of(text).width;
    // The last numeral ends with the ruler, so that its unit stays inside the block.
    const double x = mm == 0 ? x0 : mm == length_mm ? x0 + length_mm - width : x0 + mm - width / 2;
    show(context, text, {x, base + 0.2});
  }
}

/// One caption with its line, on which a value may stand.
struct Field {
  RectangleMm place;
  const char* caption;
};

Layout caption_of(cairo_t* context, const Field& field) { return layout_of(context, field.caption, {1.9}); }

/// Where the line begins, behind the caption.
double line_from(const Field& field, const Layout& caption) {
  return field.place.x + size_of(caption).width + 1.0;
}

/// The value in the size that fits: down to the least size, then cut with an ellipsis.
Layout value_of(cairo_t* context, const Field& field, const Layout& caption, const std::string& value) {
  const double room = field.place.x + field.place.width - line_from(field, caption) - 1.0;
  double size_mm = 2.4;
  while (size_mm > least_text_mm && size_of(layout_of(context, value, {size_mm})).width > room)
    size_mm -= 0.05;
  TextStyle style{size_mm, false, room};
  style.ellipsis = true;
  return layout_of(context, value, style);
}

void draw_field(cairo_t* context, const Field& field, const std::string& value) {
  const RectangleMm& place = field.place;
  const double base = place.y + place.height - 0.6;
  const Layout caption = caption_of(context, field);
  show(context, caption, {place.x, base - size_of(caption).height + 0.35});
  const double from = line_from(field, caption);
  line(context, {from, base}, {place.x + place.width, base}, 0.12);
  if (value.empty()) return;
  const Layout written = value_of(context, field, caption, value);
  show(context, written, {from + 0.5, base - size_of(written).height + 0.4});
}

/// The fields for label and print date in their block: one under the other where there is room.
std::pair<Field, Field> fields_in(const RectangleMm& place) {
  constexpr double gap_mm = 2, most_row_mm = 8;
  if (place.height >= 12) {
    const double row = std::min(most_row_mm, place.height / 2);
    return {{{place.x, place.y, place.width, row}, "Label"},
            {{place.x, place.y + row, place.width, row}, "Printed on"}};
  }
  const double half = (place.width - gap_mm) / 2;
  return {{{place.x, place.y, half, place.height}, "Label"},
          {{place.x + half + gap_mm, place.y, half, place.height}, "Printed"}};
}

void draw_fields(cairo_t* context, const RectangleMm& place, const std::string& label,
                 const std::string& print_date) {
  const auto [label_field, date_field] = fields_in(place);
  draw_field(context, label_field, label);
  draw_field(context, date_field, print_date);
}

/// Paragraphs under an optional heading.
struct Paragraphs {
  RectangleMm place;
  std::string heading;
  std::vector<std::string> lines;
};

std::vector<Layout> layouts_of(cairo_t* context, const Paragraphs& block, double size_mm) {
  std::vector<Layout> layouts;
  if (!block.heading.empty())
    layouts.push_back(layout_of(context, block.heading, {size_mm, true, block.place.width}));
  for (const std::string& line : block.lines)
    layouts.push_back(layout_of(context, line, {size_mm, false, block.place.width}));
  return layouts;
}

constexpr double paragraph_gap(double size_mm) { return 0.25 * size_mm; }

bool fits(cairo_t* context, const Paragraphs& block, double size_mm) {
  double height = -paragraph_gap(size_mm);
  for (const Layout& layout : layouts_of(context, block, size_mm))
    height += size_of(layout).height + paragraph_gap(size_mm);
  return height <= block.place.height;
}

/// All blocks in one size, the largest that fits every one of them.
void draw_paragraphs(cairo_t* context, const std::vector<Paragraphs>& blocks) {
  constexpr double step_mm = 0.05;
  double size_mm = most_text_mm;
  const auto fits_now = [&](const Paragraphs& block) { return fits(context, block, size_mm); };
  while (size_mm > least_text_mm && !std::all_of(blocks.begin(), blocks.end(), fits_now)) size_mm -= step_mm;
  for (const Paragraphs& block : blocks) {
    double y = block.place.y;
    for (const Layout& layout : layouts_of(context, block, size_mm)) {
      const double height = size_of(layout).height;
      if (y + height > block.place.y + block.place.height + 0.01)
        break;  // rather fewer words than words on bare paper
      show(context, layout, {block.place.x, y});
      y += height + paragraph_gap(size_mm);
    }
  }
}

std::vector<std::string> instructions_for(const ChartDefinition& chart) {
  std::vector<std::string> text;
  text.emplace_back("Print at 100 % on matt paper, no colour enhancement; check the ruler; dry for a day.");
  if (!chart.backings.empty())
    text.emplace_back("Lay the glass or film across black and white.");
  else if (!chart.windows.empty())
    text.emplace_back("Cut out the opening, or lay the specimen on it.");
  else
    text.emplace_back("Lay it level beside the specimen, in the same light.");
  text.emplace_back("Photograph flat, in even light, all markers in view.");
  return text;
}

}  // namespace

bool label_is_cut(cairo_t* context, const ChartDefinition& chart, const std::string& label) {
  return std::any_of(chart.texts.begin(), chart.texts.end(), [&](const PrintedText& text) {
    if (text.kind != PrintedTextKind::fields) return false;
    const Field field = fields_in(text.place).first;
    const Layout written = value_of(context, field, caption_of(context, field), label);
    return pango_layout_is_ellipsized(written.get()) != FALSE;
  });
}

void draw_sheet_words(cairo_t* context, const ChartDefinition& chart, const std::string& label,
                      const std::string& print_date) {
  std::vector<Paragraphs> blocks;
  for (const PrintedText& text : chart.texts) switch (text.kind) {
      case PrintedTextKind::ruler:
        draw_ruler(context, text.place);
        break;
      case PrintedTextKind::fields:
        draw_fields(context, text.place, label, print_date);
        break;
      case PrintedTextKind::instructions:
        blocks.push_back({text.place, chart.name, instructions_for(chart)});
        break;
      case PrintedTextKind::cautions:
        blocks.push_back({text.place,
                          "",
                          {"Colour never tells that a mushroom is safe to eat.",
                           "Reagents: read the label; keep the sheet clean."}});
        break;
    }
  draw_paragraphs(context, blocks);
}

}  // namespace colorlib
