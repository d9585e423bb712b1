#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/chart/marker_search.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <set>

namespace colorlib {
namespace {

constexpr int first_long_side_px = 1000;
constexpr int finest_long_side_px = 5000;

PixelRectangle whole(const Photo& photo) { return {0, 0, photo.width_px(), photo.height_px()}; }

/// Blocks start at the rectangle's first pixel: a block's centre is at (b - 1) / 2 of its pixels.
PointPx photo_from_block(const PointPx& p, const PixelRectangle& rectangle, int block) {
  return {rectangle.left + (p.x + 0.5) * block - 0.5, rectangle.top + (p.y + 0.5) * block - 0.5};
}

std::vector<MarkerSighting> detect_in(const Photo& photo, MarkerDetector& detector, const PixelRectangle& rectangle,
                                      int block, double decimate) {
  std::vector<MarkerSighting> found = detector.detect(detection_grey(photo, rectangle, block), decimate);
  for (MarkerSighting& marker : found)
    for (PointPx& c : marker.corners_px) c = photo_from_block(c, rectangle, block);
  return found;
}

std::size_t wanted_among(const std::vector<MarkerSighting>& markers, std::span<const int> wanted) {
  std::set<int> ids;
  for (const MarkerSighting& m : markers)
    if (std::find(wanted.begin(), wanted.end(), m.id) != wanted.end()) ids.insert(m.id);
  return ids.size();
}

Image8 mirrored(const Image8& grey) {
  Image8 turned = grey;
  for (int r = 0; r < turned.rows; ++r) std::reverse(turned.at(r, 0), turned.at(r, 0) + turned.columns);
  return turned;
}

}  // namespace

Image8 detection_grey(const Photo& photo, const PixelRectangle& rectangle, int block) {
  Image8 grey = photo.linear_grey(rectangle, block);
  std::array<std::size_t, 256> histogram{};
  for (const std::uint8_t v : grey.data) ++histogram[v];
  const auto quantile = [&](double share) {
    const double limit = share * static_cast<double>(grey.data.size());
    std::size_t sum = 0;
    for (int v = 0; v < 256; ++v) {
      sum += histogram[static_cast<std::size_t>(v)];
      if (static_cast<double>(sum) >= limit) return v;
    }
    return 255;
  };
  const double low = quantile(0.01), high = std::max(quantile(0.995), quantile(0.01) + 4);
  std::array<std::uint8_t, 256> stretched{};
  for (int v = 0; v < 256; ++v)
    stretched[static_cast<std::size_t>(v)] = static_cast<std::uint8_t>(
        std::lround(255 * std::sqrt(std::clamp((v - low) / (high - low), 0.0, 1.0))));
  for (std::uint8_t& v : grey.data) v = stretched[v];
  return grey;
}

MarkerSearch search_markers(const Photo& photo, MarkerDetector& detector, std::span<const int> wanted,
                            Progress& progress) {
  MarkerSearch search;
  const int long_side = std::max(photo.width_px(), photo.height_px());
  const auto block_for = [&](int side) { return std::max(1, (long_side + side - 1) / side); };
  const int first = block_for(first_long_side_px);
  int previous = 0;
  for (int block = first; block >= 1; block = block > 1 ? std::max(1, block / 2) : 0) {
    if (long_side / block > finest_long_side_px && previous != 0) break;
    if (progress.cancelled()) {
      search.cancelled = true;
      return search;
    }
    // The first look is at half resolution; so is every other, but a picture that has no finer one is searched whole.
    const bool last = block == 1 || long_side / std::max(1, block / 2) > finest_long_side_px;
    std::vector<MarkerSighting> found = detect_in(photo, detector, whole(photo), block, 2);
    if (wanted_among(found, wanted) < 2 && last && long_side / block <= 2 * first_long_side_px) {
      std::vector<MarkerSighting> finer = detect_in(photo, detector, whole(photo), block, 1);
      if (finer.size() > found.size()) found = std::move(finer);
    }
    if (previous == 0 || wanted_among(found, wanted) > wanted_among(search.markers, wanted) ||
        found.size() > search.markers.size()) {
      search.markers = std::move(found);
      search.block = block;
    }
    if (wanted_among(search.markers, wanted) >= 2) return search;
    previous = block;
  }
  if (search.markers.empty()) {
    for (const int block : {first, std::max(1, first / 2)}) {
      if (!detector.detect(mirrored(detection_grey(photo, whole(photo), block)), 2).empty()) {
        search.mirrored = true;
        break;
      }
      if (block == 1) break;
    }
  }
  return search;
}

void search_missing_markers(const Photo& photo, MarkerDetector& detector, const ChartDefinition& chart,
                            std::vector<MarkerSighting>& markers) {
  std::vector<PointPair> pairs;
  std::set<int> seen;
  for (const MarkerSighting& sighting : markers) seen.insert(sighting.id);
  for (const Marker& m : chart.markers)
    for (const MarkerSighting& sighting : markers)
      if (sighting.id == m.id) {
        const std::array<PointMm, 4> corners = {{{m.x_mm, m.y_mm},
                                                 {m.x_mm + m.side_mm, m.y_mm},
                                                 {m.x_mm + m.side_mm, m.y_mm + m.side_mm},
                                                 {m.x_mm, m.y_mm + m.side_mm}}};
        for (std::size_t k = 0; k < 4; ++k) pairs.push_back({corners[k], sighting.corners_px[k]});
      }
  const std::optional<Matrix3> homography = homography_from_pairs(pairs);
  if (!homography) return;
  Placement guess;
  guess.homography = *homography;
  for (const Marker& m : chart.markers) {
    if (seen.count(m.id)) continue;
    const PointPx centre = guess.px_from_mm({m.x_mm + m.side_mm / 2, m.y_mm + m.side_mm / 2});
    const double side = m.side_mm * guess.px_per_mm({m.x_mm + m.side_mm / 2, m.y_mm + m.side_mm / 2});
    if (!(side > 8 && side < 4e4 && std::isfinite(centre.x) && std::isfinite(centre.y))) continue;
    const double half = 1.6 * side;
    const int left = static_cast<int>(std::clamp(centre.x - half, 0.0, photo.width_px() - 1.0));
    const int top = static_cast<int>(std::clamp(centre.y - half, 0.0, photo.height_px() - 1.0));
    const int right = static_cast<int>(std::clamp(centre.x + half, 0.0, photo.width_px() - 1.0));
    const int bottom = static_cast<int>(std::clamp(centre.y + half, 0.0, photo.height_px() - 1.0));
    const PixelRectangle around{left, top, right - left + 1, bottom - top + 1};
    if (around.width < side || around.height < side) continue;
    const int block = std::max(1, static_cast<int>(side / 60));
    for (const MarkerSighting& found : detect_in(photo, detector, around, block, 1))
      if (found.id == m.id) {
        markers.push_back(found);
        break;
      }
  }
}

}  // namespace colorlib
