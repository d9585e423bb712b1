#pragma once
/// Which pixels of a region show a mirror image instead of the specimen: glints of wet tissue and foil, and
/// the bare foil between the grains of a deposit.

#include <Eigen/Dense>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/specular_judge_internal.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// A pixel that holds light from a shiny surface is body colour plus neutral light: t = (1 - a) m + s (1, 1,
/// 1) in XYZ over white, with m the region's own colour and a the share of the body that is missing or in
/// shadow. s and a of a pixel are estimated from it and the eight beside it, against the region's own scatter
/// from pixel to pixel: grain, gill lines and uneven thickness are part of that scatter and stay. Whether
/// such light moves the pixel by more than dE00 2 is judged from these estimates, their certainty, those of
/// the pixels round it and how many there are in the region (`specular_log_odds`), differently in photos
/// `developed` by a camera, whose sharpening and compression spread glints over their surroundings. Clipped
/// glints of any tint are left out for being brighter than the body by a quarter of a white in X, Y and Z;
/// pixels without any light beyond the body's own stay. A neutral specimen tells its own shading from foil
/// only by brightness. `xyz` on the scale where white is D50; one flag a pixel.
std::vector<bool> specular_pixels(const std::vector<Eigen::Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                  bool developed);

enum class Verdict { body, by_evidence, glare };
struct SpecularEvidence {
  std::vector<Verdict> verdicts;       ///< `by_evidence`: `specular_log_odds` decides
  std::vector<EvidenceValues> values;  ///< complete where the verdict is `by_evidence`
};
/// What `specular_pixels` judges by; its judge is trained on these.
SpecularEvidence specular_evidence(const std::vector<Eigen::Vector3d>& xyz,
                                   std::span<const SheetPixel> pixels, bool developed);

}  // namespace colorlib
