#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/corrected_path_internal.hpp>

namespace colorlib {
namespace {

Vector3 plus(const Vector3& a, const Vector3& b, double times = 1) {
  return {a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]};
}

/// `control` with its gaps filled, frames left out among them; nothing when no other frame has a reading.
std::optional<std::vector<ColorState>> filled(const ControlPath& control, const std::vector<double>& seconds,
                                              const std::vector<bool>& left_out, std::size_t& gaps) {
  std::vector<std::size_t> known;
  for (std::size_t i = 0; i < control.frames.size(); ++i)
    if (control.frames[i] && !left_out[i]) known.push_back(i);
  if (known.empty()) return std::nullopt;
  std::vector<ColorState> path;
  for (std::size_t i = 0; i < seconds.size(); ++i) {
    if (control.frames[i] && !left_out[i]) {
      path.push_back(*control.frames[i]);
      continue;
    }
    gaps += !left_out[i];
    const auto after = std::lower_bound(known.begin(), known.end(), i);
    const std::size_t right = after == known.end() ? known.back() : *after;
    const std::size_t left = after == known.begin() ? known.front() : *std::prev(after);
    const double share = left == right ? 0 : (seconds[i] - seconds[left]) / (seconds[right] - seconds[left]);
    const Vector3 a = vector_from(control.frames[left]->lab), b = vector_from(control.frames[right]->lab);
    // Nearer frames say more; a filled one is taken to be no better than the worse of both.
    const Matrix3& worse = control.frames[left]->covariance(0, 0) > control.frames[right]->covariance(0, 0)
                               ? control.frames[left]->covariance
                               : control.frames[right]->covariance;
    path.push_back({lab_from(plus(plus(a, a, -share), b, share)), worse});
  }
  return path;
}

/// The mean path of several controls.
std::vector<ColorState> mean_path(const std::vector<std::vector<ColorState>>& paths) {
  std::vector<ColorState> mean = paths.front();
  const double share = 1.0 / static_cast<double>(paths.size());
  for (std::size_t i = 0; i < mean.size(); ++i) {
    Vector3 sum{};
    Matrix3 covariance{};
    for (const auto& path : paths) {
      sum = plus(sum, vector_from(path[i].lab), share);
      covariance = covariance + share * share * path[i].covariance;
    }
    mean[i] = {lab_from(sum), covariance};
  }
  return mean;
}

/// The mean colour of the frames up to time zero, or the first frame's when there is none.
Lab colour_before(const std::vector<ColorState>& path, const std::vector<double>& seconds) {
  Vector3 sum{};
  double frames = 0;
  for (std::size_t i = 0; i < path.size() && (i == 0 || seconds[i] <= 0); ++i, ++frames)
    sum = plus(sum, vector_from(path[i].lab));
  return lab_from(plus({}, sum, 1 / frames));
}

/// The mean of a frame and its two neighbours on either side, minus `before`: the controls' change without
/// most of their scatter. Nothing before time zero.
std::vector<Vector3> smooth_change(const std::vector<ColorState>& path, const std::vector<double>& seconds,
                                   const Lab& before) {
  constexpr std::size_t reach = 2;
  std::vector<Vector3> change(path.size());
  for (std::size_t i = 0; i < path.size(); ++i) {
    if (seconds[i] <= 0) continue;
    const std::size_t beside = std::min({reach, i, path.size() - 1 - i});
    Vector3 sum{};
    for (std::size_t j = i - beside; j <= i + beside; ++j) sum = plus(sum, vector_from(path[j].lab));
    change[i] = plus(plus({}, sum, 1 / static_cast<double>(2 * beside + 1)), vector_from(before), -1);
  }
  return change;
}

Lab colour_of_last(const std::vector<ColorState>& path) {
  const std::size_t frames = std::clamp<std::size_t>(path.size() / 4, 1, 3);
  Vector3 sum{};
  for (std::size_t i = path.size() - frames; i < path.size(); ++i) sum = plus(sum, vector_from(path[i].lab));
  return lab_from(plus({}, sum, 1 / static_cast<double>(frames)));
}

/// Root mean square of one frame's scatter, in dE00: successive frames differ by sqrt(2) of it, and a slow
/// change between them adds next to nothing.
double scatter_de00(const std::vector<ColorState>& path) {
  if (path.size() < 3) return 0;
  double squares = 0;
  for (std::size_t i = 1; i < path.size(); ++i)
    squares += std::pow(difference_ciede2000(path[i - 1].lab, path[i].lab), 2);
  return std::sqrt(squares / (2.0 * static_cast<double>(path.size() - 1)));
}

}  // namespace

CorrectedPath corrected_path(const ReactionSeries& series, std::vector<bool> left_out) {
  CorrectedPath result;
  left_out.resize(series.seconds.size());
  result.seconds = series.seconds;
  result.frames = series.spot;
  // The one that underwent most comes first.
  constexpr std::array kinds = {RegionKind::bruise, RegionKind::water, RegionKind::control};
  std::array<std::vector<std::vector<ColorState>>, kinds.size()> paths;
  std::size_t gaps = 0;
  for (const ControlPath& control : series.controls) {
    auto path = filled(control, series.seconds, left_out, gaps);
    if (!path) {
      result.remarks.push_back(
          fmt::format("Control {} has no reading in any frame and was left out.", control.id));
      continue;
    }
    const auto kind = std::find(kinds.begin(), kinds.end(), control.kind);
    paths[kind == kinds.end() ? 2 : static_cast<std::size_t>(kind - kinds.begin())].push_back(
        *std::move(path));
  }
  result.has_bruise_control = !paths[0].empty();
  result.has_water = !paths[1].empty();
  result.has_untreated = !paths[2].empty();
  if (gaps > 0)
    result.remarks.push_back(fmt::format(
        "Controls have no reading in {} of their frames; these were filled in from the frames beside.",
        gaps));

  result.control_change.assign(series.seconds.size(), Vector3{});
  bool subtracted = false;
  for (std::size_t kind = 0; kind < kinds.size(); ++kind) {
    if (paths[kind].empty()) continue;
    const auto mean = mean_path(paths[kind]);
    const Lab before = colour_before(mean, result.seconds);
    const double change_de00 = difference_ciede2000(before, colour_of_last(mean));
    if (!subtracted || change_de00 > result.control_change_de00) {
      result.control_change_de00 = change_de00;
      result.most_changed_control = kinds[kind];
    }
    result.control_scatter_de00 = std::max(result.control_scatter_de00, scatter_de00(mean));
    if (subtracted) continue;
    subtracted = true;
    result.subtracted_change_de00 = change_de00;
    result.control_change = smooth_change(mean, result.seconds, before);
    for (std::size_t i = 0; i < mean.size(); ++i) {
      ColorState& frame = result.frames[i];
      const Vector3 moved = plus(vector_from(mean[i].lab), vector_from(before), -1);
      frame = {lab_from(plus(vector_from(frame.lab), moved, -1)), frame.covariance + mean[i].covariance};
    }
  }
  constexpr double floor = least_reading_sd * least_reading_sd;
  for (ColorState& frame : result.frames)
    frame.covariance = frame.covariance + Matrix3::diagonal(floor, floor, floor);
  return result;
}

}  // namespace colorlib
