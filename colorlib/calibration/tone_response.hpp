#pragma once
/// The tone response of a developed photo: a smooth correction, in log light, to the sRGB decoding.

#include <array>

namespace colorlib {

/// ln y(u) = ln linear_from_srgb(u) + sum_j c_j B_j(u), u in [lowest_encoded, 1], with B the uniform cubic
/// B-splines over three equal segments of [0, 1]: they bend as far as phones do, and no further.
inline constexpr int tone_basis_size = 6;
/// Below this encoded value sRGB holds no information in 8 bits; u is clamped here before the logarithm.
inline constexpr double lowest_encoded = 0.004;

using ToneBasis = std::array<double, tone_basis_size>;

/// B_j(u), summing to 1; u is clamped to [0, 1].
ToneBasis tone_basis(double u);
/// dB_j/du; zero outside [0, 1], where the basis is held.
ToneBasis tone_basis_slope(double u);

/// ln linear_from_srgb(u), u >= lowest_encoded.
double log_srgb_light(double u);
/// Its slope d/du.
double log_srgb_light_slope(double u);

}  // namespace colorlib
