#pragma once
/// From where on light, exposure and glare of a photo are worth a word: the same for its flags and its
/// checks.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <cstddef>

namespace colorlib {

/// Limits are the project's own choice.
inline constexpr double uneven_light_de00 = 12;  ///< of bare paper under the brightest and the dimmest light
/// Of the patches. One or two vivid ones of a sheet may clip in a good photo; more say that the exposure is
/// too high.
inline constexpr double clipped_patches_share = 0.05;
/// Of the patches. Up to a tenth of them, the most vivid ones, lay beyond the file's range in 90 simulated
/// phone photos as the camera wrote them (tuning scenes).
inline constexpr double dark_patches_share = 0.12;
inline constexpr double specular_flag_share = 0.02;  ///< of a region's pixels

/// How many patches the exposure took.
std::size_t over_exposed_patches(const SheetSamples& samples);
/// Whether more than `most_share` of the patches or most of the paper is clipped.
bool is_over_exposed(const SheetSamples& samples, double most_share = clipped_patches_share);
/// How many patches are left out because they stand at the bottom of their range.
std::size_t under_exposed_patches(const SheetSamples& samples);
/// Whether these are more than `dark_patches_share`.
bool is_under_exposed(const SheetSamples& samples);
/// Whether the light differs by more than `most_de00` across the sheet. Where the exposure took most of the
/// paper nobody can tell, and the exposure is what to mend: false.
bool is_unevenly_lit(const CalibrationSummary& summary, const SheetSamples& samples,
                     double most_de00 = uneven_light_de00);

}  // namespace colorlib
