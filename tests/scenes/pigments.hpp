#pragma once
/// Specimens as reflectance spectra: absorbing pigments in a scattering mass, by Kubelka-Munk.

#include <functional>
#include <string>
#include <vector>

#include "tests/scenes/lights.hpp"
#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// One family of specimen colours: the shape of absorption over scattering, and the lightness it is met at.
struct PigmentFamily {
  std::string name;
  /// A member of the family: its absorption shape (any scale), drawn at random within the family.
  std::function<Spectrum(Random&)> absorption;
  double lowest_l = 10, highest_l = 95;  ///< masstone L* met
  bool tissue = true;                    ///< seen on cut, bruised or tested tissue
  bool deposit = true;                   ///< seen in spore deposits
};

/// The families of a pool; README.md lists them. Shapes are invented after textbook descriptions of such
/// pigments.
const std::vector<PigmentFamily>& pigment_families(Pool pool);

/// A specimen's own spectrum.
struct Pigment {
  std::string family;
  Spectrum ratio;     ///< absorption over scattering at full strength
  Spectrum masstone;  ///< reflectance of an endless layer
  Lab masstone_lab;   ///< D50
};

/// A member of `family` with masstone lightness `l` (D50) and a small random tint (a greyish base).
/// Duller than the family's shape alone where that would be more vivid than a limit drawn below what fungi
/// show: C* 50 for yellows and rusts, 30 else.
Pigment pigment_of(const PigmentFamily& family, double l, Random& random);
/// A random family and lightness; `tissue` restricts to what tissue shows, otherwise to what deposits show.
Pigment random_pigment(Random& random, Pool pool, bool tissue);
/// A spectrum of this pool's shapes whose masstone Lab (D50) is `wanted` within 0.02: three shapes of the
/// pool are mixed, the set whose amounts come out smooth and positive. Throws std::runtime_error when no set
/// reaches it.
Pigment pigment_matching(const Lab& wanted, Pool pool);
/// The same pigment at another strength (concentration times `factor`).
Pigment diluted(const Pigment& pigment, double factor);

}  // namespace colorlib::scenes
