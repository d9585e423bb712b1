#pragma once
/// Spectral power of the lights a table meets. All are relative; a scene scales them to equal luminance.

#include <string>

#include "tests/scenes/random.hpp"
#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// `tuning` may be looked at and tuned on. `broad` has materials of no particular kind, drawn wider than
/// either of the others: the error budget's constants are set on it. `held_out` is for the accuracy tests
/// alone, and so is `measured`: held-out materials and phones, but cameras and lamps from published
/// measurements.
enum class Pool { tuning, broad, held_out, measured };
/// Whether a pool's inks, papers, pigments and phones are the held-out ones.
constexpr bool held_out_materials(Pool pool) { return pool == Pool::held_out || pool == Pool::measured; }

/// A light's colour and how much ultraviolet it brings.
struct LightColor {
  std::string name;
  Spectrum power;
  /// Ultraviolet that excites brighteners, relative to D50 of the same luminance (1). Project's own
  /// estimates.
  double ultraviolet = 0;
};

/// Planck's law with c2 = 1.4388e-2 m K, scaled to 1 at 560 nm.
Spectrum planckian(double temperature_k);
/// CIE daylight of a correlated colour temperature, 4000 to 25000 K. Source: CIE 15, equations of the D
/// illuminants.
Spectrum daylight(double temperature_k);

/// Shape of a white LED: a blue pump and two phosphors.
struct LedShape {
  double pump_nm = 450, pump_width_nm = 9;  ///< standard deviation of the pump's peak
  double green_nm = 545, green_below_nm = 28, green_above_nm = 50;
  double red_nm = 620, red_below_nm = 34, red_above_nm = 45;
};
/// The LED of this shape whose chromaticity is that of the Planckian (daylight from 5000 K) at
/// `temperature_k`, moved by `duv` across the locus in CIE 1960 u, v (positive: greener). The three amounts
/// follow from the chromaticity; those that would be negative are set to 0. Returns relative power with Y
/// = 1.
Spectrum led(const LedShape& shape, double temperature_k, double duv);

/// A tri-phosphor tube: mercury lines and narrow emission at 435 to 612 nm on a weak continuum, at about
/// `temperature_k`.
Spectrum tri_phosphor_tube(double temperature_k, double line_width_nm, double continuum);

/// Colour rendering index of CIE 13.3 (general, first eight samples), to see whether an LED is believable.
double general_rendering_index(const Spectrum& power);

/// The light of one scene, drawn at random. The two pools differ in the shapes and in the tables they use.
LightColor random_daylight(Random& random, Pool pool);
LightColor random_warm_lamp(Random& random, Pool pool);
LightColor random_cool_lamp(Random& random, Pool pool);
LightColor random_tube(Random& random, Pool pool);

}  // namespace colorlib::scenes
