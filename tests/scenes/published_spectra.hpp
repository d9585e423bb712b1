#pragma once
/// Published tables: from Debian's colord-data, resampled to the scenes' grid, and LED illuminants in
/// led_illuminants.cpp.

#include <string>
#include <vector>

#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// CIE 1931 2 degree colour-matching functions.
const std::array<Spectrum, 3>& observer_1931();
/// A CIE illuminant by the name of its file: "A", "C", "D50", "D65", "F1" ... "F12". Throws
/// std::runtime_error when colord-data is not installed (a broken test bench, not a user's mistake).
const Spectrum& illuminant(const std::string& name);
/// CIE illuminant LED-B`number`, 1 to 3: lamps of 2733, 2998 and 4103 K.
const Spectrum& led_illuminant(int number);
/// S0, S1, S2 of CIE daylight.
const std::array<Spectrum, 3>& daylight_basis();
/// The 14 test-colour reflectances of CIE 13.3 (the file's 15th is left out).
const std::vector<Spectrum>& test_color_reflectances();

}  // namespace colorlib::scenes
