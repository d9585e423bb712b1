#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/cautions.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/report_page_internal.hpp>
#include <colorlib/exports/round_page.hpp>

namespace colorlib {
namespace {

constexpr double left = ReportPages::margin_mm, text_width = ReportPages::text_width_mm;
constexpr double plot_side = 76, strip_left = left + plot_side + 22,
                 strip_width = text_width - plot_side - 22;
constexpr double fine = 0.15, bar = 0.5, mark_side = 1.8;
constexpr double pale = 0.82, middle = 0.55, dark = 0.15;
const TextStyle small{2.6, false, 0.25}, label{2.9, true, 0.1}, plain{3.2, false, 0.1},
    name_style{2.8, false, 0.1}, head{3.6, true, 0.1};

/// Lab units that half of the plot's side stands for: a round number that holds every mark and bar.
double half_range(const std::vector<RoundPageBias>& biases) {
  double most = 0.5;
  for (const auto& bias : biases)
    for (std::size_t k = 0; k < 3; ++k) {
      const double reach = std::abs(bias.bias[k]) + bias.half_width[k];
      if (std::isfinite(reach)) most = std::max(most, reach);
    }
  const double decade = std::pow(10, std::floor(std::log10(most)));
  for (const double step : {1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0})
    if (most * 1.08 <= step * decade) return step * decade;
  return 10 * decade;
}

/// The distance of grid lines, so that there are two to five to each side.
double grid_step(double range) {
  const double decade = std::pow(10, std::floor(std::log10(range)));
  const double lead = range / decade;
  if (lead <= 1.001) return 0.5 * decade;
  return lead <= 5.001 ? decade : 2 * decade;
}

/// A square of Lab differences: where a value lies on the page.
struct Plot {
  double x, y, side, range;
  double across(double value) const { return x + side / 2 + std::clamp(value / range, -1.0, 1.0) * side / 2; }
  double up(double value) const { return y + side / 2 - std::clamp(value / range, -1.0, 1.0) * side / 2; }
};

void frame(ReportPages& pages, double x, double y, double w, double h) {
  pages.line(x, y, x + w, y, fine, middle);
  pages.line(x, y + h, x + w, y + h, fine, middle);
  pages.line(x, y, x, y + h, fine, middle);
  pages.line(x + w, y, x + w, y + h, fine, middle);
}

/// Names and remarks come from files: bounded, and well-formed UTF-8, which a PDF insists on.
std::string fit(const std::string& text, std::size_t most = 300) { return quotable(text, most); }

void mark(ReportPages& pages, double x, double y, bool judged) {
  pages.box(x - mark_side / 2, y - mark_side / 2, mark_side, mark_side, dark);
  if (!judged)
    pages.box(x - mark_side / 2 + 0.35, y - mark_side / 2 + 0.35, mark_side - 0.7, mark_side - 0.7, 1);
}

void draw_grid(ReportPages& pages, const Plot& plot) {
  const double step = grid_step(plot.range);
  const int lines = static_cast<int>(std::floor(plot.range / step + 1e-9));
  for (int i = -lines; i <= lines; ++i) {
    const double value = i * step;
    pages.line(plot.across(value), plot.y, plot.across(value), plot.y + plot.side, i == 0 ? 2 * fine : fine,
               i == 0 ? middle : pale);
    pages.line(plot.x, plot.up(value), plot.x + plot.side, plot.up(value), i == 0 ? 2 * fine : fine,
               i == 0 ? middle : pale);
    pages.line(strip_left, plot.up(value), strip_left + strip_width, plot.up(value), i == 0 ? 2 * fine : fine,
               i == 0 ? middle : pale);
    const std::string number = i == 0 ? std::string("0") : fmt::format("{:+g}", value);
    pages.text(number, plot.across(value) - 3, plot.y + plot.side + 1, 12, small);
    pages.text(number, strip_left - 9, plot.up(value) - 1.6, 12, small);
  }
  frame(pages, plot.x, plot.y, plot.side, plot.side);
  frame(pages, strip_left, plot.y, strip_width, plot.side);
}

/// The picture of all biases; the height that it takes.
double draw_biases(ReportPages& pages, const RoundPage& page, double y) {
  const Plot plot{left, y + 6, plot_side, half_range(page.biases)};
  pages.text("a* and b*: yellower up, redder to the right", plot.x, y, plot_side, small);
  pages.text("L*: lighter up", strip_left, y, strip_width, small);
  draw_grid(pages, plot);
  const double column = strip_width / static_cast<double>(std::max<std::size_t>(1, page.biases.size()));
  for (std::size_t i = 0; i < page.biases.size(); ++i) {
    const auto& [name, words, beside, bias, half] = page.biases[i];
    const double x = plot.across(bias[1]), z = plot.up(bias[2]);
    const double strip_x = strip_left + column * (static_cast<double>(i) + 0.5);
    pages.line(plot.across(bias[1] - half[1]), z, plot.across(bias[1] + half[1]), z, bar, middle);
    pages.line(x, plot.up(bias[2] - half[2]), x, plot.up(bias[2] + half[2]), bar, middle);
    pages.line(strip_x, plot.up(bias[0] - half[0]), strip_x, plot.up(bias[0] + half[0]), bar, middle);
    mark(pages, x, z, half[1] > 0);
    mark(pages, strip_x, plot.up(bias[0]), half[0] > 0);
    pages.text(fit(name, 24), x + 1.4, z - 4.2, 40, label);
    pages.text(fit(name, 24), strip_x + 1.4, plot.up(bias[0]) - 4.2, 30, label);
  }
  return 6 + plot_side + 8;
}

double draw_bias_words(ReportPages& pages, const RoundPage& page, double y) {
  double height = 0;
  for (const auto& [name, words, beside, bias, half] : page.biases) {
    std::string figures;
    const char* axes[] = {"L*", "a*", "b*"};
    for (std::size_t k = 0; k < 3; ++k) {
      figures += fmt::format("   {} {:+.1f}", axes[k], bias[k]);
      if (half[k] > 0) figures += fmt::format(" ± {:.1f}", half[k]);
    }
    pages.text(fit(name, 24), left, y + height, 23, label);
    height += pages.text(figures + "   " + fit(words), left + 24, y + height, text_width - 24, plain) + 0.6;
    if (!beside.empty())
      height += pages.text(fit(beside, 600), left + 26, y + height, text_width - 26, small) + 1;
  }
  return height;
}

/// One item: the assigned colour, then each collector's.
double draw_item(ReportPages& pages, const RoundPageItem& item, double y) {
  constexpr double swatch_w = 19, swatch_h = 9, gap = 2.5, column = swatch_w + gap;
  double top = y +
               pages.text(fmt::format("{}   {}", fit(item.name, 120), fit(item.assigned_from, 120)), left, y,
                          text_width, name_style) +
               1;
  const auto columns = static_cast<std::size_t>((text_width + gap) / column);
  for (std::size_t i = 0; i <= item.means.size(); ++i) {
    const double x = left + column * static_cast<double>(i % columns);
    if (i > 0 && i % columns == 0) top += swatch_h + 11;
    if (i == 0) {
      pages.swatch(item.assigned, x, top, swatch_w, swatch_h);
      pages.text("assigned", x, top + swatch_h + 0.6, swatch_w, small);
      continue;
    }
    const RoundPageMean& mean = item.means[i - 1];
    pages.swatch(mean.lab, x, top, swatch_w, swatch_h);
    pages.text(fit(mean.collector, 24), x, top + swatch_h + 0.4, swatch_w, label);
    pages.text(fmt::format("ΔE00 {:.1f}\n{}", mean.de00, mean.verdict), x, top + swatch_h + 3.8, swatch_w,
               small);
  }
  return top + swatch_h + 11.5 - y;
}

}  // namespace

Result<std::string> round_page_pdf(const RoundPage& page) {
  ReportPages pages(fit(page.title));
  constexpr double bottom = ReportPages::height_mm - ReportPages::margin_mm;
  double y = ReportPages::margin_mm;
  const auto room_for = [&](double height) {
    if (y + height <= bottom) return;
    pages.next_page();
    y = ReportPages::margin_mm;
  };
  y += pages.text(fit(page.title, 120), left, y, text_width, {4.6, true, 0.1}) + 1;
  if (!page.remark.empty()) y += pages.text(fit(page.remark, 1000), left, y, text_width, plain) + 1;
  if (!page.biases.empty()) {
    y += 2 +
         pages.text(fmt::format("Bias of each collector, from {}; bars are 95 % intervals", page.bias_from),
                    left, y + 2, text_width, head) +
         2;
    y += draw_biases(pages, page, y);
    y += draw_bias_words(pages, page, y) + 3;
  }
  room_for(40);
  y += pages.text("What was read (CIELAB, D50, 2°; swatches as a screen shows them)", left, y, text_width,
                  head) +
       2;
  for (const RoundPageItem& item : page.items) {
    room_for(30);
    y += draw_item(pages, item, y);
  }
  std::string notes;
  for (const std::string& note : page.notes) notes += fit(note, 500) + "\n";
  notes += fmt::format("{}\n{}", caution_safety, caution_names);
  room_for(pages.text_height(notes, text_width, small) + 2);
  pages.text(notes, left, y + 2, text_width, small);
  return pages.finish();
}

}  // namespace colorlib
