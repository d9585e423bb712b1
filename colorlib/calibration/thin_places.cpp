#include <colorlib/base/median.hpp>
#include <colorlib/calibration/thin_places_internal.hpp>
#include <utility>

namespace colorlib {

void keep_thin_places(std::vector<bool>& specular, const std::vector<Eigen::Vector3d>& xyz,
                      const Eigen::Vector3d& ground) {
  constexpr double to_spare = 0.1;     // noise and grain of film and ground
  constexpr double near_ground = 0.7;  // of the way from deposit to ground
  constexpr double bare_share =
      0.02;  // of the flagged pixels: thin films had none, a deposit with bare gaps 4 %
  Eigen::Vector3d body;
  for (int c = 0; c < 3; ++c) {
    std::vector<double> values;
    for (std::size_t i = 0; i < xyz.size(); ++i)
      if (!specular[i]) values.push_back(xyz[i][c]);
    if (values.empty()) return;
    body[c] = median(std::move(values));
  }
  const Eigen::Array3d least = (1 - to_spare) * body.array().min(ground.array());
  const Eigen::Array3d most = (1 + to_spare) * body.array().max(ground.array());
  const Eigen::Vector3d way = ground - body;
  std::vector<std::size_t> thin;
  double bare = 0;
  for (std::size_t i = 0; i < xyz.size(); ++i) {
    if (!specular[i] || (xyz[i].array() < least).any() || (xyz[i].array() > most).any()) continue;
    thin.push_back(i);
    bare += way.dot(xyz[i] - body) > near_ground * way.squaredNorm();
  }
  if (bare > bare_share * static_cast<double>(thin.size())) return;
  for (const std::size_t i : thin) specular[i] = false;
}

}  // namespace colorlib
