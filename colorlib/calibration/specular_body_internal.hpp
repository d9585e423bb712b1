#pragma once
/// A region's own colour and texture, which mirrored light is told from.

#include <Eigen/Dense>
#include <colorlib/calibration/pixel_lattice_internal.hpp>
#include <vector>

namespace colorlib::specular {

constexpr int side = 9;  // pixels of a neighbourhood
constexpr int middle = 4;
using Patch = Eigen::Matrix<double, 3 * side, 1>;
using PatchMatrix = Eigen::Matrix<double, 3 * side, 3 * side>;
using Likeness = Eigen::Matrix<double, side, side>;

constexpr double near_at = 20;  // squared Mahalanobis distance that still is body

struct Region {
  std::vector<Eigen::Vector3d> t;  ///< XYZ over white
  std::vector<Neighbourhood> beside;
};

struct Body {
  Eigen::Vector3d middle;
  Eigen::Matrix3d scatter;
};

/// From the half of the pixels that lies together most closely, then from all that are near by its measure:
/// up to a third of mirrored pixels do not widen it, and a thin film's long tail still counts as body.
Body body_of(const std::vector<Eigen::Vector3d>& t);

/// Covariance of the body's departures from its middle over a neighbourhood, from neighbourhoods of body
/// alone.
PatchMatrix patch_scatter(const Region& region, const Body& body);

/// Departures from the body over the neighbourhood of a pixel, 3 rows a pixel.
Patch departures(const Region& region, const Body& body, std::size_t pixel);

/// Correlation between the pixels of a neighbourhood, `beside` for two that share a side, Gaussian in their
/// distance.
Likeness likeness_of(double beside);

}  // namespace colorlib::specular
