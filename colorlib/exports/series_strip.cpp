#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/exports/plot_axes_internal.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <colorlib/exports/series_strip.hpp>
#include <colorlib/exports/vector_canvas_internal.hpp>

namespace colorlib {
namespace {

constexpr double picture_pt = 150, gap_pt = 8, margin_pt = 14, text_pt = 9, title_pt = 12;

Image8 screen_picture(const RectifiedWindow& window) {
  Image8 picture(window.lab.rows, window.lab.columns, 3);
  for (int r = 0; r < picture.rows; ++r)
    for (int c = 0; c < picture.columns; ++c) {
      const float* lab = window.lab.at(r, c);
      if (!std::isfinite(lab[0])) continue;
      const ScreenColor color = screen_color_from_lab({lab[0], lab[1], lab[2]});
      std::uint8_t* out = picture.at(r, c);
      out[0] = color.red, out[1] = color.green, out[2] = color.blue;
    }
  return picture;
}

std::size_t nearest(const std::vector<double>& seconds, double wanted) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < seconds.size(); ++i)
    if (std::abs(seconds[i] - wanted) < std::abs(seconds[best] - wanted)) best = i;
  return best;
}

}  // namespace

std::vector<StripStage> strip_stages(const Kinetics& kinetics) {
  std::vector<StripStage> stages;
  const auto& seconds = kinetics.seconds;
  if (seconds.empty()) return stages;
  const std::size_t last = seconds.size() - 1;
  if (!is_reaction(kinetics) || kinetics.phases.empty()) {
    stages.push_back({0, "first"});
    if (last > 0) stages.push_back({last, "last"});
    return stages;
  }
  const double onset = kinetics.onset.value_s.value_or(seconds.front());
  std::size_t before = 0;
  while (before + 1 < seconds.size() && seconds[before + 1] <= onset) ++before;
  stages.push_back({before, "before the change"});
  const Lab untreated = kinetics.phases.front().color.lab;
  for (std::size_t i = before + 1; i < seconds.size(); ++i)
    if (difference_ciede2000(untreated, kinetics.path[i].lab) > std::max(kinetics.threshold_de00, 1.0)) {
      stages.push_back({i, "first change"});
      break;
    }
  if (kinetics.half_time.value_s)
    stages.push_back({nearest(seconds, onset + *kinetics.half_time.value_s), "half"});
  const bool goes_on = kinetics.model == KineticModel::consecutive || kinetics.model == KineticModel::fading;
  for (const ReactionPhase& phase : kinetics.phases)
    if (phase.kind == PhaseKind::peak || phase.kind == PhaseKind::plateau)
      stages.push_back({nearest(seconds, phase.seconds), phase.kind == PhaseKind::peak ? "peak" : "plateau"});
  if (goes_on || stages.size() < 4)
    stages.push_back({last, kinetics.model == KineticModel::fading ? "faded" : "last"});
  std::stable_sort(stages.begin(), stages.end(),
                   [](const auto& a, const auto& b) { return a.frame < b.frame; });
  stages.erase(std::unique(stages.begin(), stages.end(),
                           [](const auto& a, const auto& b) { return a.frame == b.frame; }),
               stages.end());
  return stages;
}

Result<std::string> draw_series_strip(const std::string& title, const std::vector<StripPicture>& pictures) {
  if (pictures.empty())
    return fail(ErrorCode::bad_call, "Drawing the stages of a reaction: there is no frame to draw.",
                "Give a series whose spot could be read.");
  double widest = 0, highest = 0;
  for (const StripPicture& picture : pictures) {
    widest = std::max(widest, picture.window.place.width);
    highest = std::max(highest, picture.window.place.height);
  }
  const double scale = picture_pt / std::max({widest, highest, 1.0});  // pt per mm
  const double count = static_cast<double>(pictures.size());
  const double height = highest * scale;
  VectorCanvas canvas(2 * margin_pt + count * widest * scale + (count - 1) * gap_pt,
                      height + 2 * margin_pt + 66, PictureFormat::png);
  double top = margin_pt;
  top += canvas.text(title, margin_pt, top, title_pt, TextAlign::left, canvas.width() - 2 * margin_pt) + 6;
  double x = margin_pt;
  for (const StripPicture& picture : pictures) {
    const double wide = picture.window.place.width * scale, high = picture.window.place.height * scale;
    canvas.picture(screen_picture(picture.window), x, top, wide, high);
    canvas.frame(x, top, wide, high, {0.4, 0.4, 0.4}, 0.6);
    canvas.text(fmt::format("{}, {}", picture.name, time_text(std::round(picture.seconds * 10) / 10)), x,
                top + height + 4, text_pt);
    const auto whole = [](double v) { return std::round(v) + 0.0; };  // no "-0"
    canvas.text(fmt::format("L* {:.0f}  a* {:.0f}  b* {:.0f}   ΔE00 {:.1f}", whole(picture.lab.l),
                            whole(picture.lab.a), whole(picture.lab.b), picture.change_de00),
                x, top + height + 16, text_pt - 1.5, TextAlign::left, 0, {0.35, 0.35, 0.35});
    x += widest * scale + gap_pt;
  }
  // The bar: 5 mm, or what is a round fifth of the width.
  const double bar_mm = widest > 60 ? 20 : widest > 25 ? 10 : widest > 12 ? 5 : 2;
  const double bar_y = top + height + 36;
  canvas.line({{margin_pt, bar_y}, {margin_pt + bar_mm * scale, bar_y}}, {0.1, 0.1, 0.1}, 1.6);
  for (const double end : {margin_pt, margin_pt + bar_mm * scale})
    canvas.line({{end, bar_y - 3}, {end, bar_y + 3}}, {0.1, 0.1, 0.1}, 1.2);
  const double after_bar = margin_pt + bar_mm * scale + 6;
  canvas.text(fmt::format("{:.0f} mm", bar_mm), after_bar, bar_y - 6, text_pt);
  canvas.text("L*, a*, b* as seen; ΔE00: change since before, less what the controls did", after_bar + 46,
              bar_y - 5, text_pt - 1.5, TextAlign::left, canvas.width() - margin_pt - after_bar - 46,
              {0.35, 0.35, 0.35});
  return canvas.finish();
}

}  // namespace colorlib
