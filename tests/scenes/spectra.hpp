#pragma once
/// Spectra on one fixed grid, and their colours. Written apart from colorlib's own colorimetry on purpose:
/// the simulator must not share the mistakes of what it tests.

#include <array>
#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib::scenes {

/// 380 to 780 nm by 5 nm.
inline constexpr int wave_count = 81;
inline constexpr double first_wave_nm = 380, wave_step_nm = 5;
inline double wave_nm(int i) { return first_wave_nm + wave_step_nm * i; }

/// Values at the grid's wavelengths: reflectance (0 to 1), relative power, or sensitivity.
struct Spectrum {
  std::array<double, wave_count> at{};

  double& operator[](int i) { return at[static_cast<std::size_t>(i)]; }
  double operator[](int i) const { return at[static_cast<std::size_t>(i)]; }
  bool operator==(const Spectrum&) const = default;
};

/// A spectrum computed wavelength by wavelength: `spectrum_of([](double nm) { return ...; })`.
template <class Function>
Spectrum spectrum_of(Function f) {
  Spectrum s;
  for (int i = 0; i < wave_count; ++i) s[i] = f(wave_nm(i));
  return s;
}
Spectrum constant_spectrum(double value);
/// Linear between the grid's wavelengths, the end values beyond.
double at_wavelength(const Spectrum& spectrum, double nm);
Spectrum operator*(double factor, Spectrum s);
Spectrum operator*(Spectrum a, const Spectrum& b);
Spectrum operator+(Spectrum a, const Spectrum& b);
/// Sum of products over the grid.
double inner_product(const Spectrum& a, const Spectrum& b);
/// Sum of products of three over the grid.
double inner_product(const Spectrum& a, const Spectrum& b, const Spectrum& c);

/// exp(-((nm - centre) / width)^2 / 2), `width` below and above the centre apart.
double bell(double nm, double centre_nm, double width_below_nm, double width_above_nm);
inline double bell(double nm, double centre_nm, double width_nm) {
  return bell(nm, centre_nm, width_nm, width_nm);
}
/// 1 / (1 + exp(-(nm - edge) / width)): rises through 1/2 at the edge.
double step_up(double nm, double edge_nm, double width_nm);

/// XYZ (CIE 1931, 2 degree) of a light's own power, scaled so that Y = 1.
Xyz white_of_light(const Spectrum& power);
/// XYZ of a reflectance under a light, Y = 1 for the perfect diffuser; 5 nm sums.
Xyz xyz_under(const Spectrum& reflectance, const Spectrum& light);
/// XYZ of a reflectance under CIE D50, what a spectrophotometer says.
Xyz xyz_d50(const Spectrum& reflectance);
/// Lab relative to `white`; CIE 1976.
Lab lab_of(const Xyz& xyz, const White& white);
Xyz xyz_of(const Lab& lab, const White& white);
/// Lab (D50, 2 degree) of a reflectance.
Lab lab_d50(const Spectrum& reflectance);
/// CIEDE2000 for the simulator's own purposes (glint masks, sanity checks), kL = kC = kH = 1.
double de00(const Lab& a, const Lab& b);
/// Lab under D65 -> Lab under D50 by linear Bradford adaptation.
Lab lab_d50_from_d65(const Lab& lab);

/// Correlated colour temperature by McCamy's cubic (1992), good to some 20 K between 2500 and 8000 K.
double correlated_temperature_k(const Spectrum& power);

}  // namespace colorlib::scenes
