#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/exports/plot_axes_internal.hpp>

namespace colorlib {

std::vector<double> round_ticks(double low, double high, int wanted) {
  std::vector<double> ticks;
  const double span = high - low;
  if (!(span > 0)) return ticks;
  const double raw = span / std::max(wanted, 1), power = std::pow(10.0, std::floor(std::log10(raw)));
  const double rest = raw / power;
  const double step = power * (rest < 1.5 ? 1 : rest < 3.5 ? 2 : rest < 7.5 ? 5 : 10);
  const double first = std::ceil(low / step - 1e-9) * step;
  // Counted: far from zero a step may be too small to move a number.
  for (int i = 0; i < 4 * std::max(wanted, 1); ++i)
    if (const double tick = first + i * step; tick <= high + 1e-9 * span)
      ticks.push_back(std::abs(tick) < 1e-9 * span ? 0 : tick);
  return ticks;
}

std::string tick_text(double value) { return fmt::format("{:.6g}", value); }

std::string time_text(double seconds) {
  const double size = std::abs(seconds);
  if (size >= 7200 && std::fmod(size, 3600) == 0) return fmt::format("{:.6g} h", seconds / 3600);
  if (size >= 120 && std::fmod(size, 60) == 0) return fmt::format("{:.6g} min", seconds / 60);
  return fmt::format("{:.6g} s", seconds);
}

TimeAxis::TimeAxis(const std::vector<double>& seconds, double left, double width)
    : left_(left), width_(width) {
  if (seconds.empty()) return;
  std::vector<double> sorted = seconds;
  std::sort(sorted.begin(), sorted.end());
  first_ = sorted.front(), last_ = sorted.back();
  if (!(last_ > first_)) last_ = first_ + 1;
  // Most frames in the first fifth of the time: an even axis would crowd them.
  const double middle = sorted[sorted.size() / 2];
  square_rooted_ = sorted.size() > 3 && middle - first_ < 0.2 * (last_ - first_);
}

double TimeAxis::scaled(double seconds) const {
  if (!square_rooted_) return seconds;
  return seconds < 0 ? -std::sqrt(-seconds) : std::sqrt(seconds);
}

double TimeAxis::unscaled(double value) const {
  if (!square_rooted_) return value;
  return value < 0 ? -value * value : value * value;
}

double TimeAxis::place(double seconds) const {
  const double low = scaled(first_), high = scaled(last_), inset = 0.02;
  return left_ + width_ * (inset + (1 - 2 * inset) * (scaled(seconds) - low) / (high - low));
}

std::vector<double> TimeAxis::ticks(double label_width) const {
  if (!square_rooted_)
    return round_ticks(first_, last_, std::max(2, static_cast<int>(width_ / (1.6 * label_width))));
  std::vector<double> kept;
  double free_from = -1e9;
  for (const double tick :
       {-600., -300., -120., -60., -30., -10.,  -5.,   0.,    1.,    2.,     5.,     10.,   20.,
        30.,   60.,   120.,  300., 600., 1200., 1800., 3600., 7200., 14400., 43200., 86400.}) {
    if (tick < first_ || tick > last_) continue;
    const double at = place(tick);
    if (at - 0.6 * label_width < free_from && tick != 0) continue;
    while (tick == 0 && !kept.empty() && at - 0.6 * label_width < free_from) {  // zero always stands
      kept.pop_back();
      free_from = kept.empty() ? -1e9 : place(kept.back()) + 0.6 * label_width;
    }
    kept.push_back(tick);
    free_from = at + 0.6 * label_width;
  }
  return kept;
}

std::vector<double> TimeAxis::curve_times(int count) const {
  std::vector<double> times;
  const double low = scaled(first_), high = scaled(last_);
  for (int i = 0; i <= count; ++i) times.push_back(unscaled(low + (high - low) * i / count));
  return times;
}

}  // namespace colorlib
