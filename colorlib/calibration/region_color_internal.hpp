#pragma once
/// The mean colour of many pixels: every pixel through the model before averaging, glints left out.

#include <colorlib/calibration/camera_model_internal.hpp>
#include <optional>
#include <span>

namespace colorlib {

/// The camera model with the tone curve tabulated: the same answer, much faster.
class FastModel {
 public:
  FastModel() = default;
  explicit FastModel(const CameraModel& model);
  Eigen::Vector3d xyz(const CameraModel& model, const SheetPixel& pixel) const;

 private:
  static constexpr int steps = 4096;
  static constexpr double top = 1.3;
  std::vector<double> light_;  ///< y at u = i * top / steps
};

struct RegionMean {
  Eigen::Vector3d xyz;
  ParameterJacobian by_parameters;  ///< dXYZ/dparameters, averaged over some of the pixels
  PointMm place;                    ///< of the used pixels' middle
  std::size_t pixels = 0;
  double glint_share = 0;
  Eigen::Matrix3d scatter;  ///< covariance of the used pixels' XYZ
};

/// Mirrored light is left out as `specular_pixels` finds it; where a matt ground (XYZ) is known, its showing
/// through is none.
RegionMean region_mean(const CameraModel& model, const FastModel& fast, std::span<const SheetPixel> pixels,
                       const std::optional<Xyz>& matt_ground);

}  // namespace colorlib
