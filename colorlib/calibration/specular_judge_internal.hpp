#pragma once
/// Judges from what speaks for mirrored light at one pixel whether the pixel is left out.

#include <array>
#include <cstddef>

namespace colorlib {

/// What speaks for mirrored light at a pixel. All without unit: quotients by a standard deviation or dE00,
/// made gentle by asinh, log or log1p so that strong glints do not outweigh everything. "Beside" are the 8
/// pixels round it, "farther" the 16 round those.
enum class Evidence : std::size_t {
  added,                ///< asinh(s / sd), a free
  missing,              ///< asinh(a / sd)
  certainty,            ///< asinh of the standard deviations by which the fit that fits stands above none
  effect,               ///< asinh(dE00 by which that fit moves the body); 0 without added light
  away,                 ///< log1p(d^2) / 2, d the pixel's own Mahalanobis distance from the body
  lighter,              ///< asinh(L* - body's L*)
  difference,           ///< asinh(dE00 between pixel and body)
  most_effect_beside,   ///< highest `effect` of the 8
  most_effect_farther,  ///< highest of the 16
  effect_beside,        ///< mean of the 8
  effect_farther,       ///< mean of the 16
  gap_farther,          ///< mean of the 16 of asinh(a / sd) where s is foil's share of a
  found_beside,         ///< share of the 8 that the first look found
  found_share,          ///< asinh(100 x share of the region that the first look found)
  light_unknown,        ///< log(dE00 that one sd of s makes)
  gap_unknown,          ///< log(dE00 that one sd of a gap makes)
  lightness,            ///< body's L* / 50 - 1
};
constexpr std::size_t evidence_count = 17;
using EvidenceValues = std::array<float, evidence_count>;

/// Log odds that mirrored light moves the pixel by more than dE00 2, for photos `developed` by a camera or
/// linear ones.
double specular_log_odds(const EvidenceValues& evidence, bool developed);
/// Pixels with more than that are left out.
double specular_threshold(bool developed);

}  // namespace colorlib
