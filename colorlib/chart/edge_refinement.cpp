#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/chart/edge_refinement.hpp>
#include <vector>

namespace colorlib {
namespace {

constexpr double longest_reach_px = 80;  // a crop of at most about 250 x 250 px
constexpr double step_px = 0.5;          // of the profile
constexpr double least_contrast_in_noise = 6;
constexpr double least_contrast = 0.004;  // linear light, white = 1: one step of 8-bit files at mid grey
constexpr double slope_share = 0.25;      // of a spread, to either side: the slope is then 1 % too flat
constexpr double plateau_share = 0.25;    // of a window, half of it at each end
constexpr double gaussian_rise = 2.563;   // from a tenth to nine tenths, in standard deviations
constexpr double sqrt_two_pi = 2.5066282746310002;

using Rgb = std::array<double, 3>;

/// Mean colour at each step along the normal; empty when part of it lies outside the photo.
std::vector<Rgb> profile_across(const Photo& photo, const EdgeSearch& search, int steps) {
  const double reach = (steps / 2) * step_px;
  const PointPx n = search.normal, t{-n.y, n.x};
  const double half_width = reach * std::fabs(n.x) + search.half_length_px * std::fabs(t.x);
  const double half_height = reach * std::fabs(n.y) + search.half_length_px * std::fabs(t.y);
  const double left_px = search.at.x - half_width, top_px = search.at.y - half_height;
  if (!(left_px >= 0 && top_px >= 0 && search.at.x + half_width <= photo.width_px() - 1 &&
        search.at.y + half_height <= photo.height_px() - 1))
    return {};
  const int left = static_cast<int>(left_px), top = static_cast<int>(top_px);
  const int right = std::min(photo.width_px() - 1, static_cast<int>(search.at.x + half_width) + 1);
  const int bottom = std::min(photo.height_px() - 1, static_cast<int>(search.at.y + half_height) + 1);
  const ImageF crop = photo.linear({left, top, right - left + 1, bottom - top + 1});
  if (crop.rows < 2 || crop.columns < 2 || crop.channels != 3) return {};

  const int lines = std::max(1, static_cast<int>(std::floor(2 * search.half_length_px)) + 1);
  std::vector<Rgb> profile(static_cast<std::size_t>(steps));
  for (int i = 0; i < steps; ++i) {
    const double s = (i - steps / 2) * step_px;
    Rgb sum{};
    for (int line = 0; line < lines; ++line) {
      const double along = line - 0.5 * (lines - 1);
      const double x = search.at.x + s * n.x + along * t.x - left,
                   y = search.at.y + s * n.y + along * t.y - top;
      const int column = std::clamp(static_cast<int>(x), 0, crop.columns - 2);
      const int row = std::clamp(static_cast<int>(y), 0, crop.rows - 2);
      const float fx = static_cast<float>(x - column), fy = static_cast<float>(y - row);
      const float *a = crop.at(row, column), *b = crop.at(row + 1, column);
      for (std::size_t k = 0; k < 3; ++k) {
        const float upper = a[k] + fx * (a[k + 3] - a[k]), lower = b[k] + fx * (b[k + 3] - b[k]);
        sum[k] += upper + fy * (lower - upper);
      }
    }
    for (std::size_t k = 0; k < 3; ++k) profile[static_cast<std::size_t>(i)][k] = sum[k] / lines;
  }
  return profile;
}

double mean_of(const std::vector<double>& values, int first, int last) {
  double sum = 0;
  for (int i = first; i < last; ++i) sum += values[static_cast<std::size_t>(i)];
  return sum / (last - first);
}

struct Level {
  double mean = 0, sd = 0;
};

/// The profile between `centre - width` and `centre + width` (px from the profile's middle sample `half`).
struct Window {
  Level inside, outside;  // of its outer parts
  double mean = 0;        // of all of it
};

Window window_about(const std::vector<double>& profile, int half, double centre, double width) {
  constexpr int samples = 33;
  constexpr int plateau = static_cast<int>(samples * plateau_share / 2);
  std::array<double, samples> values;
  for (int i = 0; i < samples; ++i) {
    const double at = half + (centre + width * (2.0 * i / (samples - 1) - 1)) / step_px;
    const int k = std::clamp(static_cast<int>(at), 0, static_cast<int>(profile.size()) - 2);
    const double share = at - k;
    values[static_cast<std::size_t>(i)] =
        (1 - share) * profile[static_cast<std::size_t>(k)] + share * profile[static_cast<std::size_t>(k) + 1];
  }
  Window window;
  const auto level = [&](int first) {
    Level l;
    for (int i = first; i < first + plateau; ++i) l.mean += values[static_cast<std::size_t>(i)] / plateau;
    for (int i = first; i < first + plateau; ++i) {
      const double d = values[static_cast<std::size_t>(i)] - l.mean;
      l.sd += d * d / (plateau - 1);
    }
    l.sd = std::sqrt(l.sd);
    return l;
  };
  window.inside = level(0);
  window.outside = level(samples - plateau);
  for (int i = 0; i < samples; ++i)  // trapezoids
    window.mean +=
        (i == 0 || i == samples - 1 ? 0.5 : 1.0) * values[static_cast<std::size_t>(i)] / (samples - 1);
  return window;
}

/// One grey profile: the channels mixed by their contrast between the two ends, and by how well photos carry
/// them (green best; blue is noisiest and, in JPEG, least sharp).
std::vector<double> mixed(const std::vector<Rgb>& profile, int end) {
  static constexpr Rgb trust = {0.3, 0.55, 0.15};
  Rgb mix{};
  const int steps = static_cast<int>(profile.size());
  double norm = 0;
  for (std::size_t k = 0; k < 3; ++k) {
    double inside = 0, outside = 0;
    for (int i = 0; i < end; ++i) {
      inside += profile[static_cast<std::size_t>(i)][k];
      outside += profile[static_cast<std::size_t>(steps - 1 - i)][k];
    }
    mix[k] = trust[k] * (outside - inside) / end;
    norm += std::fabs(mix[k]);
  }
  std::vector<double> grey(profile.size(), 0.0);
  if (norm <= 0) return grey;
  // Normalised so that equal channels keep their value; the sign keeps "brighter outside" positive.
  for (std::size_t i = 0; i < profile.size(); ++i)
    for (std::size_t k = 0; k < 3; ++k) grey[i] += mix[k] / norm * profile[i][k];
  return grey;
}

/// Sign of the luminance step.
int brightness_sign(const std::vector<Rgb>& profile, int end) {
  const auto luminance = [](const Rgb& c) { return 0.25 * c[0] + 0.6 * c[1] + 0.15 * c[2]; };
  double step = 0;
  for (int i = 0; i < end; ++i)
    step += luminance(profile[profile.size() - 1 - static_cast<std::size_t>(i)]) -
            luminance(profile[static_cast<std::size_t>(i)]);
  return step > 0 ? 1 : -1;
}

/// Steps from where the rising profile passes a tenth of the way between its ends to where it passes nine
/// tenths, on either side of `steepest`.
double rise_in_steps(const std::vector<double>& profile, int steepest, int end) {
  const int last = static_cast<int>(profile.size()) - 1;
  const double inside = mean_of(profile, 0, end), outside = mean_of(profile, last + 1 - end, last + 1);
  const auto way = [&](int i) {
    return (profile[static_cast<std::size_t>(i)] - inside) / (outside - inside);
  };
  int low = steepest, high = steepest;
  while (low > 0 && way(low) > 0.1) --low;
  while (high < last && way(high) < 0.9) ++high;
  const auto between = [&](int i, double share) {
    const double rise = way(i + 1) - way(i);
    return i + (rise > 0 ? std::clamp((share - way(i)) / rise, 0.0, 1.0) : 0.5);
  };
  return between(std::max(0, high - 1), 0.9) - between(std::min(low, last - 1), 0.1);
}

}  // namespace

std::optional<EdgeFound> locate_edge(const Photo& photo, const EdgeSearch& search) {
  const double reach = std::min(search.reach_px, longest_reach_px);
  if (!(reach >= 2)) return std::nullopt;
  const int half = static_cast<int>(reach / step_px);
  const int steps = 2 * half + 1;
  const std::vector<Rgb> profile = profile_across(photo, search, steps);
  if (profile.empty()) return std::nullopt;

  // Which way the step runs, from the outer quarters.
  const int end = std::max(2, half / 4);
  if (search.brighter_outside != 0 && brightness_sign(profile, end) != search.brighter_outside)
    return std::nullopt;
  const std::vector<double> grey = mixed(profile, end);
  const double rough_contrast = mean_of(grey, steps - end, steps) - mean_of(grey, 0, end);
  if (!(rough_contrast > least_contrast)) return std::nullopt;

  // Steepest place (over a pixel or, against noise, a part of a wide spread), then the crossing of half
  // height next to it.
  const auto at = [&](int i) { return grey[static_cast<std::size_t>(i)]; };
  const int aside = std::clamp(static_cast<int>(slope_share * search.spread_px / step_px), 1, half / 4 + 1);
  int steepest = aside;
  double slope = 0;
  for (int i = aside; i + aside < steps; ++i)
    if (at(i + aside) - at(i - aside) > slope) {
      slope = at(i + aside) - at(i - aside);
      steepest = i;
    }
  slope /= 2 * aside * step_px;
  if (!(slope > 0)) return std::nullopt;
  const double spread = rough_contrast / (slope * sqrt_two_pi);

  // A window of about three spreads about the step, its outer parts plateaus; narrower where other borders
  // are near. A window that is centred on the step stays balanced even when it cuts the blur's tails off, so
  // it is moved until it is.
  const double room = search.clear_px - 1.5 * spread;
  double width = std::min(3.2 * spread + 1.5, room);
  double centre = (steepest - half) * step_px;
  double contrast = 0, noise = 0;
  for (int round = 0; round < 6; ++round) {
    width = std::min({width, reach - step_px - centre, reach - step_px + centre});
    if (!(width >= 1.5 && width > 1.3 * spread)) return std::nullopt;
    const Window w = window_about(grey, half, centre, width);
    contrast = w.outside.mean - w.inside.mean;
    noise = std::sqrt(0.5 * (w.inside.sd * w.inside.sd + w.outside.sd * w.outside.sd));
    if (!(contrast > least_contrast && contrast > least_contrast_in_noise * noise)) return std::nullopt;
    // Most of the step between the far ends must happen here: else there are two borders.
    if (contrast < 0.6 * rough_contrast || contrast > 1.6 * rough_contrast) return std::nullopt;
    const double shift = width - width * 2 * (w.mean - w.inside.mean) / contrast;
    if (!(std::fabs(shift) < 0.5 * width)) return std::nullopt;
    centre += shift;
    if (std::fabs(shift) < 0.005) break;
  }

  EdgeFound found;
  found.offset_px = centre;
  found.contrast = contrast;
  found.spread_px = contrast / (slope * sqrt_two_pi);
  found.wide_spread_px = rise_in_steps(grey, steepest, end) * step_px / gaussian_rise;
  // Neighbouring half-pixel steps share their noise, so about one independent value a pixel; the plateaus'
  // means add theirs.
  const double independent = std::max(1.0, 2 * width);
  found.sd_px =
      noise / contrast * std::sqrt(independent + independent * independent / (2 * plateau_share * width) / 2);
  return found;
}

}  // namespace colorlib
