#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/paper_sampler.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr std::size_t spare_factor = 3;      // blocks measured for each one kept
constexpr std::size_t most_places = 20'000;  // considered; a sheet of 2 m has 640 000
constexpr int least_block_px = 3;
constexpr double neighbourhood_mm = 25;
constexpr std::size_t least_neighbours = 5;
constexpr double least_rough_sd = 0.004;  // one step of an 8-bit file: never called rough
/// Natural logarithms of linear light: a block darker or brighter than its neighbours by a quarter is no bare
/// paper in the same light, nor is one whose red or blue differs from its green by an eighth.
constexpr double most_light_step = 0.288, most_hue_step = 0.12;

struct Block {
  PaperSample sample;
  double clipped_share = 0;
  Vector3 log_light{};  // green, red by green, blue by green
};

/// An upright square of pixels inside the block, whatever the sheet's rotation.
bool measure(const Photo& photo, const Placement& placement, const PointMm& place,
             const SampleOptions& options, Block& block) {
  const auto j = placement.jacobian(place);
  const double turned = std::max(std::fabs(j[0]) + std::fabs(j[1]), std::fabs(j[2]) + std::fabs(j[3]));
  const double scale = placement.px_per_mm(place);
  if (!(scale > 0) || !(turned > 0) || !std::isfinite(turned)) return false;
  const double side_px = options.paper_block_mm * scale * std::min(1.0, scale / turned);
  const PointPx centre = placement.px_from_mm(place);
  const int side = std::max(least_block_px, static_cast<int>(std::lround(side_px)));
  const double left_px = centre.x - 0.5 * (side - 1), top_px = centre.y - 0.5 * (side - 1);
  if (!(left_px >= 0 && top_px >= 0 && left_px + side <= photo.width_px() &&
        top_px + side <= photo.height_px()))
    return false;
  const ImageF pixels = photo.encoded(
      {static_cast<int>(std::lround(left_px)), static_cast<int>(std::lround(top_px)), side, side});
  const int count = pixels.rows * pixels.columns;
  if (count < least_block_px * (least_block_px - 1) || pixels.channels != 3) return false;

  const bool linear = photo.encoding().kind == EncodingKind::linear_sensor;
  const double clipped_level = options.top_level(linear);
  Vector3 sum{};
  double grey_sum = 0, grey_squares = 0;
  int clipped = 0;
  for (int i = 0; i < count; ++i) {
    const float* p = pixels.data.data() + 3 * static_cast<std::ptrdiff_t>(i);
    const double grey = 0.25 * p[0] + 0.5 * p[1] + 0.25 * p[2];
    for (std::size_t k = 0; k < 3; ++k) sum[k] += p[k];
    grey_sum += grey;
    grey_squares += grey * grey;
    clipped += p[0] >= clipped_level || p[1] >= clipped_level || p[2] >= clipped_level;
  }
  block.sample.place = place;
  for (std::size_t k = 0; k < 3; ++k) block.sample.encoded[k] = sum[k] / count;
  block.sample.inner_sd =
      std::sqrt(std::max(0.0, (grey_squares - grey_sum * grey_sum / count) / std::max(1, count - 1)));
  block.sample.pixels = count;
  block.clipped_share = static_cast<double>(clipped) / count;
  Vector3 light{};
  for (std::size_t k = 0; k < 3; ++k) {
    const double v = block.sample.encoded[k];
    if (!std::isfinite(v)) return false;
    light[k] = std::log(std::max(1e-5, linear ? v : linear_from_srgb(v)));
  }
  block.log_light = {light[1], light[0] - light[1], light[2] - light[1]};
  return true;
}

/// How a block differs from the median of its neighbours.
bool unlike_neighbours(const std::vector<Block>& blocks, std::size_t index) {
  static constexpr Vector3 most = {most_light_step, most_hue_step, most_hue_step};
  const Block& block = blocks[index];
  std::vector<double> near[3];
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    if (i == index) continue;
    const PointMm &a = blocks[i].sample.place, &b = block.sample.place;
    const double dx = a.x - b.x, dy = a.y - b.y;
    if (dx * dx + dy * dy > neighbourhood_mm * neighbourhood_mm) continue;
    for (std::size_t k = 0; k < 3; ++k) near[k].push_back(blocks[i].log_light[k]);
  }
  if (near[0].size() < least_neighbours) return false;
  for (std::size_t k = 0; k < 3; ++k)
    if (std::fabs(block.log_light[k] - median(near[k])) > most[k]) return true;
  return false;
}

}  // namespace

std::vector<PointMm> bare_paper_places(const ChartDefinition& chart, const SampleOptions& options) {
  std::vector<PointMm> places;
  const double step = options.paper_grid_mm, half = options.paper_block_mm / 2;
  const double margin = options.paper_edge_gap_mm + half;
  if (!(step > 0.05) || !(chart.width_mm > 2 * margin) || !(chart.height_mm > 2 * margin)) return places;
  const int columns = static_cast<int>((chart.width_mm - 2 * margin) / step) + 1;
  const int rows = static_cast<int>((chart.height_mm - 2 * margin) / step) + 1;
  const double left = 0.5 * (chart.width_mm - (columns - 1) * step),
               top = 0.5 * (chart.height_mm - (rows - 1) * step);
  std::vector<bool> taken(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), false);
  const auto take = [&](const RectangleMm& r, double extra) {
    const double gap = options.paper_gap_mm + half + extra;
    const auto limit = [](double v, int count) {
      return static_cast<int>(std::clamp(v, -1.0, static_cast<double>(count)));
    };
    const int first_column = limit(std::floor((r.x - gap - left) / step) + 1, columns);
    const int last_column = limit(std::ceil((r.x + r.width + gap - left) / step) - 1, columns);
    const int first_row = limit(std::floor((r.y - gap - top) / step) + 1, rows);
    const int last_row = limit(std::ceil((r.y + r.height + gap - top) / step) - 1, rows);
    for (int row = std::max(0, first_row); row <= std::min(rows - 1, last_row); ++row)
      for (int column = std::max(0, first_column); column <= std::min(columns - 1, last_column); ++column)
        taken[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
              static_cast<std::size_t>(column)] = true;
  };
  for (const Patch& p : chart.patches) take(p.place, 0);
  for (const Marker& m : chart.markers) take({m.x_mm, m.y_mm, m.side_mm, m.side_mm}, m.side_mm / 8);
  for (const ChartWindow& w : chart.windows) take(w.place, 0);
  for (const Backing& b : chart.backings) take(b.place, 0);
  for (const PrintedText& t : chart.texts) take(t.place, 0);
  for (int row = 0; row < rows; ++row)
    for (int column = 0; column < columns; ++column)
      if (!taken[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                 static_cast<std::size_t>(column)])
        places.push_back({left + column * step, top + row * step});
  return places;
}

std::vector<PointMm> evenly_spread(const std::vector<PointMm>& places, std::size_t count) {
  if (places.size() <= count || count == 0) return count == 0 ? std::vector<PointMm>{} : places;
  PointMm middle;
  for (const PointMm& p : places) {
    middle.x += p.x / static_cast<double>(places.size());
    middle.y += p.y / static_cast<double>(places.size());
  }
  const auto squared = [](const PointMm& a, const PointMm& b) {
    return (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
  };
  std::size_t next = 0;
  for (std::size_t i = 1; i < places.size(); ++i)
    if (squared(places[i], middle) < squared(places[next], middle)) next = i;
  std::vector<double> nearest(places.size(), std::numeric_limits<double>::infinity());
  std::vector<PointMm> chosen;
  chosen.reserve(count);
  while (chosen.size() < count) {
    chosen.push_back(places[next]);
    std::size_t farthest = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      nearest[i] = std::min(nearest[i], squared(places[i], chosen.back()));
      if (nearest[i] > nearest[farthest]) farthest = i;
    }
    next = farthest;
  }
  return chosen;
}

PaperSamples sample_paper(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                          const SampleOptions& options) {
  PaperSamples samples;
  const auto most = static_cast<std::size_t>(std::max(0, options.most_paper));
  std::vector<PointMm> places = bare_paper_places(chart, options);
  if (places.size() > most_places) {  // any even subset does
    const std::size_t every = places.size() / most_places + 1;
    std::vector<PointMm> fewer;
    for (std::size_t i = 0; i < places.size(); i += every) fewer.push_back(places[i]);
    places = std::move(fewer);
  }
  std::vector<Block> blocks;
  for (const PointMm& place : evenly_spread(places, spare_factor * most)) {
    Block block;
    if (measure(photo, placement, place, options, block)) blocks.push_back(block);
  }
  if (blocks.empty()) return samples;
  const auto clipped = [&](const Block& b) { return b.clipped_share > options.most_clipped_share; };
  samples.clipped_share = static_cast<double>(std::count_if(blocks.begin(), blocks.end(), clipped)) /
                          static_cast<double>(blocks.size());

  std::vector<double> roughness;
  for (const Block& b : blocks) roughness.push_back(b.sample.inner_sd);
  const double rough = std::max(least_rough_sd, 2 * median(roughness));
  std::vector<Block> clean;
  for (const Block& b : blocks)
    if (!clipped(b) && b.sample.inner_sd <= rough) clean.push_back(b);
  std::vector<PointMm> kept;
  std::vector<PaperSample> good;
  for (std::size_t i = 0; i < clean.size(); ++i) {
    if (unlike_neighbours(clean, i)) continue;
    kept.push_back(clean[i].sample.place);
    good.push_back(clean[i].sample);
  }
  samples.dropped = static_cast<int>(blocks.size() - good.size());
  for (const PointMm& place : evenly_spread(kept, most)) {
    const auto sample =
        std::find_if(good.begin(), good.end(), [&](const PaperSample& s) { return s.place == place; });
    samples.blocks.push_back(*sample);
  }
  return samples;
}

}  // namespace colorlib
