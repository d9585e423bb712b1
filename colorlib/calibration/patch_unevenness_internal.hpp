#pragma once
/// How far the mean of a patch may be off because the patch is not of one colour any more: soil, scuffs,
/// fingerprints.

#include <colorlib/chart/patch_sampler.hpp>
#include <vector>

namespace colorlib {

/// Standard deviation, L* units in each axis, for every sample; 0 for dropped ones and for those whose pixels
/// scatter like the other patches' (up to 1.3 times the median, which noise and print grain reach). Smudges
/// larger than a pixel move the mean by about 1.3 times what they add to the pixels' scatter: so the patches'
/// residuals on soiled sheets of the tuning and broad scenes.
std::vector<double> patch_unevenness(const std::vector<PatchSample>& samples, bool display_referred);

}  // namespace colorlib
