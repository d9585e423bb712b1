#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/chart/marker_search.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <set>
#include <variant>

namespace colorlib {
namespace {

constexpr int first_long_side_px = 1000;
constexpr int finest_long_side_px = 5000;
constexpr int most_enlarged_px = 2600;  // long side of what is worth enlarging when nothing else helps
constexpr double small_marker_px = 60;
constexpr float sharpening = 3;  // decodes cells of 3 px blurred by 1.5 px; noise is no trouble at that size

PixelRectangle whole(const Photo& photo) { return {0, 0, photo.width_px(), photo.height_px()}; }

/// Blocks start at the rectangle's first pixel: a block's centre is at (b - 1) / 2 of its pixels.
PointPx photo_from_block(const PointPx& p, const PixelRectangle& rectangle, int block) {
  return {rectangle.left + (p.x + 0.5) * block - 0.5, rectangle.top + (p.y + 0.5) * block - 0.5};
}

std::vector<MarkerSighting> detect_in(const Photo& photo, MarkerDetector& detector,
                                      const PixelRectangle& rectangle, int block, double decimate) {
  std::vector<MarkerSighting> found = detector.detect(detection_grey(photo, rectangle, block), decimate);
  for (MarkerSighting& marker : found)
    for (PointPx& c : marker.corners_px) c = photo_from_block(c, rectangle, block);
  return found;
}

/// Twice as large (bilinear) with the difference from the 5 x 5 mean added: markers too small or too blurred
/// to be decoded as they are.
Image8 enlarged_and_sharpened(const Image8& grey) {
  constexpr int reach = 2;
  ImageF sharp(grey.rows, grey.columns, 1);
  const auto at = [&](int r, int c) {
    return static_cast<float>(
        grey.at(std::clamp(r, 0, grey.rows - 1), std::clamp(c, 0, grey.columns - 1))[0]);
  };
  for (int r = 0; r < grey.rows; ++r)
    for (int c = 0; c < grey.columns; ++c) {
      float mean = 0;
      for (int dr = -reach; dr <= reach; ++dr)
        for (int dc = -reach; dc <= reach; ++dc) mean += at(r + dr, c + dc);
      mean /= (2 * reach + 1) * (2 * reach + 1);
      sharp.at(r, c)[0] = at(r, c) + sharpening * (at(r, c) - mean);
    }
  Image8 large(2 * grey.rows, 2 * grey.columns, 1);
  for (int r = 0; r < large.rows; ++r)
    for (int c = 0; c < large.columns; ++c) {
      const float y =
          std::clamp(0.5f * static_cast<float>(r) - 0.25f, 0.f, static_cast<float>(grey.rows - 1));
      const float x =
          std::clamp(0.5f * static_cast<float>(c) - 0.25f, 0.f, static_cast<float>(grey.columns - 1));
      const int r0 = std::min(static_cast<int>(y), grey.rows - 2),
                c0 = std::min(static_cast<int>(x), grey.columns - 2);
      const float fy = y - static_cast<float>(r0), fx = x - static_cast<float>(c0);
      const float upper = (1 - fx) * sharp.at(r0, c0)[0] + fx * sharp.at(r0, c0 + 1)[0];
      const float lower = (1 - fx) * sharp.at(r0 + 1, c0)[0] + fx * sharp.at(r0 + 1, c0 + 1)[0];
      large.at(r, c)[0] = static_cast<std::uint8_t>(std::clamp((1 - fy) * upper + fy * lower, 0.f, 255.f));
    }
  return large;
}

std::vector<MarkerSighting> detect_enlarged(const Photo& photo, MarkerDetector& detector,
                                            const PixelRectangle& rectangle, int block) {
  const Image8 grey = detection_grey(photo, rectangle, block);
  if (grey.rows < 2 || grey.columns < 2) return {};
  std::vector<MarkerSighting> found = detector.detect(enlarged_and_sharpened(grey), 2);
  for (MarkerSighting& marker : found)
    for (PointPx& c : marker.corners_px)
      c = photo_from_block({0.5 * c.x - 0.25, 0.5 * c.y - 0.25}, rectangle, block);
  return found;
}

std::size_t wanted_among(const std::vector<MarkerSighting>& markers, std::span<const int> wanted) {
  std::set<int> ids;
  for (const MarkerSighting& m : markers)
    if (std::find(wanted.begin(), wanted.end(), m.id) != wanted.end()) ids.insert(m.id);
  return ids.size();
}

/// Means of green over four pixels of each block.
template <class T>
Image8 sparse_green(const Image<T>& pixels, const PixelRectangle& r, int block) {
  Image8 grey(std::max(0, r.height / block), std::max(0, r.width / block), 1);
  constexpr int level = sizeof(T) == 1 ? 1 : 257;
  const int near = block / 4,
            far = std::max(near, block - 1 - block / 4);  // symmetric about the block's middle
  for (int row = 0; row < grey.rows; ++row) {
    const T* upper = pixels.at(r.top + row * block + near, r.left) + 1;
    const T* lower = pixels.at(r.top + row * block + far, r.left) + 1;
    std::uint8_t* to = grey.at(row, 0);
    for (int column = 0; column < grey.columns; ++column, upper += 3 * block, lower += 3 * block)
      to[column] = static_cast<std::uint8_t>(
          (upper[3 * near] + upper[3 * far] + lower[3 * near] + lower[3 * far] + 2 * level) / (4 * level));
  }
  return grey;
}

Image8 mirrored(const Image8& grey) {
  Image8 turned = grey;
  for (int r = 0; r < turned.rows; ++r) std::reverse(turned.at(r, 0), turned.at(r, 0) + turned.columns);
  return turned;
}

}  // namespace

Image8 detection_grey(const Photo& photo, const PixelRectangle& rectangle, int block) {
  const auto* p8 = std::get_if<Image8>(&photo.store());
  const auto* p16 = std::get_if<Image16>(&photo.store());
  const bool quick = (p8 || p16) && photo.encoding().kind == EncodingKind::display_referred;
  Image8 grey = !quick ? photo.linear_grey(rectangle, block)
                : p8   ? sparse_green(*p8, rectangle, block)
                       : sparse_green(*p16, rectangle, block);
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
  for (int v = 0; v < 256; ++v) {
    const double share = std::clamp((v - low) / (high - low), 0.0, 1.0);
    stretched[static_cast<std::size_t>(v)] =
        static_cast<std::uint8_t>(std::lround(255 * (quick ? share : std::sqrt(share))));
  }
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
    // The first look is at half resolution; so is every other, but a picture that has no finer one is
    // searched whole.
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
  // A small photo has no finer picture: enlarge what there is.
  const int finest = std::max(1, previous);
  if (long_side / finest <= most_enlarged_px && !progress.cancelled()) {
    std::vector<MarkerSighting> found = detect_enlarged(photo, detector, whole(photo), finest);
    if (wanted_among(found, wanted) > wanted_among(search.markers, wanted) || search.markers.empty()) {
      search.markers = std::move(found);
      search.block = finest;
    }
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
    const auto take = [&](const std::vector<MarkerSighting>& all) {
      for (const MarkerSighting& found : all)
        if (found.id == m.id) {
          markers.push_back(found);
          return true;
        }
      return false;
    };
    if (!take(detect_in(photo, detector, around, block, 1)) && side < small_marker_px)
      take(detect_enlarged(photo, detector, around, block));
  }
}

}  // namespace colorlib
