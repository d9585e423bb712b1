#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/video/sheet_tracker.hpp>

namespace colorlib {
namespace {

constexpr std::size_t most_anchors = 8;
constexpr double least_correlation = 0.7;

/// Luma at an upright place, interpolated; negative outside.
float luma_at(const VideoFrame& frame, const FramePlane& luma, double x, double y) {
  const auto [sx, sy] = frame.stored(x, y);
  if (!(sx >= 0 && sy >= 0 && sx <= luma.width - 2 && sy <= luma.height - 2)) return -1;
  const int c = static_cast<int>(sx), r = static_cast<int>(sy);
  const float tx = static_cast<float>(sx - c), ty = static_cast<float>(sy - r);
  const std::uint8_t* a = luma.data + static_cast<std::ptrdiff_t>(r) * luma.stride + c;
  const std::uint8_t* b = a + luma.stride;
  return (1 - ty) * ((1 - tx) * a[0] + tx * a[1]) + ty * ((1 - tx) * b[0] + tx * b[1]);
}

/// Zero mean, unit length; false when there is nothing to see or a part lies outside.
bool normalise(std::vector<float>& values) {
  float mean = 0, length = 0;
  for (const float v : values) {
    if (v < 0) return false;
    mean += v;
  }
  mean /= static_cast<float>(values.size());
  for (float& v : values) v -= mean, length += v * v;
  length = std::sqrt(length);
  if (length < 3.f * std::sqrt(static_cast<float>(values.size()))) return false;
  for (float& v : values) v /= length;
  return true;
}

}  // namespace

void SheetTracker::start(const VideoFrame& frame, const ChartDefinition& chart, const Placement& placement) {
  first_ = placement_ = placement;
  anchors_.clear();
  quality_ = 1;
  std::vector<PointMm> places;
  for (const Marker& marker : chart.markers)  // the corner of its black square is always there to hold on to
    places.push_back({marker.x_mm, marker.y_mm});
  if (places.empty())
    for (std::size_t i = 0; i < chart.patches.size();
         i += std::max<std::size_t>(1, chart.patches.size() / most_anchors))
      places.push_back({chart.patches[i].place.x, chart.patches[i].place.y});
  const FramePlane luma = frame.luma();
  for (const PointMm& place : places) {
    if (anchors_.size() >= most_anchors) break;
    Anchor anchor;
    anchor.start = anchor.now = placement.px_from_mm(place);
    for (int r = 0; r < side; ++r)
      for (int c = 0; c < side; ++c)
        anchor.picture.push_back(luma_at(frame, luma, anchor.start.x + (c - side / 2) * spacing_px,
                                         anchor.start.y + (r - side / 2) * spacing_px));
    if (normalise(anchor.picture)) anchors_.push_back(std::move(anchor));
  }
}

bool SheetTracker::follow(const VideoFrame& frame, Anchor& anchor, double& correlation) const {
  const FramePlane luma = frame.luma();
  PointPx at = anchor.now;
  constexpr int wide = side + 2;
  std::vector<float> here(static_cast<std::size_t>(wide) * wide),
      inner(static_cast<std::size_t>(side) * side);
  const auto look = [&](const PointPx& p) {
    for (int r = 0; r < wide; ++r)
      for (int c = 0; c < wide; ++c)
        here[static_cast<std::size_t>(r * wide + c)] =
            luma_at(frame, luma, p.x + (c - wide / 2) * spacing_px, p.y + (r - wide / 2) * spacing_px);
    for (int r = 0; r < side; ++r)
      std::copy_n(here.begin() + (r + 1) * wide + 1, side, inner.begin() + r * side);
    if (!normalise(inner)) return false;
    correlation = 0;
    for (std::size_t i = 0; i < inner.size(); ++i) correlation += inner[i] * anchor.picture[i];
    return std::all_of(here.begin(), here.end(), [](float v) { return v >= 0; });
  };
  correlation = -1;
  if (!look(at)) return false;
  constexpr double still = 0.9985;
  for (int round = 0; round < 8 && correlation < still; ++round) {
    // Normal equations on the normalised difference; the length is that of the picture here.
    double mean = 0;
    for (int r = 1; r <= side; ++r)
      for (int c = 1; c <= side; ++c) mean += here[static_cast<std::size_t>(r * wide + c)];
    mean /= side * side;
    double length = 0;
    for (int r = 1; r <= side; ++r)
      for (int c = 1; c <= side; ++c)
        length += std::pow(here[static_cast<std::size_t>(r * wide + c)] - mean, 2);
    length = std::sqrt(length);
    double xx = 0, xy = 0, yy = 0, rx = 0, ry = 0;
    for (int r = 1; r <= side; ++r)
      for (int c = 1; c <= side; ++c) {
        const auto i = static_cast<std::size_t>(r * wide + c);
        const double gx = 0.5 * (here[i + 1] - here[i - 1]) / spacing_px,
                     gy = 0.5 * (here[i + wide] - here[i - wide]) / spacing_px;
        const double wanted =
            mean + length * anchor.picture[static_cast<std::size_t>((r - 1) * side + c - 1)];
        const double error = wanted - here[i];
        xx += gx * gx, xy += gx * gy, yy += gy * gy, rx += gx * error, ry += gy * error;
      }
    const double determinant = xx * yy - xy * xy;
    if (!(determinant > 1e-6 * xx * yy)) break;
    const double dx = (yy * rx - xy * ry) / determinant, dy = (xx * ry - xy * rx) / determinant;
    const double size = std::hypot(dx, dy), share = size > 4 ? 4 / size : 1;
    const double before = correlation;
    const PointPx next{at.x + share * dx, at.y + share * dy};
    if (!look(next)) return false;
    if (correlation < before - 0.02) {
      correlation = before;
      break;
    }
    at = next;
    if (size < 0.02) break;
  }
  if (correlation < least_correlation) return false;
  anchor.now = at;
  return true;
}

bool SheetTracker::follow(const VideoFrame& frame) {
  std::vector<const Anchor*> found;
  double sum = 0;
  for (Anchor& anchor : anchors_) {
    double correlation = -1;
    if (follow(frame, anchor, correlation)) {
      found.push_back(&anchor);
      sum += correlation;
    }
  }
  quality_ = found.empty() ? -1 : sum / static_cast<double>(found.size());
  if (found.size() < 2 || 2 * found.size() < anchors_.size()) return false;
  // now = A start + t; with two anchors a similarity, else an affine map.
  const bool affine = found.size() >= 4;
  const auto rows = static_cast<Eigen::Index>(2 * found.size());
  Eigen::MatrixXd design = Eigen::MatrixXd::Zero(rows, affine ? 6 : 4);
  Eigen::VectorXd wanted(rows);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const auto r = static_cast<Eigen::Index>(2 * i);
    const double x = found[i]->start.x, y = found[i]->start.y;
    if (affine) {
      design.row(r) << x, y, 1, 0, 0, 0;
      design.row(r + 1) << 0, 0, 0, x, y, 1;
    } else {
      design.row(r) << x, -y, 1, 0;
      design.row(r + 1) << y, x, 0, 1;
    }
    wanted[r] = found[i]->now.x;
    wanted[r + 1] = found[i]->now.y;
  }
  const Eigen::VectorXd p = design.colPivHouseholderQr().solve(wanted);
  Matrix3 map = Matrix3::identity();
  if (affine) {
    map = {{p[0], p[1], p[2], p[3], p[4], p[5], 0, 0, 1}};
  } else {
    map = {{p[0], -p[1], p[2], p[1], p[0], p[3], 0, 0, 1}};
  }
  // The lens term is left as it was: the sheet moves little between two detections.
  placement_ = first_;
  placement_.homography = map * first_.homography;
  return true;
}

}  // namespace colorlib
