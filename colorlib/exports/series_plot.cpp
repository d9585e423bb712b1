#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/plot_axes_internal.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <colorlib/exports/series_plot_internal.hpp>
#include <functional>

namespace colorlib {
namespace {

constexpr double page_width = series_plot_width_pt, page_height = series_plot_height_pt, left = 58,
                 right = 44;
constexpr double small_pt = 8.5, text_pt = 9.5, title_pt = 13;
constexpr Ink axis_ink{0.35, 0.35, 0.35}, grid_ink{0.88, 0.88, 0.88}, dark_ink{0.15, 0.15, 0.15};
/// Told apart by people who see colours differently; none is the colour of anything measured.
constexpr Ink l_ink{0.25, 0.25, 0.25}, a_ink{0.84, 0.37, 0.0}, b_ink{0.0, 0.45, 0.70};
constexpr double bar_factor = 1.96;

struct Panel {
  double top, height, low, high;
  double place(double value) const { return top + height * (1 - (value - low) / (high - low)); }
};

Ink ink_of(const Lab& lab) {
  const ScreenColor color = screen_color_from_lab(lab);
  return {color.red / 255.0, color.green / 255.0, color.blue / 255.0};
}

/// Standard deviation of dE00 between the untreated colour and a point, to first order.
double change_sd(const Lab& before, const ColorState& state) {
  const double step = 0.3, base = difference_ciede2000(before, state.lab);
  Vector3 slope;
  const Vector3 at = vector_from(state.lab);
  for (std::size_t k = 0; k < 3; ++k) {
    Vector3 moved = at;
    moved[k] += step;
    slope[k] = (difference_ciede2000(before, lab_from(moved)) - base) / step;
  }
  const Vector3 spread = state.covariance * slope;
  return std::sqrt(std::max(0.0, slope[0] * spread[0] + slope[1] * spread[1] + slope[2] * spread[2]));
}

class Drawing {
 public:
  Drawing(const SeriesPlot& plot, VectorCanvas& canvas)
      : plot_(plot),
        kinetics_(*plot.kinetics),
        canvas_(canvas),
        axis_(all_times(plot), left, page_width - left - right),
        before_(kinetics_.phases.empty() ? kinetics_.path.front().lab : kinetics_.phases.front().color.lab) {}

  void run() {
    double y = 14;
    y += canvas_.text(plot_.title, left, y, title_pt, TextAlign::left, page_width - left - 12) + 3;
    if (!plot_.sentence.empty())
      y += canvas_.text(plot_.sentence, left, y, text_pt, TextAlign::left, page_width - left - 16,
                        {0.25, 0.25, 0.25}) +
           3;
    const double room = page_height - y - 60 - 14;
    const double upper = 0.5 * room, lower = 0.5 * room;
    draw_change({y + 14, upper - 14, 0, top_change()});
    draw_strip(y + upper + 6, 22);
    draw_coordinates(lower_panel(y + upper + 50, lower - 14));
    canvas_.text(axis_.square_rooted() ? "time (square-root axis)" : "time", left + 0.5 * span(),
                 page_height - 18, small_pt, TextAlign::centre);
  }

 private:
  static std::vector<double> all_times(const SeriesPlot& plot) {
    std::vector<double> times = plot.kinetics->seconds;
    times.insert(times.end(), plot.seconds.begin(), plot.seconds.end());
    return times;
  }
  double span() const { return page_width - left - right; }
  bool is_bad(std::size_t i) const {
    return std::find(kinetics_.bad_frames.begin(), kinetics_.bad_frames.end(), i) !=
           kinetics_.bad_frames.end();
  }

  double top_change() const {
    double top = 2;
    for (const ColorState& state : kinetics_.path)
      top = std::max(top, difference_ciede2000(before_, state.lab) + bar_factor * change_sd(before_, state));
    return 1.08 * top;
  }

  Panel lower_panel(double top, double height) const {
    double low = 1e9, high = -1e9;
    for (const ColorState& state : kinetics_.path)
      for (const double v : vector_from(state.lab)) low = std::min(low, v), high = std::max(high, v);
    const double margin = std::max(2.0, 0.06 * (high - low));
    return {top, height, low - margin, high + margin};
  }

  void draw_frame(const Panel& panel, const std::string& label, bool times) {
    for (const double tick : round_ticks(panel.low, panel.high, 5)) {
      const double y = panel.place(tick);
      canvas_.line({{left, y}, {left + span(), y}}, grid_ink, 0.6);
      canvas_.text(tick_text(tick), left - 5, y - 0.62 * small_pt, small_pt, TextAlign::right);
    }
    for (const double tick : axis_.ticks(36)) {
      const double x = axis_.place(tick);
      canvas_.line({{x, panel.top}, {x, panel.top + panel.height}}, grid_ink, 0.6);
      if (times) canvas_.text(time_text(tick), x, panel.top + panel.height + 3, small_pt, TextAlign::centre);
    }
    canvas_.frame(left, panel.top, span(), panel.height, axis_ink, 0.8);
    canvas_.text(label, left, panel.top - 13, small_pt);
  }

  void mark_time(const TimeEstimate& estimate, double offset, const Panel& panel, const std::string& word,
                 int row) {
    if (!estimate.value_s) return;
    const double x = axis_.place(std::clamp(*estimate.value_s + offset, axis_.first(), axis_.last()));
    if (estimate.low_s && estimate.high_s) {
      const double from = axis_.place(std::clamp(*estimate.low_s + offset, axis_.first(), axis_.last())),
                   to = axis_.place(std::clamp(*estimate.high_s + offset, axis_.first(), axis_.last()));
      canvas_.fill(from, panel.top, std::max(0.8, to - from), panel.height, {0.55, 0.55, 0.6, 0.22});
    }
    canvas_.line({{x, panel.top}, {x, panel.top + panel.height}}, dark_ink, 0.9, true);
    // Before its line and high up, where no curve comes by; other lines are covered.
    const double wide = canvas_.text_width(word, small_pt), y = panel.top + 3 + 11 * row;
    const bool fits = x - 4 - wide > left;
    canvas_.fill(fits ? x - 4 - wide : x + 2, y, wide + 2, 11, {1, 1, 1, 0.8});
    canvas_.text(word, fits ? x - 3 : x + 3, y, small_pt, fits ? TextAlign::right : TextAlign::left);
  }

  void draw_change(const Panel& panel) {
    draw_frame(panel, "change ΔE00 against the untreated colour, less what the controls did; bars 95 %",
               false);
    if (plot_.zero_is_application && axis_.first() < 0 && axis_.last() > 0)
      canvas_.line({{axis_.place(0), panel.top}, {axis_.place(0), panel.top + panel.height}}, axis_ink, 1.2);
    if (is_reaction(kinetics_)) {
      mark_time(kinetics_.onset, 0, panel, "onset", 0);
      mark_time(kinetics_.half_time, kinetics_.onset.value_s.value_or(0), panel, "half", 1);
    }
    curve(panel, dark_ink, [&](const Lab& lab) { return difference_ciede2000(before_, lab); });
    for (std::size_t i = 0; i < kinetics_.path.size(); ++i) {
      const double x = axis_.place(kinetics_.seconds[i]);
      const double value = difference_ciede2000(before_, kinetics_.path[i].lab);
      point(panel, x, value, bar_factor * change_sd(before_, kinetics_.path[i]), dark_ink, is_bad(i));
    }
  }

  void draw_coordinates(const Panel& panel) {
    draw_frame(panel, "L*, a*, b* (D50, 2°), less what the controls did; bars 95 %", true);
    const std::function<double(const Lab&)> parts[] = {[](const Lab& lab) { return lab.l; },
                                                       [](const Lab& lab) { return lab.a; },
                                                       [](const Lab& lab) { return lab.b; }};
    const Ink inks[] = {l_ink, a_ink, b_ink};
    const char* names[] = {"L*", "a*", "b*"};
    double ends[3];
    for (int k = 0; k < 3; ++k) {
      curve(panel, inks[k], parts[k]);
      for (std::size_t i = 0; i < kinetics_.path.size(); ++i) {
        const double sd = std::sqrt(std::max(0.0, kinetics_.path[i].covariance(k, k)));
        point(panel, axis_.place(kinetics_.seconds[i]), parts[k](kinetics_.path[i].lab), bar_factor * sd,
              inks[k], is_bad(i));
      }
      ends[k] = panel.place(parts[k](kinetics_.path.back().lab));
    }
    // Names at the right end, pushed apart where the curves end together.
    int order[] = {0, 1, 2};
    std::sort(order, order + 3, [&](int a, int b) { return ends[a] < ends[b]; });
    double above = -1e9;
    for (const int k : order) {
      const double y = std::max(ends[k] - 0.6 * text_pt, above + text_pt + 2);
      canvas_.text(names[k], left + span() + 6, y, text_pt, TextAlign::left, 0, inks[k]);
      above = y;
    }
  }

  void point(const Panel& panel, double x, double value, double half, const Ink& ink, bool bad) {
    const double y = panel.place(std::clamp(value, panel.low, panel.high));
    if (half > 0)
      canvas_.line({{x, panel.place(std::min(value + half, panel.high))},
                    {x, panel.place(std::max(value - half, panel.low))}},
                   ink, 0.9);
    canvas_.dot({x, y}, 2.1, ink, !bad);
  }

  void curve(const Panel& panel, const Ink& ink, const std::function<double(const Lab&)>& part) {
    const auto times = axis_.curve_times(400);
    const auto fitted = fitted_path(kinetics_, times);
    if (fitted.size() != times.size()) return;
    std::vector<PointPx> points;
    for (std::size_t i = 0; i < times.size(); ++i)
      points.push_back(
          {axis_.place(times[i]), panel.place(std::clamp(part(fitted[i]), panel.low, panel.high))});
    canvas_.line(points, ink, 1.1);
  }

  /// Each frame's colour from halfway to the frame before to halfway to the next.
  void draw_strip(double top, double height) {
    for (std::size_t i = 0; i < plot_.seen.size(); ++i) {
      const double here = axis_.place(plot_.seconds[i]);
      const double from = i == 0 ? left : 0.5 * (here + axis_.place(plot_.seconds[i - 1]));
      const double to =
          i + 1 == plot_.seen.size() ? left + span() : 0.5 * (here + axis_.place(plot_.seconds[i + 1]));
      canvas_.fill(from, top, to - from + 0.3, height, ink_of(plot_.seen[i]));
    }
    canvas_.frame(left, top, span(), height, axis_ink, 0.8);
    canvas_.text("as seen", left - 5, top + 0.5 * height - 0.62 * small_pt, small_pt, TextAlign::right);
  }

  const SeriesPlot& plot_;
  const Kinetics& kinetics_;
  VectorCanvas& canvas_;
  TimeAxis axis_;
  Lab before_;
};

}  // namespace

std::string spot_title(const SpotRecord& spot, const SeriesRecord& series) {
  const Protocol& p = series.protocol;
  std::string what = p.reagent;
  if (!what.empty() && !p.strength.empty()) what += " " + p.strength;
  if (!p.tissue.empty()) what += (what.empty() ? "" : " on ") + p.tissue;
  const FrameRecord* frame = series.representative();
  const std::string item = frame != nullptr ? frame->record.subject.item : std::string();
  return fmt::format("{}{} {}{}", item.empty() ? "" : item + ", ", region_kind_name(spot.kind), spot.id,
                     what.empty() ? "" : ": " + what);
}

SeriesPlot series_plot_of(const SpotRecord& spot, const SeriesRecord& series) {
  SeriesPlot plot;
  plot.title = spot_title(spot, series);
  plot.sentence = spot.sentence;
  plot.kinetics = &spot.kinetics;
  plot.zero_is_application = zero_is_stated(series.zero);
  for (const std::size_t i : spot.frames)
    if (const Reading* reading = reading_of(series.frames[i], spot.id)) {
      plot.seconds.push_back(series.frames[i].seconds);
      plot.seen.push_back(reading->lab);
    }
  return plot;
}

Result<std::monostate> draw_series_plot_on(VectorCanvas& canvas, const SeriesPlot& plot) {
  if (plot.kinetics == nullptr || plot.kinetics->path.empty() || plot.seen.size() != plot.seconds.size())
    return fail(ErrorCode::bad_call, "Drawing the course of a reaction: there is no frame to draw.",
                "Give a series whose spot could be read.");
  Drawing(plot, canvas).run();
  return std::monostate{};
}

Result<std::string> draw_series_plot(const SeriesPlot& plot, PictureFormat format) {
  VectorCanvas canvas(series_plot_width_pt, series_plot_height_pt, format);
  if (const auto drawn = draw_series_plot_on(canvas, plot); !drawn) return fail(drawn.error());
  return canvas.finish();
}

}  // namespace colorlib
