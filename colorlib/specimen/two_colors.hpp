#pragma once
/// Whether a region holds two separate colours, of which a mean would be neither.

#include <colorlib/colorimetry/color_types.hpp>
#include <optional>
#include <span>

namespace colorlib {

/// When colours count as separate; the project's own choice, on simulated deposits and grounds.
struct TwoColorsLimits {
  double least_share = 0.1;  ///< of the pixels, in the smaller group
  double least_de00 = 8;     ///< between the groups' means
  double least_spreads =
      4;  ///< the same, in robust standard deviations of the pixels from their group's mean
  /// Of the pixels, in the middle third of the way between the means. Colours that run from one to the other,
  /// as where a deposit thins out, have a sixth there or more.
  double most_between = 0.06;
  std::size_t least_pixels = 100;  ///< fewer tell nothing
};

struct TwoColors {
  Lab first, second;       ///< the groups' means, the larger group first
  double first_share = 0;  ///< of the pixels
  double de00 = 0;         ///< between the means
};

/// Two groups by k-means along the widest spread. None: one colour, or many that run into one another.
std::optional<TwoColors> two_colors(std::span<const Lab> pixels, const TwoColorsLimits& limits = {});

}  // namespace colorlib
