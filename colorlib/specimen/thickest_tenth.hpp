#pragma once
/// The colour of a deposit where it lies thickest, beside that of the whole.

#include <colorlib/naming/namer.hpp>
#include <colorlib/specimen/bare_ground.hpp>
#include <colorlib/specimen/reading.hpp>
#include <optional>
#include <vector>

namespace colorlib {

struct Cell;

/// How the tenth is looked for and what is not known of it; measured on simulated deposits.
struct TenthOptions {
  std::size_t least_cells = 100;  ///< fewer say nothing of a tenth
  double least_contrast = 12;     ///< Lab units from the ground: less unlike it, thickness does not show
  double blur_share = 0.12;  ///< standard uncertainty of the way from the mean, for lines blurred by the lens
  double own_sd_de00 = 0.15;  ///< and of the tenth for all else, by coordinate, weighted as in dE00
};

/// Of the deposit's `cells`, free of glints, the tenth that looks least like the ground: how far its mean
/// colour lies from that of all of them, put to `lab` as read. Its covariance is that of the reading and of
/// that way: blur, noise that passes for thickness (the ground's own scatter tells how much). None: too few
/// cells, or a ground too much like the deposit.
std::optional<ThickestTenth> thickest_tenth(const std::vector<Cell>& cells, const BareGround& ground,
                                            const Lab& lab, const Matrix3& lab_covariance, const Namer& namer,
                                            const TenthOptions& options = {});

/// The same of several photos: the mean way from each reading to its tenth, put to their mean `lab`. None
/// when a photo used does not tell it.
std::optional<ThickestTenth> mean_tenth(const std::vector<const Reading*>& readings, const Lab& lab,
                                        const Matrix3& lab_covariance);

}  // namespace colorlib
