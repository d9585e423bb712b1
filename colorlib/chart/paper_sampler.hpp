#pragma once
/// The bare paper of a sheet, which carries the lighting field.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <vector>

namespace colorlib {

/// Centres of blocks that the definition leaves blank: `paper_gap_mm` clear of patches, markers with their
/// quiet zone (one cell), openings, backings and printed words, `paper_edge_gap_mm` clear of the sheet's
/// edge. On a grid of `paper_grid_mm` centred on the sheet; row by row.
std::vector<PointMm> bare_paper_places(const ChartDefinition& chart, const SampleOptions& options);

/// `count` of the places, as evenly spread as a greedy choice makes them: each next one is the farthest from
/// those chosen, the first one the nearest to their middle. Deterministic.
std::vector<PointMm> evenly_spread(const std::vector<PointMm>& places, std::size_t count);

struct PaperSamples {
  std::vector<PaperSample> blocks;  ///< at most `most_paper`
  int dropped = 0;                  ///< clipped, rough or soiled
  double clipped_share = 0;         ///< of the blocks measured
};

/// Measures the blocks inside the photo. Dropped are blocks with more than 2 % clipped pixels, an inner
/// standard deviation above twice the median block's (print, fibres, dust), or a light or hue unlike that of
/// the blocks within 25 mm (soil, words, a ruler, a glint).
PaperSamples sample_paper(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                          const SampleOptions& options);

}  // namespace colorlib
