#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/outlier_photos_internal.hpp>

namespace colorlib {
namespace {

/// L*, a*, b* of the median photo by coordinate.
Lab median_of(const std::vector<const Reading*>& readings) {
  Vector3 middle{};
  for (std::size_t axis = 0; axis < 3; ++axis) {
    std::vector<double> values;
    for (const Reading* r : readings) values.push_back(vector_from(r->lab)[axis]);
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    middle[axis] = values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
  }
  return lab_from(middle);
}

/// Covariance (Lab) of what differs from photo to photo of one specimen.
Matrix3 own_part(const Reading& reading, const TogetherOptions& options) {
  Matrix3 own;
  for (const auto& part : reading.budget)
    if (!shared_between_photos(part.name)) own = own + part.covariance;
  const Vector3 weight = ciede2000_axis_weights(reading.lab);
  for (int k = 0; k < 3; ++k)
    own(k, k) += std::pow(options.least_difference * weight[static_cast<std::size_t>(k)], 2);
  return own;
}

}  // namespace

double distance_from(const Reading& reading, const std::vector<const Reading*>& others,
                     const TogetherOptions& options) {
  const Lab middle = median_of(others);
  // Lack of fit differs a little from light to light, too: a quarter of its variance counts as the photo's
  // own.
  const Matrix3 spread = own_part(reading, options) + 0.25 * reading.lab_covariance;
  const Eigen::Vector3d away(reading.lab.l - middle.l, reading.lab.a - middle.a, reading.lab.b - middle.b);
  const Eigen::Matrix3d covariance =
      Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(spread.m.data());
  // The median of the others is uncertain as well.
  const double share = 1 + 1.57 / static_cast<double>(others.size());
  return std::sqrt(away.dot((share * covariance).ldlt().solve(away)));
}

OutlierPhotos outlier_photos(std::span<const Reading* const> readings, const TogetherOptions& options) {
  OutlierPhotos photos;
  for (std::size_t i = 0; i < readings.size(); ++i)
    if (readings[i] != nullptr && !readings[i]->refused) photos.used.push_back(i);
  const std::size_t standing = photos.used.size();
  // The farthest goes first; more than half of the photos always stay.
  while (photos.used.size() >= 3 && 2 * (photos.used.size() - 1) > standing) {
    std::size_t farthest = 0;
    double most = 0;
    for (std::size_t u = 0; u < photos.used.size(); ++u) {
      std::vector<const Reading*> others;
      for (const std::size_t i : photos.used)
        if (i != photos.used[u]) others.push_back(readings[i]);
      if (const double distance = distance_from(*readings[photos.used[u]], others, options); distance > most)
        most = distance, farthest = u;
    }
    if (most <= options.outlier_distance) break;
    photos.left_out.push_back(photos.used[farthest]);
    photos.used.erase(photos.used.begin() + static_cast<std::ptrdiff_t>(farthest));
  }
  std::sort(photos.left_out.begin(), photos.left_out.end());
  return photos;
}

}  // namespace colorlib
