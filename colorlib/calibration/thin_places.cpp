#include <algorithm>
#include <colorlib/calibration/thin_places_internal.hpp>

namespace colorlib {

void keep_thin_places(std::vector<bool>& specular, const std::vector<Eigen::Vector3d>& xyz, const Eigen::Vector3d& ground) {
  constexpr double to_spare = 0.1;  // noise and grain of film and ground
  Eigen::Vector3d body;
  for (int c = 0; c < 3; ++c) {
    std::vector<double> values;
    for (std::size_t i = 0; i < xyz.size(); ++i)
      if (!specular[i]) values.push_back(xyz[i][c]);
    if (values.empty()) return;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    body[c] = *middle;
  }
  const Eigen::Array3d least = (1 - to_spare) * body.array().min(ground.array());
  const Eigen::Array3d most = (1 + to_spare) * body.array().max(ground.array());
  for (std::size_t i = 0; i < xyz.size(); ++i)
    if (specular[i] && (xyz[i].array() >= least).all() && (xyz[i].array() <= most).all()) specular[i] = false;
}

}  // namespace colorlib
