#include <algorithm>
#include <cmath>
#include <colorlib/calibration/region_color_internal.hpp>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/calibration/thin_places_internal.hpp>

namespace colorlib {

FastModel::FastModel(const CameraModel& model) {
  if (!model.layout.tone) return;
  light_.resize(steps + 2);
  for (int i = 0; i < steps + 2; ++i)
    light_[static_cast<std::size_t>(i)] = std::exp(model.log_light(i * top / steps));
}

Eigen::Vector3d FastModel::xyz(const CameraModel& model, const SheetPixel& pixel) const {
  const Eigen::Vector3d field = model.log_field(pixel.place);
  const Eigen::Vector3d u = model.uncoupled(pixel.encoded);
  std::array<double, 3> z;
  for (int c = 0; c < 3; ++c) {
    double y = 0;
    if (model.layout.tone) {
      const double place = std::clamp(u[c], lowest_encoded, top) * (steps / top);
      const int i = static_cast<int>(place);
      const double t = place - i;
      y = light_[static_cast<std::size_t>(i)] * (1 - t) + light_[static_cast<std::size_t>(i) + 1] * t;
    } else {
      y = std::max(u[c], lowest_linear);
    }
    z[static_cast<std::size_t>(c)] = model.surface_light(c, y, field[c]);
  }
  return model.corrected(z, field[0] - field[2]);
}

RegionMean region_mean(const CameraModel& model, const FastModel& fast, std::span<const SheetPixel> pixels,
                       const std::optional<Xyz>& matt_ground) {
  constexpr std::size_t jacobian_samples = 32;

  std::vector<Eigen::Vector3d> xyz(pixels.size());
  for (std::size_t i = 0; i < pixels.size(); ++i) xyz[i] = fast.xyz(model, pixels[i]);
  std::vector<bool> specular = specular_pixels(xyz, pixels, model.layout.tone);
  if (matt_ground) keep_thin_places(specular, xyz, {matt_ground->x, matt_ground->y, matt_ground->z});
  std::vector<std::size_t> used;
  for (std::size_t i = 0; i < pixels.size(); ++i)
    if (!specular[i]) used.push_back(i);
  if (used.empty())  // nothing but mirror: the share of 1 has the reading refused
    for (std::size_t i = 0; i < pixels.size(); ++i) used.push_back(i);

  RegionMean mean;
  mean.pixels = used.size();
  mean.glint_share = static_cast<double>(std::count(specular.begin(), specular.end(), true)) /
                     static_cast<double>(pixels.size());
  mean.xyz.setZero();
  for (const auto i : used) {
    mean.xyz += xyz[i] / static_cast<double>(used.size());
    mean.place.x += pixels[i].place.x / static_cast<double>(used.size());
    mean.place.y += pixels[i].place.y / static_cast<double>(used.size());
  }
  mean.scatter.setZero();
  for (const auto i : used) mean.scatter += (xyz[i] - mean.xyz) * (xyz[i] - mean.xyz).transpose();
  mean.scatter /= static_cast<double>(used.size());

  mean.by_parameters.setZero(3, model.layout.size());
  ParameterJacobian jacobian;
  const std::size_t count = std::min(jacobian_samples, used.size());
  for (std::size_t k = 0; k < count; ++k) {
    model.xyz(pixels[used[k * used.size() / count]], jacobian);
    mean.by_parameters += jacobian / static_cast<double>(count);
  }
  return mean;
}

}  // namespace colorlib
