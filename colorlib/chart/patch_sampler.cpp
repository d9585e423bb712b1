#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/paper_sampler.hpp>
#include <colorlib/chart/patch_sampler.hpp>

namespace colorlib {
namespace {

constexpr int least_pixels = 16;            // for a mean and a spread worth the name
constexpr double least_inside_share = 0.6;  // of a patch's inner part
constexpr double enough_pixels = 3000;      // more say nothing new: then rows and columns are skipped
constexpr std::size_t enough_for_median = 1500;
constexpr double outlier_limit = 4;            // robust standard deviations
constexpr double least_robust_sd = 0.5 / 255;  // flat pictures have none
constexpr double most_outlier_share = 0.25;
constexpr double most_noise_sd =
    0.08;  // of the encoded range: no camera's noise, but two colours in one patch

using Quad = std::array<PointPx, 4>;

Quad inner_quad(const RectangleMm& r, const Placement& placement, double share) {
  const PointMm c = r.centre();
  const double w = 0.5 * share * r.width, h = 0.5 * share * r.height;
  return {placement.px_from_mm({c.x - w, c.y - h}), placement.px_from_mm({c.x + w, c.y - h}),
          placement.px_from_mm({c.x + w, c.y + h}), placement.px_from_mm({c.x - w, c.y + h})};
}

double area_of(const Quad& quad) {
  double sum = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const PointPx &a = quad[i], &b = quad[(i + 1) % 4];
    sum += a.x * b.y - a.y * b.x;
  }
  return std::fabs(sum) / 2;
}

/// First and last whole column of a row inside the convex quad; first > last when there is none.
void span_of_row(const Quad& quad, int row, int& first, int& last) {
  double low = 1e30, high = -1e30;
  for (std::size_t i = 0; i < 4; ++i) {
    const PointPx &a = quad[i], &b = quad[(i + 1) % 4];
    if ((a.y <= row) == (b.y <= row)) continue;
    const double x = a.x + (row - a.y) / (b.y - a.y) * (b.x - a.x);
    low = std::min(low, x);
    high = std::max(high, x);
  }
  first = low > high ? 1 : static_cast<int>(std::ceil(std::clamp(low, -1e6, 1e6)));
  last = low > high ? 0 : static_cast<int>(std::floor(std::clamp(high, -1e6, 1e6)));
}

struct Pixel {
  float r, g, b, grey;
};

struct Gathered {
  std::vector<Pixel> pixels;
  double expected = 0;  ///< how many there would be without the photo's border
};

Gathered gather(const Photo& photo, const Quad& quad) {
  Gathered g;
  const double area = area_of(quad);
  double top = 1e30, bottom = -1e30;
  for (const PointPx& p : quad) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y)) return g;
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  const int stride =
      std::max(1, static_cast<int>(std::lround(std::min(1e4, std::sqrt(area / enough_pixels)))));
  g.expected = area / (stride * stride);
  const int first_row = static_cast<int>(std::ceil(std::max(0.0, top)));
  const int last_row = static_cast<int>(std::floor(std::min(photo.height_px() - 1.0, bottom)));
  for (int row = first_row; row <= last_row; row += stride) {
    int first = 0, last = 0;
    span_of_row(quad, row, first, last);
    first = std::max(first, 0);
    last = std::min(last, photo.width_px() - 1);
    if (first > last) continue;
    const ImageF line = photo.encoded({first, row, last - first + 1, 1});
    for (int column = 0; column < line.columns; column += stride) {
      const float* p = line.at(0, column);
      const float grey = 0.25f * p[0] + 0.5f * p[1] + 0.25f * p[2];
      if (std::isfinite(grey)) g.pixels.push_back({p[0], p[1], p[2], grey});
    }
  }
  return g;
}

/// Takes glints and dust away: twice, what lies more than four robust standard deviations from the median.
void reject_outliers(std::vector<Pixel>& pixels) {
  std::vector<float> greys;
  for (int pass = 0; pass < 2 && pixels.size() >= least_pixels; ++pass) {
    greys.clear();
    const std::size_t every = 1 + pixels.size() / enough_for_median;
    for (std::size_t i = 0; i < pixels.size(); i += every) greys.push_back(pixels[i].grey);
    const float middle = median(greys);
    for (float& v : greys) v = std::fabs(v - middle);
    const double sd = std::max(least_robust_sd, 1.4826 * median(greys));
    const auto limit = static_cast<float>(outlier_limit * sd);
    pixels.erase(std::remove_if(pixels.begin(), pixels.end(),
                                [&](const Pixel& p) { return std::fabs(p.grey - middle) > limit; }),
                 pixels.end());
  }
}

PatchSample sample_patch(const Photo& photo, const Patch& patch, const Placement& placement,
                         const SampleOptions& options) {
  PatchSample sample;
  sample.place = patch.place.centre();
  Gathered gathered = gather(photo, inner_quad(patch.place, placement, options.inner_share));
  std::vector<Pixel>& pixels = gathered.pixels;
  const auto seen = static_cast<double>(pixels.size());
  if (pixels.empty() || (gathered.expected > least_pixels && seen < least_inside_share * gathered.expected)) {
    sample.dropped = "outside the photo";
    return sample;
  }
  if (pixels.size() < least_pixels) {
    sample.dropped = fmt::format("too small: only {} pixels, {} are needed", pixels.size(), least_pixels);
    return sample;
  }
  const bool linear = photo.encoding().kind == EncodingKind::linear_sensor;
  const auto top = static_cast<float>(options.top_level(linear));
  const auto low = static_cast<float>(options.bottom_level(linear));
  int clipped = 0, dark = 0;
  for (const Pixel& p : pixels) {
    clipped += p.r >= top || p.g >= top || p.b >= top;
    dark += p.r <= low || p.g <= low || p.b <= low;
  }
  sample.clipped_share = clipped / seen;
  sample.dark_share = dark / seen;

  reject_outliers(pixels);
  const auto used = static_cast<double>(pixels.size());
  sample.pixels = static_cast<int>(pixels.size());
  sample.outlier_share = 1 - used / seen;
  Vector3 sum{}, squares{};
  for (const Pixel& p : pixels) {
    const Vector3 v = {p.r, p.g, p.b};
    for (std::size_t k = 0; k < 3; ++k) sum[k] += v[k];
  }
  for (std::size_t k = 0; k < 3; ++k) sample.encoded[k] = sum[k] / used;
  for (const Pixel& p : pixels) {
    const Vector3 v = {p.r, p.g, p.b};
    for (std::size_t k = 0; k < 3; ++k) squares[k] += (v[k] - sample.encoded[k]) * (v[k] - sample.encoded[k]);
  }
  for (std::size_t k = 0; k < 3; ++k) sample.noise_sd[k] = std::sqrt(squares[k] / std::max(1.0, used - 1));

  if (sample.clipped_share > options.most_clipped_share)
    sample.dropped = fmt::format("clipped: {:.0f} % of its pixels have a channel at the top of its range",
                                 100 * sample.clipped_share);
  else if (sample.dark_share > options.most_dark_share)
    sample.dropped = fmt::format("too dark: {:.0f} % of its pixels have a channel at the bottom of its range",
                                 100 * sample.dark_share);
  else if (sample.outlier_share > most_outlier_share)
    sample.dropped = fmt::format("partly covered or glinting: {:.0f} % of its pixels differ from the rest",
                                 100 * sample.outlier_share);
  else if (*std::max_element(sample.noise_sd.begin(), sample.noise_sd.end()) > most_noise_sd)
    sample.dropped = "uneven: it shows more than one colour";
  return sample;
}

}  // namespace

bool over_exposed(const PatchSample& sample, const SampleOptions& options) {
  return sample.dropped && sample.clipped_share > options.most_clipped_share;
}

bool under_exposed(const PatchSample& sample, const SampleOptions& options) {
  return sample.dropped && !over_exposed(sample, options) && sample.dark_share > options.most_dark_share;
}

SheetSamples sample_sheet(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                          const SampleOptions& options) {
  SheetSamples samples;
  samples.patches.reserve(chart.patches.size());
  for (std::size_t i = 0; i < chart.patches.size(); ++i) {
    samples.patches.push_back(sample_patch(photo, chart.patches[i], placement, options));
    samples.patches.back().patch = i;
  }
  PaperSamples paper = sample_paper(photo, chart, placement, options);
  samples.paper = std::move(paper.blocks);
  samples.paper_dropped = paper.dropped;
  samples.paper_clipped_share = paper.clipped_share;
  if (photo.encoding().kind == EncodingKind::display_referred)
    samples.surroundings = Surroundings(photo, chart, placement);
  return samples;
}

}  // namespace colorlib
