#pragma once
/// A printed sheet as reflectance spectra: papers, inks, and a press that is asked for Lab and nearly gives
/// it.

#include <string>
#include <vector>

#include "tests/scenes/lights.hpp"
#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// Optical density spectra of full layers, and how the press spreads them.
struct InkSet {
  std::string name;
  std::array<Spectrum, 4> density;  ///< cyan, magenta, yellow, black
  double yule_nielsen = 2.0;        ///< light spreading in the paper [Yule & Nielsen 1951]
  double surface = 0.004;           ///< first-surface reflection of a full layer
  double black_start_l = 60;        ///< black comes in below this L*
};
InkSet ink_set(Pool pool, int which);
/// How many `ink_set` knows.
int ink_set_count(Pool pool);
/// One of them; of the broad pool with the curves of its colours moved and stretched.
InkSet random_inks(Random& random, Pool pool);

struct Paper {
  std::string name;
  Spectrum reflectance;
  /// Brightener: radiance factor added at the emission's peak under D50-like ultraviolet. 0: none.
  double brightener = 0;
};
Paper random_paper(Random& random, Pool pool, bool brightened);
/// Emission of the brightener, peak 1 near 440 nm.
const Spectrum& brightener_emission();

/// Fractional area of each ink, 0 to 1: cyan, magenta, yellow, black.
using InkAmounts = std::array<double, 4>;

class Press {
 public:
  Press(InkSet inks, const Paper& paper);
  /// Reflectance without fluorescence: Neugebauer's sum over 16 primaries with Demichel's weights, in powers
  /// of 1/n.
  Spectrum print(const InkAmounts& amounts) const;
  /// The amounts whose print is nearest to `wanted` (D50); black follows from L*. Damped Gauss-Newton,
  /// bounded to [0, 1].
  InkAmounts amounts_for(const Lab& wanted) const;

 private:
  InkAmounts amounts_with_black(const Lab& wanted, double black) const;

  InkSet inks_;
  std::array<Spectrum, 16> root_primary_;  ///< primary^(1/n)
};

}  // namespace colorlib::scenes
