#pragma once
/// Simulated cameras: spectral sensitivities and the maker's colour matrices.

#include <array>
#include <string>
#include <vector>

#include "tests/scenes/lights.hpp"
#include "tests/scenes/spectra.hpp"

namespace colorlib::scenes {

/// Sensitivities of red, green and blue, lens and filters included; each has its peak at 1 before balance.
struct Camera {
  std::string name;
  std::array<Spectrum, 3> sensitivity;
};

/// The cameras of a pool. Those of Pool::measured are published ones, the others invented; the families are
/// described in README.md.
const std::vector<Camera>& cameras(Pool pool);
/// One of them; an invented one with its curves shifted by some nm and stretched by some per cent, so that no
/// two scenes share a camera exactly.
Camera random_camera(Random& random, Pool pool);

/// Camera response to a reflectance under a light, raw (no balance).
Vector3 camera_response(const Camera& camera, const Spectrum& reflectance, const Spectrum& light);

/// White-balanced camera RGB (white = 1, 1, 1) -> linear sRGB, as its maker would fit it: least squares over
/// the maker's own training reflectances under `light`, white kept exactly. Source of sRGB: IEC 61966-2-1.
Matrix3 maker_matrix(const Camera& camera, const Spectrum& light);
/// Mean and largest dE00 that the maker's matrix leaves on his training set: how good an instrument the
/// camera is.
struct MakerFit {
  double mean_de00 = 0, worst_de00 = 0;
};
MakerFit maker_fit(const Camera& camera, const Spectrum& light);

}  // namespace colorlib::scenes
