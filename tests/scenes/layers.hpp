#pragma once
/// Kubelka-Munk layers, wavelength by wavelength [Kubelka & Munk 1931; Kubelka 1948].

#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// Reflectance of a layer of scattering power SX over a backing; `masstone` is that of an endless layer, in
/// (0, 1).
double layer_reflectance(double masstone, double scattering_power, double backing);
/// The same for spectra; scattering power at each wavelength is `scattering_power` (lambda / 550
/// nm)^-exponent.
Spectrum layer_reflectance(const Spectrum& masstone, double scattering_power, double exponent,
                           const Spectrum& backing);
/// Masstone from the ratio of absorption to scattering: 1 + k - sqrt(k (k + 2)).
double masstone_of_ratio(double absorption_to_scattering);

}  // namespace colorlib::scenes
