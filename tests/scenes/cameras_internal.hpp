#pragma once
#include <vector>

#include "tests/scenes/cameras.hpp"

namespace colorlib::scenes {

std::vector<Camera> tuning_cameras();
std::vector<Camera> measured_cameras();
namespace held_out {
/// Only the accuracy tests may use these; no constant of the method may be chosen with them.
std::vector<Camera> cameras();
}  // namespace held_out

/// Scaled to a peak of 1, with an optical cut at both ends of the spectrum.
Camera finished_camera(std::string name, std::array<Spectrum, 3> curves, double short_cut_nm,
                       double long_cut_nm);

}  // namespace colorlib::scenes
