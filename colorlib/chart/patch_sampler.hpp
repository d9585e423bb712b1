#pragma once
/// What the photo shows of each patch and of the bare paper.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/chart/surroundings.hpp>
#include <colorlib/image/photo.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// One patch: mean of the *encoded* values over its inner 60 % of each side, robust to glints and dust.
struct PatchSample {
  std::size_t patch = 0;  ///< index into the definition
  PointMm place;          ///< its centre
  Vector3 encoded{};
  Vector3 noise_sd{};  ///< standard deviation of one pixel's value
  int pixels = 0;      ///< used
  double clipped_share = 0, dark_share = 0, outlier_share = 0;
  std::optional<std::string> dropped;  ///< the reason in words when it must not be used
};

/// One block of bare paper.
struct PaperSample {
  PointMm place;
  Vector3 encoded{};
  double inner_sd = 0;
  int pixels = 0;
};

struct SheetSamples {
  std::vector<PatchSample> patches;  ///< one per definition patch, same order
  std::vector<PaperSample> paper;    ///< evenly spread, at most SampleOptions::most_paper
  std::vector<PaperSample>
      other_paper;        ///< of a second sheet beside this one, whose paper may be of another colour
  int paper_dropped = 0;  ///< blocks left out as clipped, rough or soiled
  double paper_clipped_share = 0;  ///< of the blocks measured: too much exposure, not soil
  Surroundings surroundings;       ///< display-referred photos only: linear ones know no local tone mapping
};

/// Figures of docs/explanation/calibration.md; thresholds differ for linear photos.
struct SampleOptions {
  double inner_share = 0.6;  ///< of each side
  double clipped_level = 0.992, clipped_level_linear = 0.998;
  /// The encoded value from which a channel counts as clipped.
  double top_level(bool linear) const { return linear ? clipped_level_linear : clipped_level; }
  double dark_level = 0.008;  ///< display-referred only
  /// The encoded value down to which a channel counts as at the bottom of its range; none reaches it in
  /// linear photos.
  double bottom_level(bool linear) const { return linear ? -1e9 : dark_level; }
  double most_clipped_share = 0.02, most_dark_share = 0.30;
  double paper_grid_mm = 2.5, paper_block_mm = 0.8;
  double paper_gap_mm = 1.0;       ///< from any patch, marker or window
  double paper_edge_gap_mm = 1.6;  ///< from the sheet's edge
  int most_paper = 150;
};

/// Whether a patch was dropped because it is over-exposed.
bool over_exposed(const PatchSample& sample, const SampleOptions& options);
/// Whether it was dropped because too many of its pixels stand at the bottom of their range.
bool under_exposed(const PatchSample& sample, const SampleOptions& options);

SheetSamples sample_sheet(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                          const SampleOptions& options);

}  // namespace colorlib
